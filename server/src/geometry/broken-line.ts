import { bestBreak } from './break-search';
import { requireFinite, requireSameLength } from './inputs';
import { leastSquares, solveLeastSquares } from './orthogonal';
import { byCovariance, type Whitener } from './whitening';

/** Two channels that are zero up to one common place and straight, at a slope of their own, from there on. */
export interface BrokenLine {
  breakAt: number;
  /** the larger of that of the linearised fit and what the profile of χ² says */
  breakUncertainty: number;
  linearisedBreakUncertainty: number;
  /** 2n: by how much the break of the linearised fit moves with each offset, in the order of the covariance */
  breakGain: Float64Array;
  /** change of each channel per unit of position beyond the break */
  slopes: [number, number];
  slopeUncertainties: [number, number];
  /** of the broken line, with 2n − 3 degrees of freedom */
  chiSquare: number;
  /** of the offsets against zero, 2n */
  chiSquareZero: number;
  /** of the offsets against a straight line a + b s in each channel, 2n − 4 */
  chiSquareStraight: number;
}

/**
 * Two channels along a line, against zero, a straight line or a broken line: each is worked out when it is asked for, the search for
 * the break last.
 *
 * @param positions n, increasing
 * @param offsets n pairs
 * @param covariance 2n × 2n, row after row, in the order (s₀ first), (s₀ second), (s₁ first), …
 * @throws RangeError for mismatched sizes, non-finite values, positions out of order, or a covariance that is not
 *   positive definite
 */
export class Offsets {
  /** of the offsets against zero, 2n degrees of freedom */
  readonly chiSquareZero: number;
  private readonly whiten: Whitener;
  private readonly observed: Float64Array;
  private straight: number | null = null;

  constructor(
    private readonly positions: readonly number[],
    offsets: readonly (readonly [number, number])[],
    covariance: Float64Array,
  ) {
    requireSameLength('Offsets', positions.length, offsets.length);
    requireFinite('Positions', positions);
    for (let i = 1; i < positions.length; i++)
      if (positions[i] <= positions[i - 1])
        throw new RangeError('Positions: each must be greater than the one before.');
    this.observed = new Float64Array(2 * offsets.length);
    for (let i = 0; i < offsets.length; i++) {
      requireFinite('Offsets', offsets[i]);
      this.observed[2 * i] = offsets[i][0];
      this.observed[2 * i + 1] = offsets[i][1];
    }
    this.whiten = byCovariance(covariance, this.observed.length);
    this.whiten(this.observed);
    this.chiSquareZero = leastSquares(this.observed, 0);
  }

  /**
   * Of the offsets against a straight line a + b s in each channel, 2n − 4 degrees of freedom.
   * @throws RangeError where the positions do not determine it: fewer than two
   */
  get chiSquareStraight(): number {
    this.straight ??= this.againstStraight();
    return this.straight;
  }

  private againstStraight(): number {
    const { positions, observed, whiten } = this;
    const rows = observed.length;
    const columns = new Float64Array(4 * rows);
    for (let i = 0; i < positions.length; i++)
      for (const channel of [0, 1]) {
        const start = 2 * channel * rows + 2 * i + channel;
        columns[start] = 1;
        columns[start + rows] = positions[i] - positions[0];
      }
    whiten(columns);
    const values = observed.slice();
    if (rows < 4 || !solveLeastSquares(columns, 4, values))
      throw new RangeError('Positions: a straight line is not determined.');
    return leastSquares(values, 4);
  }

  /**
   * d(s) = k · max(0, s − h) in two channels at once by generalised least squares: Hudson 1966, the place searched for
   * between all positions, u of the slopes from the covariance of the linearised fit there.
   *
   * u of the place is that or half the 95 % interval of the profile of χ² over 1.96, whichever is larger: χ² has a kink at every
   * position, so that the parabola at its minimum ends there, and where it is steeper than χ² is further out it promises too much.
   * Profile intervals: Venzon & Moolgavkar 1988.
   *
   * Null where nothing says that a position lies before the break and two beyond it: with one beyond, place and slope cannot be
   * told apart, and that is so wherever a break past the last but one position explains the offsets as well (χ² within the
   * 95 % point on one degree of freedom).
   */
  brokenLine(): BrokenLine | null {
    const { positions, observed, whiten } = this;
    if (positions.length < 3) return null;
    const rows = observed.length;
    const fit = bestBreak({
      whiten,
      observed,
      knots: positions,
      first: 0,
      last: positions.length - 2,
      count: 2,
      design: (h, columns) => {
        for (let i = positions.length - 1; i >= 0 && positions[i] > h; i--) {
          columns[2 * i] = positions[i] - h;
          columns[rows + 2 * i + 1] = positions[i] - h;
        }
      },
      byBreak: (h, slopes, columns, from) => {
        for (let i = positions.length - 1; i >= 0 && positions[i] > h; i--) {
          columns[from + 2 * i] = -slopes[0];
          columns[from + 2 * i + 1] = -slopes[1];
        }
      },
    });
    if (!fit) return null;
    const [first, second] = fit.coefficients;
    const [uFirst, uSecond, linearisedBreakUncertainty] = fit.uncertainties;
    const [from, to] = fit.breakInterval;
    return {
      breakAt: fit.breakAt,
      breakUncertainty: Math.max(linearisedBreakUncertainty, (to - from) / 2 / factor95),
      linearisedBreakUncertainty,
      breakGain: fit.breakGain,
      slopes: [first, second],
      slopeUncertainties: [uFirst, uSecond],
      chiSquare: fit.chiSquare,
      chiSquareZero: this.chiSquareZero,
      chiSquareStraight: this.chiSquareStraight,
    };
  }
}

/** Standard uncertainties from the middle to either end of a 95 % interval. */
const factor95 = 1.96;
