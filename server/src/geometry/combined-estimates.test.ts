import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { generalisedLeastSquares } from '../../../tests/published/generalised-least-squares';
import { number } from './arbitraries';
import { combinedEstimate } from './combined-estimates';

// numpy 2.4: V⁻¹ from the singular values of V, and the formulas of Aitken 1935 as they are printed
const cases = [
  {
    estimates: [2302.1, 2295.4],
    covariance: [16, 6, 6, 81],
    value: 2301.311764705882,
    uncertainty: 3.850133687518486,
    chiSquare: 0.5281176470587947,
    weights: [0.8823529411764707, 0.11764705882352929],
  },
  {
    estimates: [2302.1, 2295.4, 2310],
    covariance: [16, 6, 2, 6, 81, 5, 2, 5, 36],
    value: 2303.7306315520327,
    uncertainty: 3.382842082835408,
    chiSquare: 2.259204806954738,
    weights: [0.6527742265405266, 0.07619534645870624, 0.27103042700076707],
  },
  {
    estimates: [-512.5, -498, -505.25, -530],
    covariance: [47, -32, 12, 15, -32, 37, -7, -12, 12, -7, 46, 3, 15, -12, 3, 23],
    value: -508.97570424503255,
    uncertainty: 1.962346059399982,
    chiSquare: 25.16919871167871,
    weights: [0.3081840538803343, 0.4433180560601403, 0.05837967750048898, 0.19011821255903638],
  },
];

describe('several estimates of one number', () => {
  it('agree with numpy', () => {
    for (const { estimates, covariance, ...expected } of cases) {
      const found = combinedEstimate(estimates, Float64Array.from(covariance))!;
      expect(found.value).toBeCloseTo(expected.value, 9);
      expect(found.uncertainty).toBeCloseTo(expected.uncertainty, 9);
      expect(found.chiSquare).toBeCloseTo(expected.chiSquare, 9);
      expected.weights.forEach((weight, i) => {
        expect(found.weights[i]).toBeCloseTo(weight, 9);
      });
    }
  });

  it('are the least squares of a design of ones, by another program', () => {
    const near = fc.tuple(number(-3000, 3000), number(0.1, 40), number(-0.6, 0.6));
    fc.assert(
      fc.property(fc.array(near, { minLength: 1, maxLength: 5 }), (each) => {
        const estimates = each.map(([value]) => value);
        // one common factor: correlations between −0.36 and 0.36, always positive definite
        const rows = each.map(([, u, load], i) =>
          each.map(([, other, shared], j) => (i === j ? u * u : u * other * load * shared)),
        );
        const found = combinedEstimate(estimates, Float64Array.from(rows.flat()))!;
        const expected = generalisedLeastSquares(
          estimates.map(() => [1]),
          estimates,
          rows,
        );
        expect(found.value).toBeCloseTo(expected.coefficients[0], 6);
        expect(found.uncertainty).toBeCloseTo(Math.sqrt(expected.covariance[0][0]), 6);
        expect(found.chiSquare / (1 + expected.chiSquare)).toBeCloseTo(
          expected.chiSquare / (1 + expected.chiSquare),
          6,
        );
      }),
      { numRuns: 100 },
    );
  });

  it('have by hand 1/u² for weights where they have nothing in common, and one alone stays as it is', () => {
    const found = combinedEstimate([10, 13], Float64Array.from([1, 0, 0, 4]))!;
    expect(found.value).toBeCloseTo((10 / 1 + 13 / 4) / (1 / 1 + 1 / 4), 12);
    expect(found.uncertainty).toBeCloseTo(Math.sqrt(0.8), 12);
    // (10 − 13)² / (1 + 4)
    expect(found.chiSquare).toBeCloseTo(9 / 5, 12);
    expect(combinedEstimate([7], Float64Array.from([2.25]))).toMatchObject({ value: 7, uncertainty: 1.5 });
  });

  it('give a weight below 0 to one that has more in common with a better one than its size allows', () => {
    // ρ u₁u₂ = 3 > u₁² = 1
    expect(combinedEstimate([10, 11], Float64Array.from([1, 3, 3, 16]))!.weights[1]).toBeLessThan(0);
  });

  it('are refused where nothing can be computed from them', () => {
    expect(combinedEstimate([1, 2], Float64Array.from([1, 1, 1, 1]))).toBeNull();
    expect(() => combinedEstimate([], new Float64Array(0))).toThrow(RangeError);
    expect(() => combinedEstimate([1, Number.NaN], Float64Array.from([1, 0, 0, 1]))).toThrow(RangeError);
    expect(() => combinedEstimate([1, 2], Float64Array.from([1, 0]))).toThrow(RangeError);
  });
});
