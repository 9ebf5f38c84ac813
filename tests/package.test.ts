// The packed extension holds what runs, its licences and its page; nothing else.
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const root = path.join(import.meta.dirname, '..');
const client = path.join(root, 'client');

/** Names in a zip archive, from its central directory (PKWARE APPNOTE 4.3.12). */
const namesIn = (archive: Buffer): string[] => {
  const names: string[] = [];
  const entry = Buffer.from('PK\x01\x02', 'latin1');
  let at = archive.readUInt32LE(archive.lastIndexOf('PK\x05\x06', undefined, 'latin1') + 16);
  while (archive.subarray(at, at + 4).equals(entry)) {
    const [name, extra, comment] = [28, 30, 32].map((offset) => archive.readUInt16LE(at + offset));
    names.push(archive.toString('utf8', at + 46, at + 46 + name));
    at += 46 + name + extra + comment;
  }
  return names;
};

test('the list of its files', () => {
  expect(namesIn(readFileSync(path.join(client, 'framewright.vsix'))).sort()).toEqual([
    '[Content_Types].xml',
    'extension.vsixmanifest',
    'extension/LICENSE.txt',
    'extension/dist/browser-server.js',
    'extension/dist/browser-spreadsheet.js',
    'extension/dist/browser.js',
    'extension/dist/command/bin/framewright.js',
    'extension/dist/command/bin/package.json',
    'extension/dist/command/dist/check-thread.cjs',
    'extension/dist/command/dist/cli-check.cjs',
    'extension/dist/command/dist/cli-commands.cjs',
    'extension/dist/command/dist/cli-judge.cjs',
    'extension/dist/command/dist/cli.cjs',
    'extension/dist/command/dist/main.cjs',
    'extension/dist/command/package.json',
    'extension/dist/drawing-view.js',
    'extension/dist/extension.js',
    'extension/dist/server.js',
    'extension/dist/solid-view.js',
    'extension/dist/spreadsheet.cjs',
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
    'extension/language-configuration.json',
    'extension/package.json',
    'extension/readme.md',
    'extension/walkthrough/chassis.svg',
    'extension/walkthrough/job.svg',
    'extension/walkthrough/jobs.svg',
    'extension/walkthrough/judged.svg',
    'extension/walkthrough/readings.svg',
  ]);
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
