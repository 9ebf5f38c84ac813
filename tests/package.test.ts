// The packed extension holds what runs, its licences and its page; nothing else.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';

const root = path.join(import.meta.dirname, '..');
const client = path.join(root, 'client');

const files = unzipSync(readFileSync(path.join(client, 'framewright.vsix')));

test('the list of its files', () => {
  expect(Object.keys(files).sort()).toEqual([
    '[Content_Types].xml',
    'extension.vsixmanifest',
    'extension/LICENSE.txt',
    'extension/changelog.md',
    'extension/dist/browser-server.js',
    'extension/dist/browser-spreadsheet.js',
    'extension/dist/browser.js',
    'extension/dist/command/bin/framewright.js',
    'extension/dist/command/dist/check-thread.cjs',
    'extension/dist/command/dist/cli-baseline.cjs',
    'extension/dist/command/dist/cli-check.cjs',
    'extension/dist/command/dist/cli-commands.cjs',
    'extension/dist/command/dist/cli-judge.cjs',
    'extension/dist/command/dist/cli.cjs',
    'extension/dist/command/dist/main.cjs',
    'extension/dist/command/dist/spreadsheet.cjs',
    'extension/dist/command/package.json',
    'extension/dist/drawing-view.js',
    'extension/dist/extension.js',
    'extension/dist/solid-view.js',
    'extension/dist/third-party-licences.txt',
    'extension/grammars/chassis.tmLanguage.json',
    'extension/grammars/readings.tmLanguage.json',
    'extension/grammars/settings.tmLanguage.json',
    'extension/grammars/values.tmLanguage.json',
    'extension/icons/chassis-dark.svg',
    'extension/icons/chassis-light.svg',
    'extension/icons/framewright.png',
    'extension/icons/framewright.svg',
    'extension/icons/readings-dark.svg',
    'extension/icons/readings-light.svg',
    'extension/l10n/bundle.l10n.json',
    'extension/language-configuration.json',
    'extension/package.json',
    'extension/package.nls.json',
    'extension/readme.md',
    'extension/walkthrough/chassis.svg',
    'extension/walkthrough/job.svg',
    'extension/walkthrough/jobs.svg',
    'extension/walkthrough/judged.svg',
    'extension/walkthrough/readings.svg',
  ]);
});

test('nothing is in it twice', () => {
  const places = new Map<string, string[]>();
  for (const [name, content] of Object.entries(files)) {
    const sum = createHash('sha256').update(content).digest('hex');
    places.set(sum, [...(places.get(sum) ?? []), name]);
  }
  expect(places.size).toBeGreaterThan(30);
  expect([...places.values()].filter((names) => names.length > 1)).toEqual([]);
});

/** Of each entry what the list at the end of an archive says: its name, when it was changed, what it permits. Layout: APPNOTE.TXT, 4.3.12. */
function entries(archive: Buffer): { name: string; time: number; mode: number }[] {
  const end = archive.lastIndexOf('PK\u0005\u0006');
  const found: { name: string; time: number; mode: number }[] = [];
  for (let at = archive.readUInt32LE(end + 16); archive.readUInt32LE(at) === 0x02014b50; ) {
    const length = archive.readUInt16LE(at + 28);
    const name = archive.toString('utf8', at + 46, at + 46 + length);
    found.push({ name, time: archive.readUInt32LE(at + 12), mode: archive.readUInt32LE(at + 38) >>> 16 });
    at += 46 + length + archive.readUInt16LE(at + 30) + archive.readUInt16LE(at + 32);
  }
  return found;
}

test('packed at another time, by somebody else, it is the same bytes', () => {
  const all = entries(readFileSync(path.join(client, 'framewright.vsix')));
  const names = all.map(({ name }) => name);
  expect(names.toSorted((a, b) => a.localeCompare(b))).toEqual(names);
  expect(new Set(names)).toEqual(new Set(Object.keys(files)));
  // 2020-01-01 00:00:00: the date in the upper half, years since 1980 in its upper seven bits
  expect(new Set(all.map(({ time }) => time))).toEqual(
    new Set([(((2020 - 1980) << 9) | (1 << 5) | 1) << 16]),
  );
  const ours = all.filter(({ name }) => name.startsWith('extension/dist/'));
  expect(ours.every(({ mode }) => mode === 0o100644 || mode === 0o100755)).toBe(true);
});

const bundles = readdirSync(path.join(client, 'dist'), { recursive: true, encoding: 'utf8' }).filter((name) =>
  /\.c?js$/.test(name),
);

test('all bundles are looked at', () => expect(bundles.length).toBeGreaterThan(8));

test.each(bundles)('dist/%s is fit to ship', (name) => {
  const code = readFileSync(path.join(client, 'dist', name), 'utf8');
  expect(code.length).toBeGreaterThan(20);
  expect(code).not.toContain(root);
  expect(code).not.toContain('sourceMappingURL=');
});

test('the packed command line runs by itself', () => {
  const program = path.join(client, 'dist/command/bin/framewright.js');
  const words = execFileSync(process.execPath, [program, '--version'], { encoding: 'utf8' });
  const { version } = JSON.parse(readFileSync(path.join(root, 'server/package.json'), 'utf8'));
  expect(words.trim()).toBe(version);
});
