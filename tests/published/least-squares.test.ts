import { describe, expect, it } from 'vitest';
import { nonLinearLeastSquares } from '../../server/src/geometry/non-linear-least-squares';
import { leastSquares, solveLeastSquares } from '../../server/src/geometry/orthogonal';
import { expectClose, expectRelative } from './expect-close';
import { generalisedLeastSquares } from './generalised-least-squares';
import { longley, mgh09, misra1a, norris, rat42, thermometer } from './reference-data';

const ones = (rows: readonly unknown[]): number[] => rows.map(() => 1);
const standardErrors = (
  covariance: readonly (readonly number[])[],
  chiSquare: number,
  degreesOfFreedom: number,
): number[] => covariance.map((row, i) => Math.sqrt((row[i] * chiSquare) / degreesOfFreedom));

describe('NIST Statistical Reference Datasets, linear', () => {
  for (const { name, design, observed, certified, standardDeviations, residualStandardDeviation } of [
    norris,
    longley,
  ]) {
    it(name, () => {
      const degreesOfFreedom = observed.length - certified.length;
      const fit = generalisedLeastSquares(design, observed, ones(observed));
      expectRelative(fit.coefficients, certified, 1e-9);
      expectRelative(
        standardErrors(fit.covariance, fit.chiSquare, degreesOfFreedom),
        standardDeviations,
        1e-9,
      );
      expectRelative(Math.sqrt(fit.chiSquare / degreesOfFreedom), residualStandardDeviation, 1e-9);
    });

    it(`${name}, by the kernel that straight and broken lines are fitted with`, () => {
      const count = certified.length;
      const columns = Float64Array.from({ length: count * observed.length }, (_, i) => {
        const [column, row] = [Math.floor(i / observed.length), i % observed.length];
        return design[row][column];
      });
      const values = Float64Array.from(observed);
      expect(solveLeastSquares(columns, count, values)).toBe(true);
      // what the observations hold to six digits its columns nearly repeat: Longley's are known for it
      expectRelative([...values.slice(0, count)], certified, 1e-8);
      const standardDeviation = Math.sqrt(leastSquares(values, count) / (observed.length - count));
      expectRelative(standardDeviation, residualStandardDeviation, 1e-9);
    });
  }
});

describe('NIST Statistical Reference Datasets, non-linear, both starts', () => {
  for (const { name, model, gradient, x, y, starts, certified, standardDeviations, residualSumOfSquares } of [
    misra1a,
    rat42,
    mgh09,
  ]) {
    for (const start of starts) {
      it(`${name} from ${start}`, () => {
        const fit = nonLinearLeastSquares({
          start,
          residuals: (b) => x.map((value, i) => y[i] - model(b, value)),
          jacobian: (b) => x.map((value) => gradient(b, value).map((each) => -each)),
          maxIterations: 2000,
        });
        expect(fit.converged).toBe(true);
        expectRelative(fit.solution, certified, 1e-9);
        expectRelative(fit.chiSquare, residualSumOfSquares, 1e-9);
        const errors = standardErrors(fit.covariance ?? [], fit.chiSquare, y.length - certified.length);
        expectRelative(errors, standardDeviations, 1e-9);
      });
    }
  }
});

describe('GUM (JCGM 100:2008) H.3: calibration line of a thermometer', () => {
  const { readings, corrections } = thermometer;
  const fit = generalisedLeastSquares(
    readings.map((t) => [1, t - 20]),
    corrections,
    ones(readings),
  );
  const variance = fit.chiSquare / (readings.length - 2);
  const covariance = fit.covariance.map((row) => row.map((value) => value * variance));

  it('has the printed intercept, slope, their u and correlation', () => {
    expectClose(fit.coefficients[0], -0.1712, 5e-5);
    expectClose(fit.coefficients[1], 0.00218, 5e-6);
    expectClose(Math.sqrt(covariance[0][0]), 0.0029, 5e-5);
    expectClose(Math.sqrt(covariance[1][1]), 0.00067, 5e-6);
    expectClose(covariance[0][1] / Math.sqrt(covariance[0][0] * covariance[1][1]), -0.93, 5e-4);
    expectClose(Math.sqrt(variance), 0.0035, 5e-5);
  });
  it('has the printed correction at 30 °C and its u, with the covariance', () => {
    expectClose(fit.coefficients[0] + 10 * fit.coefficients[1], -0.1494, 5e-5);
    expectClose(Math.sqrt(covariance[0][0] + 20 * covariance[0][1] + 100 * covariance[1][1]), 0.0041, 5e-5);
  });
  it('is the same with variances, a diagonal covariance, or a line through transformed observations', () => {
    const variances = readings.map((_, i) => 1 + (i % 3));
    const diagonal = variances.map((value, i) => variances.map((_, k) => (i === k ? value : 0)));
    const design = readings.map((t) => [1, t - 20]);
    const byVariances = generalisedLeastSquares(design, corrections, variances);
    const byMatrix = generalisedLeastSquares(design, corrections, diagonal);
    const byHand = generalisedLeastSquares(
      design.map((row, i) => row.map((value) => value / Math.sqrt(variances[i]))),
      corrections.map((value, i) => value / Math.sqrt(variances[i])),
      ones(readings),
    );
    for (const other of [byMatrix, byHand]) {
      expectRelative(other.coefficients, byVariances.coefficients, 1e-12);
      expectRelative(other.covariance, byVariances.covariance, 1e-12);
      expectRelative(other.chiSquare, byVariances.chiSquare, 1e-12);
    }
  });
});
