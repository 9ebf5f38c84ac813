// A check that goes on: what a change brings is told, what it mends too, and Ctrl-C ends it with the code of the last look.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { framewright, program, repository, root } from './framewright';

const sample = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
const job = sample('jobs/w-1174-finished.readings.yaml');
let shop: ReturnType<typeof repository>;
let watch: ChildProcess | null = null;
beforeAll(() => {
  shop = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    'specs/teal-estate.chassis.yaml': sample('specs/teal-estate.chassis.yaml'),
    'jobs/w-1174.readings.yaml': job,
  });
});
afterEach(() => {
  watch?.kill('SIGKILL');
});
afterAll(() => shop.gone());

const write = (name: string, text: string): void => writeFileSync(path.join(shop.folder, name), text);

test('what changes is told, and what is gone; Ctrl-C ends it', { timeout: 240_000 }, async () => {
  let printed = '';
  const env = { ...process.env, NO_COLOR: '1', XDG_CACHE_HOME: path.join(shop.folder, '.cache') };
  const child = spawn(process.execPath, [program, 'check', '--watch'], { cwd: shop.folder, env });
  watch = child;
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text: string) => {
      printed += text;
    });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  const told = (words: RegExp) =>
    vi.waitFor(() => expect(printed).toMatch(words), { timeout: 60_000, interval: 50 });

  await told(/^(nothing found|\d+ findings?)$/m);
  printed = '';
  write('jobs/w-1174.readings.yaml', job.replace(/^chassis: .*$/m, 'chassis: ../specs/gone.chassis.yaml'));
  await told(/^jobs\/w-1174\.readings\.yaml:.*error.*gone\.chassis\.yaml/m);
  await told(/^\d+ findings?$/m);

  // mended, and a folder that was not there when it began
  printed = '';
  write('jobs/w-1174.readings.yaml', job);
  await told(/^gone: jobs\/w-1174\.readings\.yaml:.*gone\.chassis\.yaml/m);
  printed = '';
  mkdirSync(path.join(shop.folder, 'more'));
  write('more/notes.txt', 'no file of ours');
  write('more/w-9.readings.yaml', 'framewright: readings/1\nchassis: gone.chassis.yaml\n');
  await told(/^more\/w-9\.readings\.yaml:.*error/m);

  child.kill('SIGINT');
  expect(await ended).toBe(framewright(['check'], shop.folder).code);
  rmSync(path.join(shop.folder, 'more'), { recursive: true });
});

test.each([
  [['--watch', '--staged'], 'looks at files and folders as they stand'],
  [['--watch', '--format', 'sarif'], '--format concise, or none'],
  [['--watch', '--write-baseline'], 'a baseline is written of files and folders as they stand'],
])('%j is refused', (args, words) => {
  const { code, err } = framewright(['check', ...args], shop.folder);
  expect({ code, words: err.includes(words) }).toEqual({ code: 2, words: true });
});

test('a place that is not there is said', () => {
  const { code, err } = framewright(['check', '--watch', path.join(shop.folder, 'no/such/folder')], '/');
  expect({ code, words: /cannot be watched|no such/.test(err) }).toEqual({ code: 2, words: true });
});
