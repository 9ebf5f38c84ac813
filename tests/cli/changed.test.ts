// `check` of what changed, in a repository of git's own.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { framewright } from './framewright';

// many processes, one after the other
vi.setConfig({ testTimeout: 300_000 });

let folder: string;
const git = (...args: string[]): void => void execFileSync('git', args, { cwd: folder, stdio: 'pipe' });
const write = (name: string, text: string): void => {
  mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
  writeFileSync(path.join(folder, name), text);
};
const body = (more = '', latch = 2700): string =>
  `framewright: chassis/1\nvehicle: Teal\n${more}source: { kind: published, reference: sheet 7, date: 2026-01-12 }\npoints:\n  latch: { centre: [${latch}, 0, 780] }\n`;
const job = (name: string, more = ''): string =>
  `framewright: readings/1\nchassis: ../specs/${name}.chassis.yaml\n${more}timeline:\n  - measure: as received\n    readings: { latch: [2701, 0, 780] }\n`;
const broken = (name: string): string => job(name, 'technican: rk\n');

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'framewright-changed-'));
  git('init', '-q', '-b', 'main');
  git('config', 'user.name', 'rk');
  git('config', 'user.email', 'rk@pinefield.invalid');
  write('specs/marten.chassis.yaml', body());
  write('specs/variant.chassis.yaml', body('extends: ./marten.chassis.yaml\n'));
  write('specs/other.chassis.yaml', body());
  for (const [name, of] of [
    ['a', 'marten'],
    ['b', 'variant'],
    ['c', 'other'],
    ['d', 'other'],
  ])
    write(`jobs/${name}.readings.yaml`, job(of));
  git('add', '-A');
  git('commit', '-q', '-m', 'first');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => {
  git('reset', '-q', '--hard', 'HEAD');
  git('clean', '-fdq');
});

/** The files that were looked at, by the titles of jobs and by findings; and what was complained. */
function checked(args: string[], cwd = folder, input?: string) {
  const { code, out, err } = framewright(['check', '--verbose', ...args], cwd, input);
  const count = Number(/^(\d+) files?: /m.exec(out)?.[1] ?? 0);
  const jobs = [...out.matchAll(/^(\S+\.readings\.yaml): job, open$/gm)].map(([, name]) => name);
  return { code, count, jobs, err, out };
}

describe('--changed', () => {
  test('looks at what the work tree has changed, new files too', () => {
    expect(checked(['--changed'])).toMatchObject({
      code: 0,
      count: 0,
      err: 'framewright: no file of ours changed\n',
    });
    write('jobs/d.readings.yaml', broken('other'));
    write('jobs/new.readings.yaml', job('other'));
    expect(checked(['--changed'])).toMatchObject({
      code: 1,
      count: 2,
      jobs: ['jobs/d.readings.yaml', 'jobs/new.readings.yaml'],
    });
    // from a folder below, and of a part only
    expect(checked(['--changed'], path.join(folder, 'specs')).jobs).toEqual([
      '../jobs/d.readings.yaml',
      '../jobs/new.readings.yaml',
    ]);
    expect(checked(['--changed', 'jobs/new.readings.yaml'])).toMatchObject({ code: 0, count: 1 });
  });

  test('looks at what rests on it, at any depth, be it changed, renamed or gone', () => {
    write('specs/marten.chassis.yaml', body('', 2702));
    expect(checked(['--changed'])).toMatchObject({
      count: 4,
      jobs: ['jobs/a.readings.yaml', 'jobs/b.readings.yaml'],
    });
    git('checkout', '-q', '.');
    rmSync(path.join(folder, 'specs/other.chassis.yaml'));
    const gone = checked(['--changed']);
    expect(gone).toMatchObject({ count: 2, jobs: ['jobs/c.readings.yaml', 'jobs/d.readings.yaml'], code: 1 });
    expect(gone.out).toContain('there is no file ../specs/other.chassis.yaml');
    git('checkout', '-q', '.');
    renameSync(
      path.join(folder, 'specs/other.chassis.yaml'),
      path.join(folder, 'specs/renamed.chassis.yaml'),
    );
    git('add', '-A');
    for (const how of ['--changed', '--staged']) expect(checked([how])).toMatchObject({ count: 3, code: 1 });
  });
});

