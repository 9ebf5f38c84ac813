// A check that goes on: what a change brings is told, what it mends too, and Ctrl-C ends it with the code of the last look.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
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

/** A check that goes on, and what it prints. */
function watching(folder: string, ...args: string[]) {
  const env = { ...process.env, NO_COLOR: '1', XDG_CACHE_HOME: path.join(shop.folder, '.cache') };
  const child = spawn(process.execPath, [program, 'check', '--watch', ...args], { cwd: folder, env });
  watch = child;
  let printed = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text: string) => {
      printed += text;
    });
  const told = (words: RegExp) =>
    vi.waitFor(() => expect(printed).toMatch(words), { timeout: 60_000, interval: 50 });
  return {
    child,
    ended: new Promise<number | null>((resolve) => child.on('close', resolve)),
    told,
    /** Something is done, and these words follow. */
    after: async (act: () => void, words: RegExp) => {
      printed = '';
      act();
      await told(words);
      return printed;
    },
  };
}

const bad = job.replace(/^chassis: .*$/m, 'chassis: ../specs/gone.chassis.yaml');

test('what changes is told, and what is gone; Ctrl-C ends it', { timeout: 240_000 }, async () => {
  const { child, ended, told, after } = watching(shop.folder);
  const name = 'jobs/w-1174.readings.yaml';
  await told(/^(nothing found|\d+ findings?)$/m);
  await after(
    () => write(name, bad),
    /^jobs\/w-1174\.readings\.yaml:.*error.*gone\.chassis\.yaml[\s\S]*^\d+ findings?$/m,
  );
  // as many editors save: beside it, then over it
  const moved = (text: string) => {
    write(`${name}~`, text);
    renameSync(path.join(shop.folder, `${name}~`), path.join(shop.folder, name));
  };
  for (let i = 0; i < 2; i++) {
    await after(
      () => moved(job),
      /^gone: jobs\/w-1174\.readings\.yaml:.*gone\.chassis\.yaml[\s\S]*^\w.* found|^\d+ f/m,
    );
    await after(() => moved(bad), /^jobs\/w-1174\.readings\.yaml:.*error.*gone\.chassis\.yaml/m);
  }
  const mended = await after(() => write(name, job), /^gone: jobs\/w-1174\.readings\.yaml:.*gone\.chassis/m);
  expect(mended.match(/gone\.chassis/g)).toHaveLength(1);

  // a folder that was not there when it began
  await after(() => {
    mkdirSync(path.join(shop.folder, 'more'));
    write('more/notes.txt', 'no file of ours');
    write('more/w-9.readings.yaml', 'framewright: readings/1\nchassis: gone.chassis.yaml\n');
  }, /^more\/w-9\.readings\.yaml:.*error/m);

  child.kill('SIGINT');
  expect(await ended).toBe(framewright(['check'], shop.folder).code);
  rmSync(path.join(shop.folder, 'more'), { recursive: true });
});

test('outside of a repository a chassis file elsewhere is watched; without a reader it ends', {
  timeout: 240_000,
}, async () => {
  const { folder, gone } = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    'specs/teal-estate.chassis.yaml': sample('specs/teal-estate.chassis.yaml'),
    'jobs/w-1174.readings.yaml': job,
  });
  rmSync(path.join(folder, '.git'), { recursive: true });
  const { child, ended, told, after } = watching(path.join(folder, 'jobs'));
  await told(/^(nothing found|\d+ findings?)$/m);
  const away = path.join(folder, 'specs/marten-hatch.chassis.yaml');
  await after(() => renameSync(away, `${away}~`), /^w-1174\.readings\.yaml:.*error/m);
  await after(() => renameSync(`${away}~`, away), /^gone: w-1174\.readings\.yaml:.*error/m);
  child.stdout.destroy();
  // `check` writes of it when it has news
  writeFileSync(path.join(folder, 'jobs/w-1174.readings.yaml'), bad);
  expect(await ended).toBe(1);
  gone();
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
