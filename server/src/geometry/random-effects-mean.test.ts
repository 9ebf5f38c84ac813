import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from './arbitraries';
import { randomEffectsMean } from './random-effects-mean';

describe('randomEffectsMean', () => {
  it('of three alike, by hand', () => {
    // equal variances of 1: Σ (x − 4)² = 18 = 2 (1 + τ²), so τ² = 8 and u² = 9/3
    const { value, between, uncertainty, weights } = randomEffectsMean([1, 4, 7], [1, 1, 1], 0);
    expect(value).toBeCloseTo(4, 12);
    expect(between).toBeCloseTo(8, 9);
    expect(uncertainty).toBeCloseTo(Math.sqrt(3), 9);
    expect(weights).toEqual([1, 1, 1].map((each) => expect.closeTo(each / 3, 12)));
  });

  it('of one knows nothing of the scatter between, and takes what is known beforehand', () => {
    const one = randomEffectsMean([5], [0.16], 0.25);
    expect(one).toMatchObject({ value: 5, between: null, betweenUsed: 0.25 });
    expect(one.uncertainty).toBeCloseTo(Math.sqrt(0.41), 12);
  });

  it('of two that happen to agree takes them to scatter as is known beforehand', () => {
    const two = randomEffectsMean([5, 5], [0.16, 0.16], 0.25);
    expect(two.between).toBe(0);
    expect(two.uncertainty).toBeCloseTo(Math.sqrt(0.41 / 2), 12);
  });

  it('of two that differ by more takes what they show', () => {
    // (3² + 3²)/(0.16 + τ²) = 1
    const two = randomEffectsMean([2, 8], [0.16, 0.16], 0.25);
    expect(two.between).toBeCloseTo(18 - 0.16, 9);
    expect(two.chiSquare).toBeCloseTo(18 / 0.41, 9);
  });

  it('of five is Student’s interval, whatever was known beforehand', () => {
    // mean 3, s² = 2.5; t of 4 degrees of freedom is 2.776445
    const { uncertainty, betweenUsed } = randomEffectsMean([1, 2, 3, 4, 5], [1, 1, 1, 1, 1], 100);
    expect(betweenUsed).toBeCloseTo(1.5, 9);
    expect(1.959963984540054 * uncertainty).toBeCloseTo(2.776445105 * Math.sqrt(2.5 / 5), 7);
  });

  it('moves and scales with its numbers', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number(-10, 10), number(0.1, 3)), { minLength: 1, maxLength: 9 }),
        fc.integer({ min: -3, max: 6 }),
        number(-1000, 1000),
        (given, power, shift) => {
          const k = 10 ** power;
          const plain = randomEffectsMean(
            given.map(([x]) => x),
            given.map(([, u]) => u ** 2),
            0.25,
          );
          const other = randomEffectsMean(
            given.map(([x]) => k * (x + shift)),
            given.map(([, u]) => (k * u) ** 2),
            0.25 * k ** 2,
          );
          expect(other.value / k - shift).toBeCloseTo(plain.value, 6);
          expect(other.uncertainty / k).toBeCloseTo(plain.uncertainty, 6);
          const lowest = Math.min(...given.map(([x]) => x));
          expect(plain.value).toBeGreaterThanOrEqual(lowest - 1e-9);
        },
      ),
    );
  });

  it.each([
    [[], [], 0],
    [[1], [0], 0],
    [[1], [1, 2], 0],
    [[Number.NaN], [1], 0],
    [[1], [1], -1],
  ])('refuses %j %j %j', (estimates, variances, known) => {
    expect(() => randomEffectsMean(estimates, variances, known)).toThrow(RangeError);
  });
});