describe('--staged', () => {
  test('judges what is staged, whatever stands in the work tree', () => {
    write('jobs/c.readings.yaml', broken('other'));
    git('add', '-A');
    write('jobs/c.readings.yaml', job('other', 'technician: rk\n'));
    write('jobs/d.readings.yaml', broken('other'));
    const staged = checked(['--staged']);
    expect(staged).toMatchObject({ code: 1, count: 1, jobs: ['jobs/c.readings.yaml'] });
    expect(staged.out).toContain('technican');
    // and the other way round
    git('add', 'jobs/c.readings.yaml');
    write('jobs/c.readings.yaml', broken('other'));
    expect(checked(['--staged'])).toMatchObject({ code: 0, count: 1 });
    expect(checked(['--changed'])).toMatchObject({ code: 1, count: 2 });
  });

  test('judges by the chassis file as it is staged', () => {
    write('specs/other.chassis.yaml', body().replace('latch', 'lock'));
    git('add', '-A');
    write('specs/other.chassis.yaml', body());
    const { code, count, out } = checked(['--staged']);
    expect([code, count]).toEqual([1, 3]);
    expect(out).toContain('latch');
    write('specs/other.chassis.yaml', body().replace('latch', 'lock'));
    git('checkout', '-q', 'HEAD', '--', 'specs');
    expect(checked(['--staged']).count).toBe(0);
  });

  test('is the same where the work tree has the line ends of another system', () => {
    write('jobs/c.readings.yaml', job('other', 'technician: rk\n'));
    git('add', '-A');
    const { out } = checked(['--staged', '--no-cache']);
    write('jobs/c.readings.yaml', job('other', 'technician: rk\n').replaceAll('\n', '\r\n'));
    write('specs/other.chassis.yaml', `${body()}# typed\n`);
    expect(checked(['--staged', '--no-cache']).out).toBe(out);
  });

  test('works before the first commit', () => {
    const first = mkdtempSync(path.join(tmpdir(), 'framewright-first-'));
    try {
      execFileSync('git', ['init', '-q'], { cwd: first });
      mkdirSync(path.join(first, 'specs'));
      writeFileSync(path.join(first, 'specs/teal.chassis.yaml'), body());
      expect(checked(['--changed'], first).count).toBe(1);
      expect(checked(['--staged'], first).count).toBe(0);
      execFileSync('git', ['add', '-A'], { cwd: first });
      for (const how of ['--changed', '--staged']) expect(checked([how], first).count).toBe(1);
    } finally {
      rmSync(first, { recursive: true, force: true });
    }
  });
});

test('--since looks at all that came after a revision', () => {
  git('checkout', '-q', '-b', 'since');
  write('jobs/c.readings.yaml', job('other', 'technician: rk\n'));
  git('commit', '-q', '-a', '-m', 'second');
  write('specs/variant.chassis.yaml', body('extends: ./marten.chassis.yaml\n', 2701));
  expect(checked(['--since', 'main']).jobs).toEqual(['jobs/b.readings.yaml', 'jobs/c.readings.yaml']);
  expect(checked(['--changed']).jobs).toEqual(['jobs/b.readings.yaml']);
  const nowhere = checked(['--since', 'nowhere']);
  expect([nowhere.code, nowhere.err]).toEqual([
    2,
    expect.stringMatching(/^framewright: git cannot tell .*nowhere/),
  ]);
  expect(checked(['--since=--output=x']).code).toBe(2);
  git('checkout', '-q', '-f', 'main');
});

test('--dependents adds what rests on the chassis files that are named', () => {
  expect(checked(['specs/marten.chassis.yaml']).count).toBe(1);
  expect(checked(['--dependents', 'specs/marten.chassis.yaml'])).toMatchObject({
    count: 4,
    jobs: ['jobs/a.readings.yaml', 'jobs/b.readings.yaml'],
  });
  expect(checked(['--dependents', 'jobs/c.readings.yaml']).count).toBe(1);
});

