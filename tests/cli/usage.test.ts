import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { framewright, root } from './framewright';

const { version } = JSON.parse(readFileSync(path.join(root, 'server/package.json'), 'utf8'));

test.each([['--version'], ['-V'], ['check', '--version']])('%s %s', (...args) => {
  expect(framewright(args.filter(Boolean))).toEqual({ code: 0, out: `${version}\n`, err: '' });
});

test.each([['--help'], ['-h'], ['help']])('%s prints how it is used', (...args) => {
  const { code, out, err } = framewright(args.filter(Boolean));
  expect({ code, err }).toEqual({ code: 0, err: '' });
  for (const command of [
    'check [PATH…]',
    'inspect --json FILE…',
    'plan FILE [PART]',
    'advise FILE',
    'report FILE -o PAGE',
    'sign JOB --by NAME',
    'explain RULE',
    'lsp --stdio',
  ])
    expect(out).toContain(command);
  expect(out).toMatch(/exit: 0 nothing wrong, 1 .*, 2 /);
});

test('help of one command, asked for in either way', () => {
  const { code, out, err } = framewright(['check', '--help']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^framewright check: /);
  expect(out).toContain('--exit-zero');
  expect(out).not.toContain('report');
  expect(framewright(['help', 'check'])).toEqual({ code, out, err });
});

test('check --format concise prints one line a finding and nothing else, with the same exit code', () => {
  const [long, short] = [[], ['--format', 'concise']].map((format) =>
    framewright(['check', '--verbose', ...format, 'samples']),
  );
  const heads = long.out.match(/^\S+:\d+:\d+: (?=error|warning|information)/gm) ?? [];
  const lines = short.out.trimEnd().split('\n');
  expect(heads.length).toBeGreaterThan(20);
  expect(lines.map((line) => /^\S+:\d+:\d+: (?=\S+ [a-z-]+\/[a-z-]+ \S)/.exec(line)?.[0])).toEqual(heads);
  expect({ code: short.code, err: short.err }).toEqual({ code: long.code, err: long.err });
});

test('advise prints text, or JSON of its schema, with exit code 0', () => {
  const file = 'samples/jobs/w-1205-moved-control-point.readings.yaml';
  const { code, out, err } = framewright(['advise', file, '--uncertainty', '0.3']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(
    /u = 0\.3 mm[\s\S]*read tailgate-hinge, both sides: ±1\.4 → ±1\.0\n {2}Then every point of the scope can be decided\.\n$/,
  );
  const { uncertainty, steps } = JSON.parse(
    framewright(['advise', file, '--uncertainty', '0.3', '--format', 'json']).out,
  );
  expect({ uncertainty, points: steps[0].points }).toEqual({
    uncertainty: 0.3,
    points: ['tailgate-hinge.L', 'tailgate-hinge.R'],
  });
});

describe('wrong usage exits 2 and says what is wrong, then how it is used', () => {
  test.each([
    [[], 'a command is missing'],
    [['chekc'], 'there is no command chekc; did you mean check?'],
    [['constructor'], 'there is no command constructor'],
    [['check', '--bogus'], "Unknown option '--bogus'"],
    [['check', '-x'], "Unknown option '-x'"],
    [['check', '--sumaries'], "Unknown option '--sumaries'; did you mean --summaries?"],
    [['check', '--open=1'], "Option '--open' does not take an argument"],
    [['check', '--json', 'samples'], 'check has no --json'],
    [['explain', '--open', 'base/moved'], 'explain has no --open'],
    [['inspect', 'samples'], 'inspect prints JSON only: add --json'],
    [['inspect', '--json'], 'inspect needs a file'],
    [['plan'], 'plan needs a readings file'],
    [
      ['advise', 'a', '--uncertainty', 'fine'],
      '--uncertainty is a number of mm above 0 and up to 100, not fine',
    ],
    [['advise', 'a', '--uncertainty', '0'], '--uncertainty is a number of mm above 0 and up to 100, not 0'],
    [['advise', 'a', '--format', 'concise'], '--format is text or json'],
    [['plan', 'a', 'b', 'c'], 'plan needs a readings file'],
    [['explain'], 'explain needs the name of a rule'],
    [['rules', 'base'], 'rules needs no path'],
    [['rules', '--formt', 'json'], "Unknown option '--formt'; did you mean --format?"],
    [['rules', '--format', 'jsn'], '--format is text or json; did you mean json?'],
    [['formt', 'a'], 'there is no command formt; did you mean format?'],
  ])('%j', (args, words) => {
    const { code, out, err } = framewright(args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.startsWith(`framewright: ${words}`)).toBe(true);
    expect(err).toContain('usage: framewright COMMAND');
  });
});

test('explain prints the page of a rule, and of several', () => {
  const one = framewright(['explain', 'base/moved']);
  expect(one.code).toBe(0);
  expect(one.out).toMatch(/^# base\/moved\n[\s\S]*## How to mend it[\s\S]*## Source/);
  const two = framewright(['explain', 'base/moved', 'sign-off/tension']);
  expect(two.out.match(/^# \w.*\/.*$/gm)).toEqual(['# base/moved', '# sign-off/tension']);
  expect(framewright(['explain', 'base/movd'])).toEqual({
    code: 2,
    out: '',
    err: 'framewright: there is no rule base/movd; did you mean base/moved?\n',
  });
});

test('rules lists them, explain those of a family', () => {
  const { code, out } = framewright(['rules']);
  expect(code).toBe(0);
  expect(out).toMatch(/^base\/moved {2,}\w+ {2,}\S/m);
  const family = framewright(['explain', 'base']);
  expect(family.code).toBe(0);
  expect(family.out.match(/^\S+\//gm)?.every((name) => name === 'base/')).toBe(true);
  expect(JSON.parse(framewright(['rules', '--format', 'json']).out).rules.length).toBeGreaterThan(60);
});

test('no colour where no terminal is', () => {
  expect(framewright(['check', 'samples/jobs/w-1205-moved-control-point.readings.yaml']).out).not.toContain(
    '\u001b',
  );
});
