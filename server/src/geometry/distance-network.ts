import { requireFinite, requirePoints } from './inputs';
import { nonLinearLeastSquares } from './non-linear-least-squares';
import { length, type Mat3, scaled, subtract, type Vec3 } from './vector';

export interface NetworkPoint {
  /** where it is thought to be (mm) */
  position: Vec3;
  /** mm² on each axis; 0 for a point that is known */
  priorVariance: number;
  /** whether its prior counts in χ²; by default where it is as sharp as a distance */
  evidence?: boolean;
}

export interface NetworkDistance {
  /** indices of its two points */
  from: number;
  to: number;
  /** mm */
  distance: number;
  /** standard, mm, above 0 */
  uncertainty: number;
  /** measured level, between places above or below the points: the third axis does not count */
  level?: boolean;
}

export interface Network {
  positions: Vec3[];
  /** of each position; the same as `covariance(i, i)` */
  covariances: Mat3[];
  /** of position i with position j, mm² */
  covariance: (i: number, j: number) => Mat3;
  /** observed − computed, one for each distance, mm */
  residuals: number[];
  /** residual / √Qvv (Baarda 1968), standard normal for a sound distance; 0 where nothing checks the distance */
  normalisedResiduals: number[];
  /** Baarda's redundancy numbers: 0 nothing checks this distance, 1 it adds nothing to what the others say */
  redundancies: number[];
  chiSquare: number;
  /** to judge `chiSquare` by; need not be whole; near 0 where nothing checks anything */
  degreesOfFreedom: number;
  /** false: no answer was reached and the figures are not to be used */
  converged: boolean;
}

/** A prior so many times as wide as the widest distance's u only keeps its point from drifting: it is no evidence. */
const noEvidence = 5;
/** Redundancy under which a residual says nothing about its distance. */
const unchecked = 0.01;

/**
 * Positions from distances by non-linear least squares from the prior positions, which are observations too, so that
 * what the distances do not determine stays where it was (Ghilani & Wolf, Adjustment Computations: trilateration
 * with constrained control). Finds the minimum nearest to the prior: the mirror image of a point in the plane of the others is another.
 *
 * χ² sums the distances and those priors that are as sharp as a measurement (up to 5 times the largest u of a distance). Wide
 * priors are left out of it with their own redundancy: how far a point moved from a guess is no sign of a wrong distance.
 *
 * @throws RangeError for non-finite values, a negative variance, an uncertainty not above 0, a negative distance, or a
 *   distance between points that are not there
 */
export function distanceNetwork(
  points: readonly NetworkPoint[],
  distances: readonly NetworkDistance[],
): Network {
  requireNetwork(points, distances);
  const equations = equationsOf(points, distances);
  const { columnOf, prior, priorUncertainty, at, residualsAt, derivatives } = equations;
  const solved =
    prior.length === 0
      ? { solution: [], covariance: [], converged: true }
      : nonLinearLeastSquares({
          start: prior,
          residuals: (x) => [
            ...residualsAt(x).map((value, i) => value / distances[i].uncertainty),
            ...x.map((value, i) => (prior[i] - value) / priorUncertainty[i]),
          ],
          jacobian: (x) => [
            ...distances.map((each) => derivatives(x, each).map((value) => -value / each.uncertainty)),
            ...x.map((_, i) => x.map((_, k) => (i === k ? -1 / priorUncertainty[i] : 0))),
          ],
        });
  const x = solved.solution;
  // Without a covariance nothing is known: infinite variances, no redundancy.
  const joint: Joint = (row, column) =>
    solved.covariance ? solved.covariance[row][column] : Number.POSITIVE_INFINITY;
  const covariance = (i: number, j: number): Mat3 => {
    const [row, column] = [columnOf.get(i), columnOf.get(j)];
    const entry = (a: number, b: number): number =>
      row === undefined || column === undefined ? 0 : joint(row + a, column + b);
    const rowOf = (a: number): Vec3 => [entry(a, 0), entry(a, 1), entry(a, 2)];
    return [rowOf(0), rowOf(1), rowOf(2)];
  };
  const residuals = residualsAt(x);
  const redundancies = distances.map((each) =>
    redundancyOf(derivatives(x, each), each.uncertainty ** 2, joint),
  );
  const evidence = evidenceIn(points, distances, equations);
  return {
    positions: points.map((_, i) => at(x, i)),
    covariances: points.map((_, i) => covariance(i, i)),
    covariance,
    residuals,
    normalisedResiduals: residuals.map((value, i) =>
      redundancies[i] < unchecked ? 0 : value / (distances[i].uncertainty * Math.sqrt(redundancies[i])),
    ),
    redundancies,
    chiSquare:
      sumOfSquares(residuals.map((value, i) => value / distances[i].uncertainty)) +
      sumOfSquares(evidence.map((i) => (x[i] - prior[i]) / priorUncertainty[i])),
    degreesOfFreedom:
      redundancies.reduce((s, value) => s + value, 0) +
      evidence.reduce((s, i) => s + Math.max(0, 1 - joint(i, i) / priorUncertainty[i] ** 2), 0),
    converged: solved.converged && solved.covariance !== null,
  };
}

