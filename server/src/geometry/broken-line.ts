import { Matrix, QrDecomposition } from 'ml-matrix';
import { chiSquareQuantile } from './distributions';
import { requireFinite, requireSameLength } from './inputs';
import { generalisedLeastSquares, whitener } from './least-squares';
import { factored, inverseOf, whitenedSquares } from './positive-definite';

/** Two channels that are zero up to one common place and straight, at a slope of their own, from there on. */
export interface BrokenLine {
  breakAt: number;
  /** the larger of that of the linearised fit and what the profile of χ² says */
  breakUncertainty: number;
  linearisedBreakUncertainty: number;
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

/** One channel that is straight up to a place and straight at another slope from there on. */
export interface SegmentedLine {
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
 *
 * @param positions n, increasing
 * @param offsets n pairs
 * @param covariance 2n × 2n, point by point: (s₀ first), (s₀ second), (s₁ first), …
 * @throws RangeError for mismatched sizes, non-finite values, positions out of order, or a covariance that is not
 *   positive definite
 */
export function brokenLineFit(
  positions: readonly number[],
  offsets: readonly (readonly [number, number])[],
  covariance: readonly (readonly number[])[],
): BrokenLine | null {
  requireSameLength('Offsets', positions.length, offsets.length);
  requireFinite('Positions', positions);
  if (positions.some((s, i) => i > 0 && s <= positions[i - 1])) {
    throw new RangeError('Positions: each must be greater than the one before.');
  }
  const observed = offsets.flat();
  requireFinite('Offsets', observed);
  const whiten = whitener(covariance, observed.length);
  if (positions.length < 3) return null;
  const rows = (f: (s: number) => [number, number][]): number[][] => positions.flatMap(f);
  const fit = bestBreak({
    whiten,
    observed,
    knots: positions,
    first: 0,
    last: positions.length - 2,
    design: (h) =>
      rows((s) => [
        [Math.max(0, s - h), 0],
        [0, Math.max(0, s - h)],
      ]),
    byBreak: (h, [first, second]) => positions.flatMap((s) => (s > h ? [-first, -second] : [0, 0])),
  });
  if (!fit) return null;
  const straight = generalisedLeastSquares(
    positions.flatMap((s) => [
      [1, s - positions[0], 0, 0],
      [0, 0, 1, s - positions[0]],
    ]),
    observed,
    covariance,
  );
  const [first, second] = fit.coefficients;
  const [uFirst, uSecond, linearisedBreakUncertainty] = fit.uncertainties;
  const [from, to] = fit.breakInterval;
  return {
    breakAt: fit.breakAt,
    breakUncertainty: Math.max(linearisedBreakUncertainty, (to - from) / 2 / factor95),
    linearisedBreakUncertainty,
    slopes: [first, second],
    slopeUncertainties: [uFirst, uSecond],
    chiSquare: fit.chiSquare,
    chiSquareZero: whiten(Matrix.columnVector(observed)).norm('frobenius') ** 2,
    chiSquareStraight: straight.chiSquare,
  };
}

/** Standard uncertainties from the middle to either end of a 95 % interval. */
const factor95 = 1.96;

/**
 * y = a + b x + c · max(0, x − h) in one channel, by the same search. Null as there, with two positions asked for on each
 * side.
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
  const fit = bestBreak({
    whiten,
    observed,
    knots,
    first: 1,
    last: knots.length - 2,
    design: (h) => positions.map((x) => [1, x - knots[0], Math.max(0, x - h)]),
    byBreak: (h, [, , change]) => positions.map((x) => (x > h ? -change : 0)),
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

interface BreakProblem {
  whiten: (columns: Matrix) => Matrix;
  observed: readonly number[];
  /** distinct, increasing; the break is searched for between the first-th and the last-th */
  knots: readonly number[];
  first: number;
  last: number;
  /** linear in its coefficients for a given break */
  design: (breakAt: number) => number[][];
  /** derivative of the fitted values by the break */
  byBreak: (breakAt: number, coefficients: readonly number[]) => number[];
}

interface BreakFit {
  breakAt: number;
  coefficients: number[];
  /** of the coefficients, then of the break */
  uncertainties: number[];
  /** where χ² exceeds its minimum by no more than its 95 % point on one degree of freedom, as far as the search goes */
  breakInterval: [number, number];
  chiSquare: number;
}

/** Places tried in each segment before the best is narrowed down. */
const placesPerSegment = 24;

function bestBreak(problem: BreakProblem): BreakFit | null {
  const { whiten, knots, first, last } = problem;
  const observed = whiten(Matrix.columnVector(problem.observed as number[]));
  const at = (breakAt: number): { coefficients: number[]; chiSquare: number } => {
    const columns = whiten(new Matrix(problem.design(breakAt)));
    const decomposition = new QrDecomposition(columns);
    if (!decomposition.isFullRank()) return { coefficients: [], chiSquare: Number.POSITIVE_INFINITY };
    const solution = decomposition.solve(observed);
    const chiSquare = Matrix.sub(observed, columns.mmul(solution)).norm('frobenius') ** 2;
    return { coefficients: solution.to1DArray(), chiSquare };
  };

  const places = knots
    .slice(first, last)
    .flatMap((from, i) =>
      Array.from(
        { length: placesPerSegment },
        (_, k) => from + ((knots[first + i + 1] - from) * k) / placesPerSegment,
      ),
    );
  places.push(knots[last]);
  const roughly = chiSquareBetweenKnots(problem, observed);
  const tried = places.map(roughly);
  const best = tried.indexOf(Math.min(...tried));
  if (best <= 0 || best === places.length - 1) {
    // A minimum may still lie between the outermost two places.
    const inside = best === 0 ? places[1] : places[places.length - 2];
    const end = places[best];
    if (!(at(end + (inside - end) * 1e-3).chiSquare < at(end).chiSquare)) return null;
  }
  const breakAt = polished(
    problem,
    at,
    whiten,
    observed,
    narrowed(roughly, places[Math.max(0, best - 1)], places[Math.min(places.length - 1, best + 1)]),
  );
  const { coefficients, chiSquare } = at(breakAt);
  // Every break from there to the last knot fits the same: with only the last value beyond it.
  const pastLast = at(knots[last]).chiSquare;
  if (pastLast - chiSquare < chiSquareQuantile(0.95, 1)) return null;
  const full = fullDesign(problem, whiten, breakAt, coefficients);
  const factors = factored(full.transpose().mmul(full));
  if (!factors) return null;
  const enough = roughly(breakAt) + chiSquareQuantile(0.95, 1);
  const inside = (place: number): boolean => roughly(place) <= enough;
  return {
    breakAt,
    coefficients,
    chiSquare,
    uncertainties: inverseOf(factors).diagonal().map(Math.sqrt),
    breakInterval: [
      lastInside(inside, breakAt, places.filter((place) => place < breakAt).reverse()),
      lastInside(
        inside,
        breakAt,
        places.filter((place) => place > breakAt),
      ),
    ],
  };
}

/** How far one gets from a place that is inside before a place on the way, in this order, is not: found by halving. */
function lastInside(inside: (place: number) => boolean, start: number, onTheWay: readonly number[]): number {
  const out = onTheWay.findIndex((place) => !inside(place));
  if (out < 0) return onTheWay.at(-1) ?? start;
  let [near, far] = [onTheWay[out - 1] ?? start, onTheWay[out]];
  for (let i = 0; i < 20; i++) {
    const middle = (near + far) / 2;
    if (inside(middle)) near = middle;
    else far = middle;
  }
  return near;
}

/**
 * χ² as a function of the break, quick enough to be tried at many places: within a segment the design is a straight mix of
 * the designs at its two ends, so that products of those, made once, are all that a place needs. Differences of large
 * numbers cost it some digits, which does for finding the minimum, not for stating it.
 */
function chiSquareBetweenKnots(problem: BreakProblem, observed: Matrix): (breakAt: number) => number {
  const { whiten, knots, first, last } = problem;
  const total = observed.norm('frobenius') ** 2;
  const designs = knots.slice(first, last + 1).map((knot) => whiten(new Matrix(problem.design(knot))));
  const owns = designs.map((design) => Float64Array.from(design.transpose().mmul(design).to1DArray()));
  const withNext = designs.slice(1).map((next, i) => {
    const shared = designs[i].transpose().mmul(next);
    return Float64Array.from(shared.add(shared.transpose()).to1DArray());
  });
  const withObserved = designs.map((design) =>
    Float64Array.from(design.transpose().mmul(observed).to1DArray()),
  );
  const normal = new Float64Array(owns[0].length);
  const right = new Float64Array(withObserved[0].length);
  const squares = whitenedSquares(right.length);
  return (breakAt) => {
    let knot = knots.length - 1;
    while (knot >= 0 && !(knots[knot] <= breakAt)) knot--;
    const i = Math.min(Math.max(knot, first), last - 1) - first;
    const t = (breakAt - knots[first + i]) / (knots[first + i + 1] - knots[first + i]);
    const [here, there, shared] = [(1 - t) ** 2, t ** 2, t * (1 - t)];
    for (let k = 0; k < normal.length; k++)
      normal[k] = owns[i][k] * here + withNext[i][k] * shared + owns[i + 1][k] * there;
    for (let k = 0; k < right.length; k++)
      right[k] = withObserved[i][k] * (1 - t) + withObserved[i + 1][k] * t;
    const explained = squares(normal, right);
    return explained === null ? Number.POSITIVE_INFINITY : total - Math.sqrt(explained) ** 2;
  };
}

/** The whitened derivatives by the coefficients and, last, by the break. */
function fullDesign(
  problem: BreakProblem,
  whiten: BreakProblem['whiten'],
  breakAt: number,
  coefficients: readonly number[],
): Matrix {
  const byBreak = problem.byBreak(breakAt, coefficients);
  return whiten(new Matrix(problem.design(breakAt).map((row, i) => [...row, byBreak[i]])));
}

/** The place of the least value between two places with one minimum between them: golden-section search. */
function narrowed(f: (place: number) => number, from: number, to: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [a, b] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [fa, fb] = [f(a), f(b)];
  for (let i = 0; i < 40; i++) {
    if (fa <= fb) {
      [high, b, fb] = [b, a, fa];
      a = high - ratio * (high - low);
      fa = f(a);
    } else {
      [low, a, fa] = [a, b, fb];
      b = low + ratio * (high - low);
      fb = f(b);
    }
  }
  return (low + high) / 2;
}

/** Gauss–Newton steps inside the segment: a search on values alone stops at half the digits. */
function polished(
  problem: BreakProblem,
  at: (breakAt: number) => { coefficients: number[]; chiSquare: number },
  whiten: BreakProblem['whiten'],
  observed: Matrix,
  start: number,
): number {
  let breakAt = start;
  const segment = problem.knots.findLastIndex((knot) => knot <= start);
  const [low, high] = [problem.knots[segment], problem.knots[segment + 1]];
  for (let i = 0; i < 3; i++) {
    const { coefficients, chiSquare } = at(breakAt);
    const full = fullDesign(problem, whiten, breakAt, coefficients);
    const decomposition = new QrDecomposition(full);
    if (!decomposition.isFullRank()) return breakAt;
    const fitted = full.mmul(Matrix.columnVector([...coefficients, 0]));
    const step = decomposition.solve(Matrix.sub(observed, fitted)).get(coefficients.length, 0);
    const next = breakAt + step;
    if (!(next > low && next < high) || at(next).chiSquare > chiSquare) return breakAt;
    breakAt = next;
  }
  return breakAt;
}
