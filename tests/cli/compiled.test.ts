// What V8 makes of the program is kept in the user's folder at its first runs, never in the package.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { patienceMs, program, repository, root } from './framewright';

const folder = mkdtempSync(path.join(tmpdir(), 'framewright-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** `check` with its cache in some folder. */
function check(cache: string, ...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, 'check', ...words], {
    cwd: root,
    encoding: 'utf8',
    timeout: patienceMs,
    env: { ...process.env, XDG_CACHE_HOME: cache, LOCALAPPDATA: cache },
  });
  return { status, stdout, stderr };
}

test('a program keeps what was compiled, says the same with it, and passes over what is spoilt', () => {
  expect(readdirSync(path.join(root, 'server/dist')).filter((name) => name.endsWith('.cache'))).toEqual([]);
  const first = check(folder, '--no-cache', 'samples/specs');
  expect(first.stdout).toMatch(/^3 files: /m);
  const code = path.join(folder, 'framewright/code-1');
  const kept = readdirSync(code).map((name) => path.join(code, name));
  expect(kept.map((file) => path.basename(file).replace(/-[\w-]{43}$/, '')).sort()).toEqual([
    'cli-check',
    'cli-judge',
  ]);
  for (const file of kept) expect(readFileSync(file, 'latin1')).not.toContain(root);
  expect(check(folder, '--no-cache', 'samples/specs')).toEqual(first);
  for (const file of kept) writeFileSync(file, 'x'.repeat(5000));
  expect(check(folder, '--no-cache', 'samples/specs')).toEqual(first);
}, 60_000);

const bundled = (name: string): string => readFileSync(path.join(root, `server/dist/${name}.cjs`), 'utf8');

// its name in the text of any bundle that holds it
const schemaLibrary = 'ZodError';

test('what a check loads first holds no library of schemas; what reads a baseline does', () => {
  expect(bundled('cli-baseline')).toContain(schemaLibrary);
  expect(bundled('cli-judge')).toContain(schemaLibrary);
  expect(bundled('cli-check')).not.toContain(schemaLibrary);
});

test.each([
  ['without a baseline it is not loaded', false],
  ['where there is one it is', true],
])('%s', (_, isThere) => {
  const shop = repository({
    'jobs/.framewright.yaml': 'framewright: settings/1\n',
    'b.chassis.yaml': 'framewright: chassis/1\nvehicle: Teal\npoints:\n  latch: { centre: [2700, 0, 780] }\n',
    ...(isThere ? { '.framewright-baseline.json': '{ "framewright": "baseline/1", "known": [] }' } : {}),
  });
  const cache = path.join(shop.folder, 'cache');
  try {
    expect(check(cache, shop.folder).stdout).toMatch(/^2 files: /m);
    const loaded = readdirSync(path.join(cache, 'framewright/code-1')).some((name) =>
      name.startsWith('cli-baseline'),
    );
    expect(loaded).toBe(isThere);
  } finally {
    shop.gone();
  }
});

test.each(['/proc', '/dev/null'])(
  'where no folder can be made, as in %s, nothing is missed',
  (nowhere) => {
    const said = check(nowhere, 'samples/specs');
    expect(said.stdout).toMatch(/^3 files: /m);
    expect(said.stderr).toBe('');
    expect(existsSync(path.join(nowhere, 'framewright'))).toBe(false);
  },
  60_000,
);
