import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from '../../server/src/geometry/arbitraries';
import { generalisedLeastSquares } from './generalised-least-squares';

describe('generalisedLeastSquares', () => {
  it('of one constant with correlated observations, by hand', () => {
    // V = [[2, 1], [1, 3]]: weights V⁻¹·1 = (2, 1)/5, variance 5/3, mean (2·10 + 1·16)/3 = 12.
    const fit = generalisedLeastSquares(
      [[1], [1]],
      [10, 16],
      [
        [2, 1],
        [1, 3],
      ],
    );
    expect(fit.coefficients[0]).toBeCloseTo(12, 12);
    expect(fit.covariance[0][0]).toBeCloseTo(5 / 3, 12);
    expect(fit.residuals).toEqual([-2, 4].map((value) => expect.closeTo(value, 12)));
    // (−2, 4) V⁻¹ (−2, 4)ᵀ = (3·4 + 2·8 + 2·16)/5
    expect(fit.chiSquare).toBeCloseTo(12, 12);
  });

  it('gives back coefficients of exact observations, at any size of columns and covariance', () => {
    fc.assert(
      fc.property(
        number(-5, 5),
        number(-5, 5),
        fc.integer({ min: -6, max: 6 }),
        fc.integer({ min: -6, max: 6 }),
        (a, b, power, spread) => {
          const [size, variance] = [10 ** power, 10 ** (2 * spread)];
          const design = [1, 2, 3, 5].map((x) => [1, x * size]);
          const observed = design.map(([one, x]) => a * one + (b / size) * x);
          const fit = generalisedLeastSquares(
            design,
            observed,
            observed.map(() => variance),
          );
          expect(fit.coefficients[0]).toBeCloseTo(a, 9);
          expect(fit.coefficients[1] * size).toBeCloseTo(b, 9);
          expect((fit.covariance[1][1] * size ** 2) / variance).toBeCloseTo(1 / 8.75, 9);
        },
      ),
    );
  });

  it('refuses what does not determine an answer', () => {
    const three = [1, 1, 1];
    expect(() =>
      generalisedLeastSquares(
        [
          [1, 2],
          [2, 4],
          [3, 6],
        ],
        [1, 2, 3],
        three,
      ),
    ).toThrow(/determine/);
    expect(() => generalisedLeastSquares([[1, 2]], [1], [1])).toThrow(/fewer/);
    expect(() => generalisedLeastSquares([], [], [])).toThrow(RangeError);
    expect(() => generalisedLeastSquares([[1], [1], [1]], [1, 2], three)).toThrow(RangeError);
    expect(() => generalisedLeastSquares([[1], [1, 2], [1]], [1, 2, 3], three)).toThrow(RangeError);
    expect(() => generalisedLeastSquares([[1], [1], [1]], [1, 2, Number.NaN], three)).toThrow(RangeError);
    expect(() => generalisedLeastSquares([[1], [1], [1]], [1, 2, 3], [1, 0, 1])).toThrow(RangeError);
    expect(() => generalisedLeastSquares([[1], [1], [1]], [1, 2, 3], [1, 1])).toThrow(RangeError);
    expect(() =>
      generalisedLeastSquares(
        [[1], [1]],
        [1, 2],
        [
          [1, 2],
          [2, 1],
        ],
      ),
    ).toThrow(/positive definite/);
    expect(() =>
      generalisedLeastSquares(
        [[1], [1]],
        [1, 2],
        [
          [1, 1],
          [1, 1],
        ],
      ),
    ).toThrow(/positive definite/);
    expect(() => generalisedLeastSquares([[1], [1]], [1, 2], [[1], [1]])).toThrow(RangeError);
  });
});
