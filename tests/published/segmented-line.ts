import { bestBreak } from '../../server/src/geometry/break-search';
import { requireFinite, requireSameLength } from '../../server/src/geometry/inputs';
import { whitener } from './generalised-least-squares';

/** One channel that is straight up to a place and straight at another slope from there on. */
interface SegmentedLine {
  breakAt: number;
  breakUncertainty: number;
  /** y = intercept + slope · x + change · max(0, x − breakAt) */
  intercept: number;
  slope: number;
  change: number;
  changeUncertainty: number;
  chiSquare: number;
}

/**
 * y = a + b x + c · max(0, x − h) in one channel, by the search that the broken line of two channels is found with
 * (`bestBreak`). Null as there, with two positions asked for on each side.
 * @param positions n, in any order, several may be equal
 * @param observed n
 * @param covariance n × n, or n variances
 * @throws RangeError for mismatched sizes, non-finite values, or a covariance that is not positive definite
 */
export function segmentedLineFit(
  positions: readonly number[],
  observed: readonly number[],
  covariance: readonly (readonly number[])[] | readonly number[],
): SegmentedLine | null {
  requireSameLength('Observations', positions.length, observed.length);
  requireFinite('Positions', positions);
  requireFinite('Observations', observed);
  const whiten = whitener(covariance, observed.length);
  const knots = [...new Set(positions)].sort((a, b) => a - b);
  if (knots.length < 4) return null;
  const rows = observed.length;
  const values = Float64Array.from(observed);
  whiten(values);
  const fit = bestBreak({
    whiten,
    observed: values,
    knots,
    first: 1,
    last: knots.length - 2,
    count: 3,
    design: (h, columns) => {
      for (let i = 0; i < rows; i++) {
        columns[i] = 1;
        columns[rows + i] = positions[i] - knots[0];
        columns[2 * rows + i] = Math.max(0, positions[i] - h);
      }
    },
    byBreak: (h, coefficients, columns, from) => {
      for (let i = 0; i < rows; i++) if (positions[i] > h) columns[from + i] = -coefficients[2];
    },
  });
  if (!fit) return null;
  const [level, slope, change] = fit.coefficients;
  return {
    breakAt: fit.breakAt,
    breakUncertainty: fit.uncertainties[3],
    intercept: level - slope * knots[0],
    slope,
    change,
    changeUncertainty: fit.uncertainties[2],
    chiSquare: fit.chiSquare,
  };
}
