// The sample shop, judged by the built program: every mistake that was planted is named where it stands.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { framewright, root, type Said } from './framewright';

/** By the remark on its line, or the line itself: the rules that name it there. One list a file. */
const planted: Record<string, [piece: string, ...rules: string[]][]> = {
  'w-1210-typing-mistakes': [
    ['# key misspelt\n', 'text/unknown-key'],
    ['# a word where a number belongs', 'text/wrong-type'],
    ['# point misspelt', 'name/unknown-point'],
    ['scope: ', 'name/unknown-part'],
    ['# decimal commas', 'text/wrong-type'],
    ['# read again and typed again', 'text/duplicate-key'],
    ['# a comma for the thousands', 'text/wrong-type'],
    ['# wrote down the length alone', 'text/wrong-type'],
    ['# a letter dropped', 'name/unknown-point'],
    ['# the height is missing', 'text/wrong-type'],
    ['# unreachable, with a letter short', 'text/wrong-type'],
    ['# left or right?', 'name/needs-side'],
    ['# there is one latch', 'name/unknown-point'],
    ['# the word is buckle', 'text/wrong-type'],
    ['part: aprn.L', 'name/unknown-part'],
    ['# up or down?', 'text/wrong-type'],
    ['# a kind of entry that there is not', 'text/unknown-key'],
    ['# key misspelt, so nothing below it', 'text/unknown-key'],
    ['# the bracket was never closed', 'text/syntax'],
  ],
  'w-1211-measuring-mistakes': [
    ['# nobody knows how good it is', 'reading/no-uncertainty'],
    ['# two holes further on', 'reading/gross'],
    ['# the second time the tip had slipped', 'reading/repeat-spread'],
    ['# first two digits the wrong way round', 'reading/gross'],
    ['# stood in front of the car', 'reading/gross'],
    ['# and so the other one too', 'reading/gross'],
    ['# the minus was left out', 'reading/gross'],
    ['# 22.. typed for 30..', 'reading/gross'],
    ['- measure: again, from the front', 'base/mirrored'],
    ['- measure: again, arm back from service', 'base/scale'],
  ],
  'w-1212-procedure-mistakes': [
    ['- pull: left rail out ', 'procedure/no-hold', 'procedure/not-relieved'],
    ['    part: front-rail.L\n    chains:', 'procedure/kinked'],
    ['- heat: front-rail.L', 'procedure/heat'],
    ['    part: centre-pillar.R\n', 'procedure/never-straighten'],
    ['# and to the left, when it is in too far', 'procedure/pull-against'],
    ['- section: front-rail.L ', 'procedure/section-in-straightened'],
    ['- section: front-rail.R ', 'procedure/section-band'],
    ['- heat: apron.R', 'procedure/heat'],
    ['rail-front-lower.L: [2992.7', 'procedure/under-tension'],
    ['sign-off:', 'sign-off/outside', 'sign-off/unmeasured', 'sign-off/tension', 'sign-off/procedure'],
    ['# the job has been changed since', 'sign-off/changed'],
    ['# the sheet has been changed since', 'sign-off/changed'],
  ],
  // no mistakes: points that the body's file has not yet
  'w-1218-used-front': ['front-rail-brace', 'radiator-support-stay', 'apron-ledge']
    .flatMap((name) => [`${name}.L: `, `${name}.R: `])
    .map((row) => [row, 'name/unknown-point']),
  'w-1205-moved-control-point': [['- measure: as received', 'base/moved']],
  'w-1192-twisted-rail': [['rail-tip-upper.L:       [-812.7', 'reading/outside']],
};

const pathOf = (name: string): string => `samples/jobs/${name}.readings.yaml`;
let all: Said;
/** `file:line rule` of each finding. */
let named: Set<string>;

beforeAll(() => {
  all = framewright(['check', '--verbose', 'samples']);
  const heads = all.out.matchAll(/^(\S+?):(\d+):\d+: (?:error|warning|information)[^:]*: .*\[(\S+)\]$/gm);
  named = new Set([...heads].map(([, file, line, rule]) => `${file}:${line} ${rule}`));
});

test('the folder as a whole exits 1', () => {
  expect(all.code).toBe(1);
  expect(all.err).toBe('');
  expect(all.out).toMatch(
    /\n18 files: \d+ errors, \d+ warnings, \d+ for information, 1 ignored with a reason\n$/,
  );
});

const cases = Object.entries(planted).flatMap(([name, mistakes]) => {
  const text = readFileSync(path.join(root, pathOf(name)), 'utf8');
  return mistakes.flatMap(([piece, ...rules]) => {
    const before = text.slice(0, text.indexOf(piece)).split('\n');
    if (!text.includes(piece)) throw new Error(`${name} has no ${piece}`);
    return rules.map((rule) => ({ at: `${pathOf(name)}:${before.length}`, rule }));
  });
});

describe('each planted mistake is named where it stands', () => {
  test.each(cases)('$at $rule', ({ at, rule }) => {
    const there = [...named].filter((each) => each.startsWith(`${at} `));
    expect(there, 'what is said of that line').toContain(`${at} ${rule}`);
  });
});

test('no file has a malformed line that is not planted', () => {
  const malformed = [...named].filter((each) => / (text|name)\/(?!unused)/.test(each));
  const expected = cases
    .filter(({ rule }) => /^(text|name)\//.test(rule))
    .map(({ at, rule }) => `${at} ${rule}`);
  expect(malformed.sort()).toEqual([...new Set(expected)].sort());
});

test('a part with one level read is warned of in the tram-only job', () => {
  expect([...named].some((each) => each.includes('w-1213') && each.endsWith('reading/one-level'))).toBe(true);
});

test('the ignored finding is listed with its reason', () => {
  expect(all.out).toContain('ignored here: the bracket comes with the new wing');
});

test('the signed job alone exits 0, its sign-off stands', () => {
  const { code, out, err } = framewright(['check', 'samples/jobs/w-1174-finished.readings.yaml']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toContain('sign-off: stands (dimensions only)');
  expect(out).not.toContain('error:');
});

test('open jobs that read well exit 0, and 1 where they count too', () => {
  const job = 'samples/jobs/w-1192-twisted-rail.readings.yaml';
  expect(framewright(['check', job]).code).toBe(0);
  expect(framewright(['check', '--open', job]).code).toBe(1);
  expect(framewright(['check', '--open', '--exit-zero', job]).code).toBe(0);
});

test('from another folder the same is found', () => {
  const job = 'w-1205-moved-control-point.readings.yaml';
  const here = framewright(['check', pathOf('w-1205-moved-control-point')]);
  const there = framewright(['check', job], path.join(root, 'samples/jobs'));
  expect(there.out).toBe(here.out.replaceAll('samples/jobs/', ''));
  const below = framewright(['check'], path.join(root, 'samples'));
  expect(below.code).toBe(1);
  expect(below.out).toContain('jobs/w-1205-moved-control-point.readings.yaml:');
});

test('the plan of the twisted rail: what to hook, what to hold, what to measure, what to beware of', () => {
  const { code, out } = framewright(['plan', pathOf('w-1192-twisted-rail'), 'front-rail.L']);
  expect(code).toBe(0);
  for (const words of [
    /^ {2}hook +rail-tip-upper\.L: left \(outboard\)/m,
    /^ {2}hold +front-rail\.L at length/m,
    /Read rail-tip-upper\.L and rail-tip-lower\.L under load/,
    /The maker's procedure decides/,
    /Airbags/,
    /high voltage/,
    /lets go\s+under load kills/,
  ])
    expect(out).toMatch(words);
});
