import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from './arbitraries';
import { nonLinearLeastSquares } from './non-linear-least-squares';

/** Rosenbrock 1960 as a sum of two squares, least at (1, 1). */
const rosenbrock = {
  residuals: ([x, y]: readonly number[]) => [10 * (y - x * x), 1 - x],
  jacobian: ([x]: readonly number[]) => [
    [-20 * x, 10],
    [-1, 0],
  ],
};

describe('nonLinearLeastSquares', () => {
  it("follows Rosenbrock's valley to its end", () => {
    fc.assert(
      fc.property(number(-3, 3), number(-3, 3), (x, y) => {
        const fit = nonLinearLeastSquares({ ...rosenbrock, start: [x, y] });
        expect(fit.converged).toBe(true);
        expect(fit.solution).toEqual([1, 1].map((value) => expect.closeTo(value, 8)));
        expect(fit.chiSquare).toBeLessThan(1e-18);
        // (JᵀJ)⁻¹ there is [[1, 2], [2, 4.01]].
        expect(fit.covariance?.flat()).toEqual([1, 2, 2, 4.01].map((value) => expect.closeTo(value, 5)));
      }),
    );
  });

  it('does not mind the units of its unknowns', () => {
    const scales = [1e6, 1e-6];
    const fit = nonLinearLeastSquares({
      start: [-1.2 * scales[0], 1 * scales[1]],
      residuals: ([x, y]) => rosenbrock.residuals([x / scales[0], y / scales[1]]),
      jacobian: ([x]) =>
        rosenbrock.jacobian([x / scales[0]]).map((row) => row.map((value, i) => value / scales[i])),
    });
    expect(fit.converged).toBe(true);
    expect(fit.solution.map((value, i) => value / scales[i])).toEqual(
      [1, 1].map((value) => expect.closeTo(value, 9)),
    );
  });

  it('says that it did not get there', () => {
    expect(nonLinearLeastSquares({ ...rosenbrock, start: [-1.2, 1], maxIterations: 3 }).converged).toBe(
      false,
    );
  });

  it('has no covariance where an unknown does nothing', () => {
    const fit = nonLinearLeastSquares({
      start: [5, 7],
      residuals: ([x]) => [x - 3, 2 * x - 6.5],
      jacobian: () => [
        [1, 0],
        [2, 0],
      ],
    });
    expect(fit.covariance).toBeNull();
    expect(fit.solution[0]).toBeCloseTo(3.2, 9);
    expect(fit.solution[1]).toBe(7);
  });

  it('steps back from where the residuals are no numbers', () => {
    const fit = nonLinearLeastSquares({
      start: [0.01],
      residuals: ([x]) => [Math.log(x) - 1],
      jacobian: ([x]) => [[1 / x]],
    });
    expect(fit.solution[0]).toBeCloseTo(Math.E, 8);
  });

  it('refuses a start that is none', () => {
    expect(() => nonLinearLeastSquares({ start: [], residuals: () => [], jacobian: () => [] })).toThrow(
      RangeError,
    );
    expect(() =>
      nonLinearLeastSquares({ start: [Number.NaN], residuals: () => [1], jacobian: () => [[1]] }),
    ).toThrow(RangeError);
    expect(() =>
      nonLinearLeastSquares({ start: [1], residuals: () => [1], jacobian: () => [[Number.NaN]] }),
    ).toThrow(RangeError);
    expect(() =>
      nonLinearLeastSquares({ start: [1], residuals: () => [Number.NaN], jacobian: () => [[1]] }),
    ).toThrow(RangeError);
  });
});
