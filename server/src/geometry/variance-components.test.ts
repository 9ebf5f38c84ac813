import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from './arbitraries';
import { projected } from './variance-blocks';
import { degreesOfFreedomOf, varianceComponents, varianceInterval } from './variance-components';

const ones = (n: number) => Array.from({ length: n }, () => [1]);
/** Values in groups of two, each its own residual. */
const pairs = (values: readonly number[]) => ({
  values,
  design: ones(values.length),
  labels: [values.map((_, i) => Math.floor(i / 2)), values.map((_, i) => i)],
});

describe('varianceComponents', () => {
  it('of pairs, by their mean squares', () => {
    // means 2, 6, 13 about 7: 2 (25 + 1 + 36)/2 = 62 between; differences 2, 4, 2: (2 + 8 + 2)/3 = 4 within
    const found = varianceComponents([pairs([1, 3, 4, 8, 12, 14])], [1, 1]);
    expect(found?.variances).toEqual([expect.closeTo((62 - 4) / 2, 9), expect.closeTo(4, 9)]);
  });

  it('is 0 where groups differ by less than what is in them', () => {
    const found = varianceComponents([pairs([1, 5, 2, 4, 6, 1])], [1, 1]);
    expect(found?.variances[0]).toBe(0);
    // all six are then one sample: Σ (x − 19/6)² / 5
    const mean = 19 / 6;
    const squares = [1, 5, 2, 4, 6, 1].reduce((sum, x) => sum + (x - mean) ** 2, 0);
    expect(found?.variances[1]).toBeCloseTo(squares / 5, 9);
  });

  it('of blocks is what one block of all is, where the fixed effects are none', () => {
    const apart = [
      [1, 3, 4],
      [8, 12, 14, 9],
    ].map((values) => ({
      values,
      design: values.map(() => []),
      labels: [values.map(() => 0), values.map((_, i) => i)],
    }));
    const values = [1, 3, 4, 8, 12, 14, 9];
    const together = {
      values,
      design: values.map(() => []),
      labels: [
        [0, 0, 0, 1, 1, 1, 1],
        [0, 1, 2, 3, 4, 5, 6],
      ],
    };
    const found = varianceComponents(apart, [1, 1]);
    const same = varianceComponents([together], [1, 1]);
    expect(found?.variances).toEqual(same?.variances.map((each) => expect.closeTo(each, 8)));
    expect(found?.logLikelihood).toBeCloseTo(same?.logLikelihood ?? Number.NaN, 9);
  });

  it('leaves a held component as it is', () => {
    const found = varianceComponents([pairs([1, 3, 4, 8, 12, 14])], [1, 2], [false, true]);
    expect(found?.variances).toEqual([expect.closeTo((62 - 2) / 2, 9), 2]);
    expect(found?.covariance[1]).toEqual([0, 0]);
  });

  it('does not tell apart what these observations cannot', () => {
    const values = [1, 3, 4];
    const labels = [
      [0, 1, 2],
      [0, 1, 2],
    ];
    expect(varianceComponents([{ values, design: ones(3), labels }], [1, 1])).toBeNull();
  });

  it('scales with the observations, and ignores what the fixed effects take', () => {
    fc.assert(
      fc.property(
        fc.array(number(-5, 5), { minLength: 8, maxLength: 12 }),
        fc.integer({ min: -3, max: 6 }),
        number(-9, 9),
        (values, power, shift) => {
          const k = 10 ** power;
          const plain = varianceComponents([pairs(values)], [1, 1]);
          const other = varianceComponents([pairs(values.map((x) => k * (x + shift)))], [k ** 2, k ** 2]);
          const most = Math.max(...(plain?.variances ?? []));
          fc.pre(most > 1e-3);
          plain?.variances.forEach((each, i) => {
            expect((other?.variances[i] ?? Number.NaN) / k ** 2 / most).toBeCloseTo(each / most, 2);
          });
        },
      ),
    );
  });

  it('refuses what has no size in common', () => {
    expect(() => varianceComponents([], [1])).toThrow(RangeError);
    expect(() => varianceComponents([pairs([1, 2])], [1])).toThrow(RangeError);
    expect(() => varianceComponents([pairs([1, Number.NaN])], [1, 1])).toThrow(RangeError);
  });
});

describe('projected', () => {
  it('is the centred observations where V is I', () => {
    const block = pairs([1, 2, 6, 7]);
    const at = projected(block, [0, 1]);
    expect([...(at?.values ?? [])]).toEqual([-3, -2, 2, 3].map((each) => expect.closeTo(each, 12)));
    // |V| = 1, |XᵀX| = 4, yᵀPy = 26
    expect(at?.logLikelihood).toBeCloseTo(-(Math.log(4) + 26) / 2, 12);
  });
});

describe('varianceInterval', () => {
  it('is that of a mean square', () => {
    // χ² of 10 degrees of freedom: 3.24697 and 20.48318
    const variance = 2;
    const itsVariance = (2 * variance ** 2) / 10;
    expect(degreesOfFreedomOf(variance, itsVariance)).toBeCloseTo(10, 12);
    const [low, high] = varianceInterval(variance, itsVariance);
    expect(low).toBeCloseTo(20 / 20.48318, 5);
    expect(high).toBeCloseTo(20 / 3.24697, 4);
  });

  it('begins at 0 where the variance is hardly above it', () => {
    expect(varianceInterval(0, 1)).toEqual([0, 2]);
    expect(varianceInterval(0.5, 1)[0]).toBe(0);
  });
});
