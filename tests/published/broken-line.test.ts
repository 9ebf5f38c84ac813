import { describe, expect, it } from 'vitest';
import { brokenLineFit } from './broken-line-fit';
import { expectClose, expectRelative } from './expect-close';
import r from './r-cases.json';
import scipy from './scipy-cases.json';
import { segmentedLineFit } from './segmented-line';

describe("stagnant (R's segmented, Muggeo): one channel, straight on both sides", () => {
  const { x, y, ...expected } = r.stagnant;
  // The package scales by the residuals; here each observation says how far it scatters.
  const variance = expected.residualSumOfSquares / (x.length - 4);
  const fit = segmentedLineFit(x, y, Array(x.length).fill(variance));
  if (!fit) throw new Error('no break found');

  it('has the break and the coefficients of segmented', () => {
    expectClose(fit.breakAt, expected.breakAt, 1e-8);
    expectClose([fit.intercept, fit.slope, fit.change], expected.coefficients, 1e-8);
    expectRelative(fit.chiSquare * variance, expected.residualSumOfSquares, 1e-9);
  });
  it("has segmented's standard error of the break", () => {
    expectRelative(fit.breakUncertainty, expected.breakStandardError, 1e-6);
  });
  it('finds no lesser sum of squares than an exhaustive search (optimize)', () => {
    expectClose(fit.breakAt, expected.leastAt, 1e-6);
    expectRelative(fit.chiSquare * variance, expected.leastResidualSumOfSquares, 1e-9);
  });
  it('does not mind the order of the observations', () => {
    const turned = segmentedLineFit(x.toReversed(), y.toReversed(), Array(x.length).fill(variance));
    expect(turned?.breakAt).toBeCloseTo(expected.breakAt, 8);
  });
});

describe('two correlated channels with one break, least_squares of scipy from 398 starts', () => {
  for (const [i, each] of scipy.brokenLines.entries()) {
    it(`case ${i + 1}`, () => {
      const fit = brokenLineFit(each.positions, each.offsets as [number, number][], each.covariance);
      if (!fit) throw new Error('no break found');
      expectClose(fit.breakAt, each.breakAt, 1e-4);
      expectRelative(fit.slopes, each.slopes, 1e-6);
      expectRelative([...fit.slopeUncertainties, fit.linearisedBreakUncertainty], each.uncertainties, 1e-6);
      expectRelative(fit.chiSquare, each.chiSquare, 1e-9);
      expectRelative(fit.chiSquareZero, each.chiSquareZero, 1e-9);
      expectRelative(fit.chiSquareStraight, each.chiSquareStraight, 1e-9);
    });
  }
});
