import { expect, test } from 'vitest';
import { filledIn, objectionTo } from './filled-in';

const mark = '\uE000';

test('a value is quoted, whatever was typed', () => {
  expect(filledIn(`by: "${mark}"`, mark, 'rk: "the #1"')).toBe('by: "rk: \\"the #1\\""');
});

test('in a comment stands what was typed', () => {
  expect(filledIn(`   # framewright-ignore reading/outside: ${mark}`, mark, 'slotted: adjusts "5" #1')).toBe(
    '   # framewright-ignore reading/outside: slotted: adjusts "5" #1',
  );
});

test('a comment stays on its line', () => {
  expect(filledIn(`# ${mark}`, mark, ' hit by\r\nthe\tjack\u0007 \u2028')).toBe('# hit by the jack');
});

test('dollar signs are no patterns', () => {
  expect(filledIn(`# ${mark} "${mark}"`, mark, "$$ $& $' $`")).toBe('# $$ $& $\' $` "$$ $& $\' $`"');
});

test('every mark is filled in, and nothing else changes', () => {
  expect(filledIn(`{ "${mark}": ${mark}, "a": "" }`, mark, 'b')).toBe('{ "b": b, "a": "" }');
  expect(filledIn('no mark', mark, 'b')).toBe('no mark');
});

test('a reason has a letter, of any script; a name may be a number', () => {
  for (const answer of ['-', '...', '12', '!?']) expect(objectionTo(answer, 'reason')).toMatch(/say why/);
  for (const answer of ['ok', '5 mm slot', 'durchgerostet', '曲がり', 'é'])
    expect(objectionTo(answer, 'reason')).toBeNull();
  expect(objectionTo('4711', 'name')).toBeNull();
  // nothing typed yet: left so, nothing is written
  expect(objectionTo(' ', 'reason')).toBeNull();
});
