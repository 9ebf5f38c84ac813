import { describe, expect, it } from 'vitest';
import { meantIds, nearest, resolvedId } from './names';

const known = new Map(
  ['floor', 'latch', 'rail-tip-lower.L', 'rail-tip-lower.R', 'rail-tip-upper.L', 'jack.L'].map((id) => [
    id,
    null,
  ]),
);

describe('an id', () => {
  it('is found as it is, and bare where it may stand for both sides', () => {
    expect(resolvedId('rail-tip-lower.L', known, false)).toEqual({
      kind: 'found',
      ids: ['rail-tip-lower.L'],
    });
    expect(resolvedId('rail-tip-lower', known, true)).toEqual({
      kind: 'found',
      ids: ['rail-tip-lower.L', 'rail-tip-lower.R'],
    });
    expect(resolvedId('rail-tip-lower', known, false)).toEqual({
      kind: 'needs-side',
      ids: ['rail-tip-lower.L', 'rail-tip-lower.R'],
    });
    expect(resolvedId('jack', known, false)).toEqual({ kind: 'needs-side', ids: ['jack.L'] });
    expect(resolvedId('rail', known, true)).toEqual({ kind: 'unknown' });
  });
});

describe('what an unknown id may mean', () => {
  it.each([
    ['rail-tip-lowr.R', false, ['rail-tip-lower.R']],
    ['rail-tip-lower.r', false, ['rail-tip-lower.R']],
    ['rail-tip-lower-R', false, ['rail-tip-lower.R']],
    ['Rail-Tip-Lower.L', false, ['rail-tip-lower.L']],
    ['latch.L', false, ['latch']],
    ['lach', false, ['latch']],
    ['rail-tip-lowr', true, ['rail-tip-lower']],
    ['jack.R', false, ['jack.L']],
    ['quarter-panel', false, []],
  ])('%s', (id, bothSides, meant) => expect(meantIds(id, known, bothSides)).toEqual(meant));

  it('never guesses a side that was not written', () => {
    expect(meantIds('rail-tip-lowr', known, false)).toEqual(['rail-tip-lower.L', 'rail-tip-lower.R']);
  });

  it('is looked for further off in a long name than in a short one', () => {
    expect(nearest('hlod', ['hook', 'hold'])).toBe('hold');
    expect(nearest('b', ['a'])).toBeUndefined();
    expect(nearest('att', ['at', 'note'])).toBe('at');
    expect(nearest('by', ['to', 'for'])).toBeUndefined();
    expect(nearest('Straighten', ['sided', 'straighten'])).toBe('straighten');
  });
});

it('what is longer than a name may be means none, whatever it is made of', () => {
  const long = new Map([...known, ['a'.repeat(60_000), null]]);
  for (const piece of ['-', '.', 'a', '- ', '_L'])
    expect(meantIds(piece.repeat(80_000), long, true)).toEqual([]);
  expect(nearest('a'.repeat(79), ['a'.repeat(80), 'a'.repeat(81)])).toBe('a'.repeat(80));
});

it('a side that is not quite written as one is still told from its name', () => {
  for (const id of ['rail-tip-lower-l', 'rail-tip-lowr..L', 'rail-tip-lower _L', 'rail-tip-lower l'])
    expect(meantIds(id, known, true)).toEqual(['rail-tip-lower.L']);
  expect(meantIds('-L', known, true)).toEqual([]);
});
