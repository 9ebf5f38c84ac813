import { leastSquares } from './orthogonal';
import { whitenedSquares } from './positive-definite';
import type { Whitener } from './whitening';

/** A model of n values that is linear in a few coefficients for a given break, and as a whole in the break between two knots. */
export interface BreakProblem {
  readonly whiten: Whitener;
  /** n, whitened */
  readonly observed: Float64Array;
  /** distinct, increasing; the break is searched for between the first-th and the last-th */
  readonly knots: readonly number[];
  readonly first: number;
  readonly last: number;
  /** how many coefficients */
  readonly count: number;
  /** writes the design for a break, one column of n after the other, into zeros */
  readonly design: (breakAt: number, columns: Float64Array) => void;
  /** writes the derivative of the fitted values by the break into zeros that begin at `from` */
  readonly byBreak: (
    breakAt: number,
    coefficients: Float64Array,
    columns: Float64Array,
    from: number,
  ) => void;
}

/**
 * χ² as a function of the break, quick enough to be tried at many places: within a segment the design is a straight mix of
 * the designs at its two ends, so that products of those, made once, are all that a place needs. Differences of large
 * numbers cost it some digits, which does for finding the minimum, not for stating it.
 */
export function chiSquareBetweenKnots(problem: BreakProblem): (breakAt: number) => number {
  const { observed, knots, first, last, count } = problem;
  const [total, rows, size] = [leastSquares(observed, 0), observed.length, count * count];
  const segments = last - first;
  // of the designs at the knots: each with itself, with the one at the next knot, with the observations
  const owns = new Float64Array((segments + 1) * size);
  const withNext = new Float64Array(segments * size);
  const withObserved = new Float64Array((segments + 1) * count);
  let [here, before] = [new Float64Array(count * rows), new Float64Array(count * rows)];
  for (let i = 0; i <= segments; i++) {
    [here, before] = [before, here];
    whitenedDesign(problem, knots[first + i], here);
    for (let a = 0; a < count; a++) {
      withObserved[i * count + a] = productOf(here, a * rows, observed, 0, rows);
      for (let b = 0; b < count; b++) {
        owns[i * size + a * count + b] = productOf(here, a * rows, here, b * rows, rows);
        if (i > 0)
          withNext[(i - 1) * size + a * count + b] =
            productOf(before, a * rows, here, b * rows, rows) +
            productOf(before, b * rows, here, a * rows, rows);
      }
    }
  }
  const normal = new Float64Array(size);
  const right = new Float64Array(count);
  const squares = whitenedSquares(count);
  // a place that is asked for stands near the one before
  let knot = first;
  return (breakAt) => {
    while (knot < last - 1 && knots[knot + 1] <= breakAt) knot++;
    while (knot > first && knots[knot] > breakAt) knot--;
    const i = knot - first;
    const t = (breakAt - knots[knot]) / (knots[knot + 1] - knots[knot]);
    const [toHere, toNext, toBoth] = [(1 - t) ** 2, t ** 2, t * (1 - t)];
    for (let k = 0; k < size; k++)
      normal[k] =
        owns[i * size + k] * toHere + withNext[i * size + k] * toBoth + owns[(i + 1) * size + k] * toNext;
    for (let k = 0; k < count; k++)
      right[k] = withObserved[i * count + k] * (1 - t) + withObserved[(i + 1) * count + k] * t;
    const explained = squares(normal, right);
    return explained === null ? Number.POSITIVE_INFINITY : total - explained;
  };
}

/** The product of two vectors of a length that begin at two places. */
export function productOf(
  a: Float64Array,
  from: number,
  b: Float64Array,
  start: number,
  length: number,
): number {
  let products = 0;
  for (let i = 0; i < length; i++) products += a[from + i] * b[start + i];
  return products;
}

/** Writes the whitened design for a break in the place of what `columns` held. */
export function whitenedDesign(
  { design, whiten }: BreakProblem,
  breakAt: number,
  columns: Float64Array,
): void {
  columns.fill(0);
  design(breakAt, columns);
  whiten(columns);
}
