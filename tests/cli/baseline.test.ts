// A shop that brings 500 old jobs: what was there before is counted, what is new is told.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { framewright, repository } from './framewright';

vi.setConfig({ testTimeout: 300_000 });

const jobs = 500;
const body = `framewright: chassis/1
vehicle: Teal
source: { kind: published, reference: sheet 7, date: 2026-01-12 }
points:
  latch: { centre: [2700, 0, 780] }
`;
/** An old job with a key of other days, and a point that nobody knows. */
const old = (more = ''): string => `framewright: readings/1
chassis: ../specs/b.chassis.yaml
foreman: rk
timeline:
  - measure: as received
    readings:
      latch: [2701, 0, 780]
      hinge-of-old: [1, 2, 3]
${more}`;
const nameOf = (i: number): string => `jobs/w-${1000 + i}.readings.yaml`;

let shop: ReturnType<typeof repository>;
const git = (...args: string[]) => execFileSync('git', args, { cwd: shop.folder, stdio: 'pipe' });
const at = (name: string): string => path.join(shop.folder, name);
const baseline = (): string => at('.framewright-baseline.json');
const check = (...args: string[]) => framewright(['check', '--format', 'concise', ...args], shop.folder);
const knownIn = (text: string): number =>
  Number(/(\d+) known findings? of the baseline not shown/.exec(text)?.[1] ?? 0);

beforeAll(() => {
  const files = Array.from({ length: jobs }, (_, i) => [nameOf(i), old()]);
  shop = repository({ 'specs/b.chassis.yaml': body, ...Object.fromEntries(files) });
  rmSync(at('.git'), { recursive: true });
  git('init', '-q', '-b', 'main');
  git('config', 'user.name', 'rk');
  git('config', 'user.email', 'rk@pinefield.invalid');
  const first = check('--write-baseline');
  expect([first.code, first.out]).toEqual([0, '']);
  git('add', '-A');
  git('commit', '-q', '-m', 'first');
});
afterAll(() => shop.gone());
beforeEach(() => {
  git('reset', '-q', '--hard', 'HEAD');
  git('clean', '-fdq');
});

test('they are silent, and counted, with the cache and without', () => {
  const said = [check(), check(), check('--no-cache')];
  for (const { code, out, err } of said) {
    expect([code, out]).toEqual([0, '']);
    expect(knownIn(err)).toBeGreaterThanOrEqual(2 * jobs);
  }
  expect(new Set(said.map(({ err }) => err)).size).toBe(1);
  const json = JSON.parse(framewright(['check', '--format', 'json'], shop.folder).out);
  expect(json).toMatchObject({ known: knownIn(said[0].err), counts: { error: 0 } });
  // from below the folder it is the same one
  expect(framewright(['check', '.'], at('jobs')).err).toContain('of the baseline not shown');
});

test('lines that move are no news, a new fault in one is told', () => {
  writeFileSync(at(nameOf(7)), `# moved by a line\n${old()}`);
  expect(check().out).toBe('');
  writeFileSync(at(nameOf(7)), old('      hinge-of-new: [1, 2, 3]\n'));
  const { code, out } = check();
  expect(code).toBe(1);
  expect(out.trimEnd().split('\n')).toEqual([expect.stringContaining('hinge-of-new')]);
  expect(out).toContain(`${nameOf(7)}:9:`);
});

test('what is staged is held against the baseline that is staged', () => {
  writeFileSync(at(nameOf(3)), `# staged\n${old()}`);
  git('add', '-A');
  const { code, out, err } = check('--staged');
  expect([code, out]).toEqual([0, '']);
  expect(knownIn(err)).toBeGreaterThanOrEqual(2);
  git('rm', '-q', '--cached', '.framewright-baseline.json');
  expect(check('--staged').code).toBe(1);
  expect(check().code).toBe(0);
});

test('a file that moved is unknown', () => {
  renameSync(at(nameOf(4)), at('jobs/moved.readings.yaml'));
  const { code, out } = check();
  expect(code).toBe(1);
  expect(
    out
      .trimEnd()
      .split('\n')
      .every((line) => line.startsWith('jobs/moved.readings.yaml:')),
  ).toBe(true);
});

test('--update-baseline takes out what is gone and never adds', () => {
  const before = JSON.parse(readFileSync(baseline(), 'utf8')).known.length;
  rmSync(at(nameOf(0)));
  writeFileSync(at(nameOf(1)), old().replace('foreman: rk\n', ''));
  writeFileSync(at(nameOf(2)), old('      hinge-of-new: [1, 2, 3]\n'));
  const { code, out, err } = check('--update-baseline');
  expect(code).toBe(1);
  expect(out).toContain('hinge-of-new');
  expect(err).toMatch(/\.framewright-baseline\.json: \d+ known findings, \d+ gone\n$/);
  const { known } = JSON.parse(readFileSync(baseline(), 'utf8'));
  const of = (i: number) => known.filter(({ file }: { file: string }) => file === nameOf(i));
  expect(of(0)).toEqual([]);
  expect(JSON.stringify(of(1))).not.toContain('foreman');
  expect(of(2)).toEqual(of(5).map((each: object) => ({ ...each, file: nameOf(2) })));
  expect(before - known.length).toBe(of(5).length + 1);
  // what was mended and comes again is news
  writeFileSync(at(nameOf(1)), old());
  expect(check(nameOf(1)).out).toContain('foreman');
});

test('a part of the files writes its own part alone', () => {
  writeFileSync(at(nameOf(2)), old('      hinge-of-new: [1, 2, 3]\n'));
  writeFileSync(at(nameOf(3)), old('      hinge-of-new: [1, 2, 3]\n'));
  expect(check('--write-baseline', nameOf(2)).code).toBe(0);
  const { out } = check();
  expect(out.trimEnd().split('\n')).toEqual([expect.stringContaining(nameOf(3))]);
});

test('a damaged one is said, with exit code 2, and nothing is written over', () => {
  const damaged = readFileSync(baseline(), 'utf8').slice(0, 5000);
  writeFileSync(baseline(), damaged);
  for (const args of [[], ['--write-baseline'], ['--update-baseline']]) {
    const { code, out, err } = check(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('the baseline is damaged, or of another version');
  }
  expect(readFileSync(baseline(), 'utf8')).toBe(damaged);
});

test('it is not written where a file could not be read', () => {
  const { code, err } = check('--write-baseline', 'gone');
  expect(code).toBe(2);
  expect(err).toContain('the baseline was not written');
  rmSync(baseline());
  expect(check('--update-baseline').err).toContain('there is no baseline to update');
  expect(existsSync(baseline())).toBe(false);
});

test.each([
  [['--write-baseline', '--update-baseline'], 'check takes one of'],
  [['--write-baseline', '--staged'], 'a baseline is written of files and folders as they stand'],
])('%j is wrong usage', (args, says) => {
  const { code, err } = check(...args);
  expect([code, err.startsWith(`framewright: ${says}`)]).toEqual([2, true]);
});
