// Output that nobody takes: clear words where there is someone to read them, a true exit code, no stack trace.
import { spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { patienceMs, program, repository, root } from './framewright';

const sample = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
const many = Array.from({ length: 80 }, (_, i) => `jobs/w-${i}.readings.yaml`);
let shop: ReturnType<typeof repository>;
let full: number;
beforeAll(() => {
  const job = sample('jobs/w-1210-typing-mistakes.readings.yaml');
  shop = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    ...Object.fromEntries(many.map((name) => [name, job])),
  });
  full = openSync('/dev/full', 'w');
});
afterAll(() => {
  closeSync(full);
  shop.gone();
});

const run = (args: readonly string[], stdio: ('ignore' | 'pipe' | number)[]) =>
  spawnSync(process.execPath, [program, ...args], {
    cwd: shop.folder,
    stdio,
    encoding: 'utf8',
    timeout: patienceMs,
  });

describe('a disk that is full', () => {
  test.each([[many[0]], ['jobs']])('check %s > …', (what) => {
    const { status, stderr } = run(['check', what], ['ignore', full, 'pipe']);
    expect(stderr).toMatch(/^framewright: the output cannot be written: Error: ENOSPC.*\n$/);
    expect(status).toBe(2);
  });

  test.each([[['inspect', '--json', many[0]]], [['explain', 'base/moved']], [['--version']]])(
    '%j > …',
    (args) => {
      const { status, stderr } = run(args, ['ignore', full, 'pipe']);
      expect(stderr).toMatch(/^framewright: the output cannot be written: Error: ENOSPC.*\n$/);
      expect(status).toBe(2);
    },
  );

  test('complaints that cannot be written leave the rest as it is', () => {
    const sound = run(['check', many[0], 'nowhere'], ['ignore', 'pipe', 'pipe']);
    const { status, stdout } = run(['check', many[0], 'nowhere'], ['ignore', 'pipe', full]);
    expect(stdout).toBe(sound.stdout);
    expect([sound.status, status]).toEqual([2, 2]);
  });
});

describe('a reader that closes the pipe', () => {
  test.each([
    ['jobs', '1'],
    ['specs', '0'],
  ])('gets what it wanted of %s, and the exit code says what was found', (what, code) => {
    const line = `"$0" "$1" check ${what} | head -c 20 >/dev/null; echo "\${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', line, process.execPath, program], {
      cwd: shop.folder,
      encoding: 'utf8',
      timeout: patienceMs,
    });
    expect([stdout, stderr]).toEqual([`${code}\n`, '']);
  });
});
