import { expect, test } from 'vitest';
import { growthExponent, median, quantile } from './statistics';

test('median and quantile by hand', () => {
  expect(median([9, 1, 5])).toBe(5);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  expect(quantile([0, 10, 20, 30, 40], 0.95)).toBeCloseTo(38, 12);
  expect(() => median([])).toThrow();
});

test('the exponent of a power is found, and of what cannot be fitted there is none', () => {
  const powers = [1, 2, 4, 8].map((size) => [size, 3 * size ** 1.5] as const);
  expect(growthExponent(powers)).toBeCloseTo(1.5, 12);
  expect(growthExponent([[5, 1]])).toBeNull();
  expect(
    growthExponent([
      [1, 0],
      [2, 4],
    ]),
  ).toBeNull();
});
