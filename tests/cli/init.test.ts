// A repository is begun, and its hook refuses what must not be committed.
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { framewright, program } from './framewright';

// many processes, one after the other
vi.setConfig({ testTimeout: 300_000 });

let folder: string;
let bin: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'framewright-init-'));
  bin = mkdtempSync(path.join(tmpdir(), 'framewright-bin-'));
  writeFileSync(path.join(bin, 'framewright'), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`);
  chmodSync(path.join(bin, 'framewright'), 0o755);
});
afterAll(() => {
  for (const each of [folder, bin]) rmSync(each, { recursive: true, force: true });
});

function git(...args: string[]) {
  const { status, stdout, stderr } = spawnSync('git', args, {
    cwd: folder,
    encoding: 'utf8',
    env: {
      ...process.env,
      PATH: `${bin}${path.delimiter}${process.env.PATH}`,
      XDG_CACHE_HOME: path.join(bin, 'cache'),
      NO_COLOR: '1',
    },
  });
  return { code: status, said: stdout + stderr };
}
const write = (name: string, text: string): void => writeFileSync(path.join(folder, name), text);
const read = (name: string): string => readFileSync(path.join(folder, name), 'utf8');
const job = (reading: string): string =>
  `framewright: readings/1\nchassis: ../specs/teal.chassis.yaml\ntimeline:\n  - measure: as received\n    readings:\n      latch: ${reading}\n      lock: [1, 2, 3]\n      hook: [1, 2, 3]\n      hole: [1, 2, 3]\n      bolt: [2701, 0, 780]\n`;
const points = ['latch', 'lock', 'hook', 'hole', 'bolt'].map(
  (name, i) => `  ${name}: { centre: [${2700 + i}, 0, 780] }\n`,
);

test('in an empty folder it writes what a shop begins with, and writes nothing over', () => {
  write('.gitlab-ci.yml', 'mine\n');
  const first = framewright(['init'], folder);
  expect(first).toMatchObject({ code: 0, err: '' });
  expect(first.out).toContain('left as it is: .gitlab-ci.yml');
  expect(first.out).toContain('this is no git repository');
  expect(read('.gitlab-ci.yml')).toBe('mine\n');
  expect(readdirSync(folder).sort()).toEqual([
    '.framewright.yaml',
    '.gitattributes',
    '.githooks',
    '.github',
    '.gitlab-ci.yml',
    '.pre-commit-config.yaml',
    '.vscode',
    'jobs',
    'specs',
  ]);
  expect(git('init', '-q', '-b', 'main').code).toBe(0);
  git('config', 'diff.framewright-chassis.xfuncname', '^mine$');
  write('.framewright.yaml', 'framewright: settings/1\ndecision-rule: guarded\n');
  const second = framewright(['init'], folder);
  expect(second.out).toContain('wrote git config core.hooksPath');
  expect(second.out).toContain('left as it is: .framewright.yaml, specs/.gitkeep,');
  expect(read('.framewright.yaml')).toContain('guarded');
  expect(git('config', '--get', 'diff.framewright-chassis.xfuncname').said).toBe('^mine$\n');
  // what it wrote is right
  expect(framewright(['check', '.framewright.yaml'], folder).code).toBe(0);
});

test('the hook lets a good job pass and refuses a bad one, by what is staged', () => {
  git('config', 'user.name', 'rk');
  git('config', 'user.email', 'rk@pinefield.invalid');
  mkdirSync(path.join(folder, 'specs'), { recursive: true });
  write(
    'specs/teal.chassis.yaml',
    `framewright: chassis/1\nvehicle: Teal\nsource: { kind: published, reference: sheet 7, date: 2026-01-12 }\npoints:\n${points.join('')}`,
  );
  write('jobs/w-1.readings.yaml', job('[2701, 0, 780]'));
  git('add', '-A');
  const good = git('commit', '-q', '-m', 'first');
  expect(good).toMatchObject({ code: 0 });
  write('jobs/w-1.readings.yaml', job('[2701, 0]'));
  git('add', '-A');
  write('jobs/w-1.readings.yaml', job('[2701, 0, 780]'));
  const bad = git('commit', '-q', '-m', 'second');
  expect(bad.code).not.toBe(0);
  expect(bad.said).toContain('jobs/w-1.readings.yaml:6:');
  expect(git('log', '--format=%s').said).toBe('first\n');
  // a reference that jobs rest on is refused with them
  git('reset', '-q', '--hard');
  write('specs/teal.chassis.yaml', read('specs/teal.chassis.yaml').replace('  latch:', '  handle:'));
  git('add', '-A');
  expect(git('commit', '-q', '-m', 'third').said).toContain('jobs/w-1.readings.yaml:6:');
  git('reset', '-q', '--hard');
});

test('the head of a piece of a diff names its measure, and two people’s entries conflict', () => {
  write('jobs/w-1.readings.yaml', job('[2701, 0, 780]').replace('bolt: [2701', 'bolt: [2702'));
  expect(git('diff', '-U0').said).toMatch(/^@@ .* @@ measure: as received$/m);
  const entry = (name: string): string => `${job('[2701, 0, 780]')}  - note: ${name}\n`;
  git('checkout', '-q', '-b', 'other');
  write('jobs/w-1.readings.yaml', entry('measured by ab'));
  git('commit', '-q', '-a', '-m', 'ab');
  git('checkout', '-q', 'main');
  write('jobs/w-1.readings.yaml', entry('pulled by rk'));
  git('commit', '-q', '-a', '-m', 'rk');
  expect(git('merge', 'other').said).toContain('CONFLICT');
});
