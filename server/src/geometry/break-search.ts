import { type BreakProblem, chiSquareBetweenKnots, productOf, whitenedDesign } from './break-problem';
import { chiSquareQuantile } from './distributions';
import { leastSquares, solveLeastSquares } from './orthogonal';
import { factored, inverseOf } from './positive-definite';

interface BreakFit {
  readonly breakAt: number;
  /** count */
  readonly coefficients: Float64Array;
  /** of the coefficients, then of the break */
  readonly uncertainties: number[];
  /** by how much the break of the linearised fit moves with each value as given, not whitened */
  readonly breakGain: Float64Array;
  /** where χ² exceeds its minimum by no more than its 95 % point on one degree of freedom, as far as the search goes */
  readonly breakInterval: readonly [number, number];
  readonly chiSquare: number;
}

/** The best coefficients for one break. */
interface FitAt {
  readonly breakAt: number;
  readonly coefficients: Float64Array;
  readonly chiSquare: number;
}

/** Places tried in each segment before the best is narrowed down. */
const placesPerSegment = 24;

/**
 * The break with the least χ² (Hudson 1966): places tried in every segment, the best narrowed down by golden section and then by
 * Gauss–Newton steps. Null where the least lies at an end of the search, and where a break at its very end fits as well (χ² within the 95 %
 * point on one degree of freedom).
 */
export function bestBreak(problem: BreakProblem): BreakFit | null {
  const { knots, first, last } = problem;
  const places = new Float64Array((last - first) * placesPerSegment + 1);
  for (let i = first; i < last; i++)
    for (let k = 0; k < placesPerSegment; k++)
      places[(i - first) * placesPerSegment + k] =
        knots[i] + ((knots[i + 1] - knots[i]) * k) / placesPerSegment;
  places[places.length - 1] = knots[last];
  const roughly = chiSquareBetweenKnots(problem);
  const tried = new Float64Array(places.length);
  let best = 0;
  for (let i = 0; i < places.length; i++) {
    tried[i] = roughly(places[i]);
    if (tried[i] < tried[best]) best = i;
  }
  if (best === 0 || best === places.length - 1) {
    // A minimum may still lie between the outermost two places.
    const inside = best === 0 ? places[1] : places[places.length - 2];
    const end = places[best];
    const nearEnd = fitAt(problem, end + (inside - end) * 1e-3);
    if (!(nearEnd.chiSquare < fitAt(problem, end).chiSquare)) return null;
  }
  const around = [places[Math.max(0, best - 1)], places[Math.min(places.length - 1, best + 1)]] as const;
  const { breakAt, coefficients, chiSquare } = polished(problem, narrowed(roughly, ...around));
  // Every break from there to the last knot fits the same: with only the last value beyond it.
  const pastLast = fitAt(problem, knots[last]).chiSquare;
  const enough = chiSquareQuantile(0.95, 1);
  if (pastLast - chiSquare < enough) return null;
  const linearised = linearisedAt(problem, breakAt, coefficients);
  if (linearised === null) return null;
  const profile = { f: roughly, limit: roughly(breakAt) + enough, places, tried };
  let next = 0;
  while (next < places.length && places[next] <= breakAt) next++;
  return {
    breakAt,
    coefficients,
    chiSquare,
    ...linearised,
    breakInterval: [
      lastInside(profile, breakAt, places[next - 1] === breakAt ? next - 2 : next - 1, -1),
      lastInside(profile, breakAt, next, 1),
    ],
  };
}

interface Profile {
  readonly f: (place: number) => number;
  readonly limit: number;
  readonly places: Float64Array;
  /** f at the places */
  readonly tried: Float64Array;
}

/** How far one gets from a start, by way of the places from an index on, before f is over the limit: found by halving. */
function lastInside({ f, limit, places, tried }: Profile, start: number, from: number, step: 1 | -1): number {
  let near = start;
  let i = from;
  for (; i >= 0 && i < places.length && tried[i] <= limit; i += step) near = places[i];
  if (i < 0 || i >= places.length) return near;
  let far = places[i];
  for (let k = 0; k < 20; k++) {
    const middle = (near + far) / 2;
    if (f(middle) <= limit) near = middle;
    else far = middle;
  }
  return near;
}

function fitAt(problem: BreakProblem, breakAt: number): FitAt {
  const { count, observed } = problem;
  const columns = new Float64Array(count * observed.length);
  whitenedDesign(problem, breakAt, columns);
  const values = observed.slice();
  if (!solveLeastSquares(columns, count, values))
    return { breakAt, coefficients: new Float64Array(count), chiSquare: Number.POSITIVE_INFINITY };
  return { breakAt, coefficients: values.slice(0, count), chiSquare: leastSquares(values, count) };
}

/** The whitened derivatives by the coefficients and, last, by the break. */
function fullDesign(problem: BreakProblem, breakAt: number, coefficients: Float64Array): Float64Array {
  const { count, observed, whiten, design, byBreak } = problem;
  const columns = new Float64Array((count + 1) * observed.length);
  design(breakAt, columns);
  byBreak(breakAt, coefficients, columns, count * observed.length);
  whiten(columns);
  return columns;
}

/** What the linearised fit says there: the uncertainties and the gain of the break; null where it does not determine them. */
function linearisedAt(
  problem: BreakProblem,
  breakAt: number,
  coefficients: Float64Array,
): Pick<BreakFit, 'uncertainties' | 'breakGain'> | null {
  const [rows, size] = [problem.observed.length, problem.count + 1];
  const full = fullDesign(problem, breakAt, coefficients);
  const normal = new Float64Array(size * size);
  for (let a = 0; a < size; a++)
    for (let b = 0; b < size; b++) normal[a * size + b] = productOf(full, a * rows, full, b * rows, rows);
  const factors = factored(normal, size);
  if (factors === null) return null;
  const covariance = inverseOf(factors);
  const gain = new Float64Array(rows);
  for (let a = 0; a < size; a++)
    for (let i = 0; i < rows; i++) gain[i] += covariance[problem.count * size + a] * full[a * rows + i];
  return {
    uncertainties: Array.from({ length: size }, (_, k) => Math.sqrt(covariance[k * size + k])),
    breakGain: unwhitened(problem, gain),
  };
}

/** Of a gain on whitened values the one on the values as given: the whitener's columns are what it makes of each value alone. */
function unwhitened({ whiten, observed }: BreakProblem, gain: Float64Array): Float64Array {
  const rows = observed.length;
  const each = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) each[i * rows + i] = 1;
  whiten(each);
  return gain.map((_, i) => productOf(each, i * rows, gain, 0, rows));
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

/** A step of the break under this share of its segment is rounding. */
const settled = 1e-12;

/** Gauss–Newton steps inside the segment: a search on values alone stops at half the digits. */
function polished(problem: BreakProblem, start: number): FitAt {
  const { knots, count, observed } = problem;
  const segment = knots.findLastIndex((knot) => knot <= start);
  const [low, high] = [knots[segment], knots[segment + 1]];
  let fit = fitAt(problem, start);
  for (let i = 0; i < 3; i++) {
    const values = observed.slice();
    const full = fullDesign(problem, fit.breakAt, fit.coefficients);
    if (!solveLeastSquares(full, count + 1, values)) return fit;
    const breakAt = fit.breakAt + values[count];
    if (!(breakAt > low && breakAt < high)) return fit;
    const better = fitAt(problem, breakAt);
    if (better.chiSquare > fit.chiSquare) return fit;
    fit = better;
    if (Math.abs(values[count]) <= settled * (high - low)) return fit;
  }
  return fit;
}
