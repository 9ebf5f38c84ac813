import { expect, it } from 'vitest';
import { contradictionMm, rangesOf } from './repeats';

it('repeats contradict each other by the widest of three numbers, and not where rounding alone is past what is allowed', () => {
  const ranges = rangesOf([
    [1, 20, 300],
    [1.5, 22, 300],
    [0.5, 21, 300],
  ]);
  expect(ranges).toEqual([
    [0.5, 1.5],
    [20, 22],
    [300, 300],
  ]);
  expect(contradictionMm(ranges, 0.9)).toBe(2);
  expect(contradictionMm(ranges, 2)).toBe(0);
  expect(contradictionMm([[0.1, 0.3]], 0.3 - 0.1 - 1e-12)).toBe(0);
});
