// Colours where a terminal wants them, by what the environment says: https://no-color.org, https://force-color.org
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { framewright, patienceMs, program, root } from './framewright';

// many processes, one after the other
vi.setConfig({ testTimeout: 120_000 });

const file = path.join(root, 'samples/jobs/w-1205-moved-control-point.readings.yaml');
const args = ['check', '--format', 'concise', file];

interface Surroundings {
  readonly NO_COLOR?: string;
  readonly FORCE_COLOR?: string;
  readonly TERM?: string;
  readonly CI?: string;
}

/** What is printed into a pipe, or on a terminal that the tool `script` makes. */
function printed(isTerminal: boolean, around: Surroundings): string {
  const environment = { NO_COLOR: undefined, FORCE_COLOR: undefined, CI: undefined, ...around };
  if (!isTerminal) return framewright(args, root, undefined, environment).out;
  const command = [process.execPath, program, ...args].map((word) => `'${word}'`).join(' ');
  const { stdout, error } = spawnSync('script', ['-qec', command, '/dev/null'], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: patienceMs,
    env: { ...process.env, ...environment },
  });
  expect(error).toBeUndefined();
  return stdout;
}

const isColoured = (isTerminal: boolean, around: Surroundings): boolean => {
  const said = printed(isTerminal, around);
  expect(said).toContain('base/moved');
  return /\u001b\[\d+m/.test(said);
};

const choices = [undefined, '', '0', '1'].flatMap((force) =>
  [undefined, '', '1'].map((no): Surroundings => ({ FORCE_COLOR: force, NO_COLOR: no })),
);

describe.each([
  [true, 'xterm'],
  [true, 'dumb'],
  [false, 'xterm'],
])('a terminal %s, TERM %s', (isTerminal, TERM) => {
  test.each(choices)('$FORCE_COLOR $NO_COLOR', (chosen) => {
    const wanted =
      chosen.NO_COLOR !== '1' &&
      chosen.FORCE_COLOR !== '0' &&
      (chosen.FORCE_COLOR === '1' || (isTerminal && TERM !== 'dumb'));
    expect(isColoured(isTerminal, { ...chosen, TERM })).toBe(wanted);
  });
});

test('in a pipe of a CI host there are none unasked', () => {
  expect(isColoured(false, { CI: '1' })).toBe(false);
  expect(isColoured(false, { CI: '1', FORCE_COLOR: '1' })).toBe(true);
  expect(isColoured(true, { CI: '1', NO_COLOR: '1', TERM: 'xterm' })).toBe(false);
});

describe('--max-warnings', () => {
  test('makes a check fail above the number, which exit-zero lets pass', () => {
    const paths = ['samples/jobs/w-1192-twisted-rail.readings.yaml'];
    const all = framewright(['check', ...paths]);
    const warnings = Number(/, (\d+) warnings?, /.exec(all.out)?.[1]);
    expect(all.code).toBe(0);
    expect(warnings).toBeGreaterThan(0);
    const under = framewright(['check', '--max-warnings', String(warnings), ...paths]);
    expect([under.code, under.err]).toEqual([0, '']);
    const over = framewright(['check', '--max-warnings', String(warnings - 1), ...paths]);
    expect([over.code, over.err]).toEqual([
      1,
      `framewright: ${warnings} warning${warnings === 1 ? '' : 's'}, and --max-warnings lets ${warnings - 1} pass\n`,
    ]);
    expect(over.out).toBe(all.out);
    expect(framewright(['check', '--max-warnings=0', '--exit-zero', ...paths]).code).toBe(0);
    expect(framewright(['check', '--max-warnings=0', 'gone']).code).toBe(2);
  });

  test.each(['-1', 'few', '1.5', ''])('takes a number, not “%s”', (given) => {
    const { code, err } = framewright(['check', `--max-warnings=${given}`]);
    expect([code, err.split('\n')[0]]).toEqual([
      2,
      `framewright: --max-warnings is a number such as 0, not ${given}`,
    ]);
  });
});
