import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { checkedAgain } from './check-watch';

let folder = '';
beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'framewright-again-')));
  mkdirSync(join(folder, 'jobs'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let lines: string[] = [];
beforeEach(() => {
  lines = [];
});
const output = { print: (line: string) => lines.push(line), complain: () => {}, flush: () => {} };
const jobs = () => [{ path: 'jobs', uri: pathToFileURL(join(folder, 'jobs')).href }];

/** What a person's Ctrl-C is to a test. */
function ending(): { end(): void; told: Promise<void> } {
  let end = (): void => {};
  const told = new Promise<void>((resolve) => {
    end = resolve;
  });
  return { end, told };
}

it('ends in the middle of the first check, of which nothing is known', async () => {
  const { end, told } = ending();
  const code = checkedAgain(jobs(), () => new Promise(() => {}), output, told);
  end();
  expect(await code).toBe(2);
  expect(lines).toEqual([]);
});

it('ends in the middle of a later check with the code of the one before', async () => {
  const { end, told } = ending();
  let count = 0;
  const check = (): Promise<number> => (++count === 1 ? Promise.resolve(1) : new Promise(() => {}));
  const code = checkedAgain(jobs(), check, output, told);
  await vi.waitFor(() => expect(lines).toEqual(['nothing found']));
  writeFileSync(join(folder, 'jobs/a.readings.yaml'), 'x');
  await vi.waitFor(() => expect(count).toBe(2), { timeout: 20_000 });
  end();
  expect(await code).toBe(1);
});

it('passes on what the first check fails on, and watches no longer', async () => {
  const open = () => process.getActiveResourcesInfo().filter((name) => /FSEvent/.test(name)).length;
  const before = open();
  const check = () => Promise.reject(new Error('a fault'));
  await expect(checkedAgain(jobs(), check, output, ending().told)).rejects.toThrow('a fault');
  await vi.waitFor(() => expect(open()).toBeLessThanOrEqual(before));
});

it('looks again where something changes that a report was made from, wherever it lies and whatever its name is', async () => {
  const { end, told } = ending();
  const elsewhere = join(folder, 'specs/one.yaml');
  mkdirSync(dirname(elsewhere));
  let count = 0;
  const code = checkedAgain(
    jobs(),
    async (_, restsOn) => {
      count++;
      restsOn([pathToFileURL(elsewhere).href]);
      return 0;
    },
    output,
    told,
  );
  await vi.waitFor(() => expect(count).toBe(2), { timeout: 20_000 });
  writeFileSync(elsewhere, 'x');
  await vi.waitFor(() => expect(count).toBeGreaterThan(2), { timeout: 20_000 });
  const settings = count;
  writeFileSync(join(folder, '.framewright.yaml'), 'x');
  await vi.waitFor(() => expect(count).toBeGreaterThan(settings), { timeout: 20_000 });
  end();
  expect(await code).toBe(0);
});