/** Covariance of two unknowns, mm². */
type Joint = (row: number, column: number) => number;

/** The unknowns, three for each point that is not known, and the observation equations in them. */
function equationsOf(points: readonly NetworkPoint[], distances: readonly NetworkDistance[]) {
  const unknownPoints = points.flatMap((point, i) => (point.priorVariance > 0 ? [i] : []));
  const columnOf: ReadonlyMap<number, number> = new Map(unknownPoints.map((point, i) => [point, 3 * i]));
  const prior = unknownPoints.flatMap((i) => points[i].position);
  const priorUncertainty = unknownPoints.flatMap((i) =>
    Array<number>(3).fill(Math.sqrt(points[i].priorVariance)),
  );
  const at = (x: readonly number[], point: number): Vec3 => {
    const column = columnOf.get(point);
    return column === undefined ? points[point].position : [x[column], x[column + 1], x[column + 2]];
  };
  const between = (x: readonly number[], { from, to, level }: NetworkDistance): Vec3 => {
    const [dx, dy, dz] = subtract(at(x, to), at(x, from));
    return [dx, dy, level ? 0 : dz];
  };
  const residualsAt = (x: readonly number[]): number[] =>
    distances.map((each) => each.distance - length(between(x, each)));
  /** Derivatives of the computed distance. */
  const derivatives = (x: readonly number[], each: NetworkDistance): number[] => {
    const row = Array<number>(x.length).fill(0);
    const span = between(x, each);
    const computed = length(span);
    // Coincident places have no direction: the distance then pulls nowhere.
    const direction = computed > 0 ? scaled(span, 1 / computed) : span;
    for (const [point, sign] of [
      [each.to, 1],
      [each.from, -1],
    ]) {
      const column = columnOf.get(point);
      if (column !== undefined)
        direction.forEach((value, axis) => {
          row[column + axis] += sign * value;
        });
    }
    return row;
  };
  return { unknownPoints, columnOf, prior, priorUncertainty, at, residualsAt, derivatives };
}

/** 1 − the share of a distance's variance that the network leaves at it, by the derivatives of the distance. */
function redundancyOf(derivatives: readonly number[], variance: number, joint: Joint): number {
  const used = derivatives.flatMap((value, i) => (value === 0 ? [] : [i]));
  const left = used.reduce(
    (all, i) => all + used.reduce((s, k) => s + derivatives[i] * joint(i, k) * derivatives[k], 0),
    0,
  );
  return Math.max(0, 1 - left / variance);
}

/** The unknowns whose prior counts in χ². */
function evidenceIn(
  points: readonly NetworkPoint[],
  distances: readonly NetworkDistance[],
  { unknownPoints, prior, priorUncertainty }: ReturnType<typeof equationsOf>,
): number[] {
  const sharpest = (noEvidence * Math.max(0, ...distances.map((each) => each.uncertainty))) ** 2;
  return prior.flatMap((_, i) =>
    (points[unknownPoints[Math.floor(i / 3)]].evidence ?? priorUncertainty[i] ** 2 <= sharpest) ? [i] : [],
  );
}

const sumOfSquares = (values: readonly number[]): number => values.reduce((s, value) => s + value * value, 0);

function requireNetwork(points: readonly NetworkPoint[], distances: readonly NetworkDistance[]): void {
  requirePoints(
    'Positions',
    points.map((point) => point.position),
  );
  requireFinite(
    'Prior variances',
    points.map((point) => point.priorVariance),
  );
  if (points.some((point) => point.priorVariance < 0))
    throw new RangeError('Prior variances: none may be below 0.');
  for (const { from, to, distance, uncertainty } of distances) {
    requireFinite('Distances', [distance, uncertainty]);
    if (distance < 0) throw new RangeError('Distances: none may be below 0.');
    if (uncertainty <= 0) throw new RangeError('Uncertainties: all must be above 0.');
    if (!points[from] || !points[to] || from === to) {
      throw new RangeError(`A distance from point ${from} to point ${to} of ${points.length}.`);
    }
  }
}