test('what settings ignore is left out of what changed, and said', () => {
  write('.framewright.yaml', 'framewright: settings/1\nignore: [jobs/old]\n');
  write('jobs/old/x.readings.yaml', 'nonsense');
  const { err, count } = checked(['--changed']);
  expect(err).toBe('framewright: 1 file left out by ignore: jobs/old/x.readings.yaml\n');
  // the settings are new, and all below rests on them
  expect(count).toBe(8);
});

test('a text that comes in is judged as if it stood in its file', () => {
  const args = ['--stdin-filename', 'jobs/c.readings.yaml', '-'];
  expect(checked(args, folder, broken('other'))).toMatchObject({ code: 1, count: 1 });
  expect(checked(args, folder, job('other'))).toMatchObject({ code: 0, jobs: ['jobs/c.readings.yaml'] });
  // it need not be there
  expect(checked(['--stdin-filename', 'jobs/none.readings.yaml'], folder, broken('other')).code).toBe(1);
  expect(readFileSync(path.join(folder, 'jobs/c.readings.yaml'), 'utf8')).toBe(job('other'));
});

test('outside of a repository it says so', () => {
  const outside = mkdtempSync(path.join(tmpdir(), 'framewright-outside-'));
  const { code, err } = checked(['--changed'], outside);
  rmSync(outside, { recursive: true, force: true });
  expect([code, err]).toEqual([2, expect.stringMatching(/^framewright: git cannot tell what changed: /)]);
});

test.each([
  [['--changed', '--staged'], 'check takes one of --changed, --staged'],
  [['-'], 'say in which file it would stand'],
  [['--stdin-filename', 'a.readings.yaml', 'b'], 'nothing else is checked'],
])('%s is wrong usage', (args, says) => {
  const { code, err } = framewright(['check', ...args]);
  expect([code, err]).toEqual([2, expect.stringContaining(says)]);
});

describe('a path at which nothing is', () => {
  test.each([['--changed'], ['--staged'], ['--since=HEAD']])('beside %s is said, and is no pass', (how) => {
    const { code, err } = checked([how, 'jobs/e.readings.yaml']);
    expect([code, err]).toEqual([2, 'framewright: jobs/e.readings.yaml: there is no such file\n']);
    expect(checked([how, 'jobs'])).toMatchObject({ code: 0, count: 0 });
    rmSync(path.join(folder, 'jobs/d.readings.yaml'));
    git('add', '-A');
    expect(checked([how, 'jobs/d.readings.yaml'])).toMatchObject({ code: 0, count: 0 });
  });
});

describe('a repository that the environment names', () => {
  test('without its work tree is that of the folder, wherever in it one stands', () => {
    write('specs/other.chassis.yaml', body('', 2710));
    vi.stubEnv('GIT_DIR', path.join(folder, '.git'));
    try {
      expect(checked(['--changed'], path.join(folder, 'specs')).jobs).toEqual([
        '../jobs/c.readings.yaml',
        '../jobs/d.readings.yaml',
      ]);
      const { out } = framewright(['diff', 'HEAD'], path.join(folder, 'jobs'));
      expect(out).toMatch(/^specs\/other\.chassis\.yaml: .*2 jobs rest on it/);
    } finally {
      vi.unstubAllEnvs();
    }
  });
});

test('the number of files that are left out stands in JSON', () => {
  write('.framewright.yaml', 'framewright: settings/1\nignore: [jobs/old]\n');
  write('jobs/old/x.readings.yaml', 'nonsense');
  const { out } = framewright(['check', '--format', 'json', '.'], folder);
  expect(JSON.parse(out)).toMatchObject({ leftOut: 1, looked: 8 });
});

test.runIf(process.platform === 'linux')(
  'a cache folder that the system will not make is done without',
  () => {
    const said = (...more: string[]) =>
      framewright(['check', ...more, '.'], folder, undefined, { XDG_CACHE_HOME: '/proc' });
    expect(said()).toEqual(said('--no-cache'));
    expect(said()).toMatchObject({ code: 0, out: expect.stringContaining('7 files: ') });
  },
);
