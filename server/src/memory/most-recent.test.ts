import { expect, test } from 'vitest';
import { MostRecent } from './most-recent';

test('what was used longest ago goes first', () => {
  const kept = new MostRecent<string, number>(2);
  kept.set('a', 1);
  kept.set('b', 2);
  expect(kept.get('a')).toBe(1);
  kept.set('c', 3);
  expect(['a', 'b', 'c'].map((key) => kept.get(key))).toEqual([1, undefined, 3]);
});

test('a value is made once, until it has gone', () => {
  const kept = new MostRecent<string, object>(1);
  const first = kept.remembered('a', () => ({}));
  expect(kept.remembered('a', () => ({}))).toBe(first);
  kept.set('b', {});
  expect(kept.remembered('a', () => ({}))).not.toBe(first);
});
