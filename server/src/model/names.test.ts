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
