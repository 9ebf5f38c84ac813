import { covarianceBetween, type MotionDoubt } from '../../geometry/motion-covariance';
import { type Mat3, sum, type Vec3 } from '../../geometry/vector';
import type { Point } from '../../model/chassis';

/**
 * Where the points of one stage stand in vehicle axes, with what is doubtful about each alone and about all together:
 * the alignment's share of the doubt is common to all points of a stage.
 */
export interface Displacement {
  readonly point: Point;
  /** Vehicle axes, mm. */
  readonly measured: Vec3;
  /** measured − reference, mm. */
  readonly shift: Vec3;
  /** u(reading)² + u(reference)² on each axis, mm². */
  readonly variance: number;
}

/** A length with its standard uncertainty, mm. */
export interface Quantity {
  readonly mm: number;
  readonly uncertaintyMm: number;
}

/** Some points of a stage with the share that each has in their mean; shares add up to one. */
export interface Share {
  readonly points: readonly Displacement[];
  readonly shares: readonly number[];
  /** Their mean reference, vehicle axes, mm. */
  readonly place: Vec3;
}

/** What the points of one stage share. */
export interface StageDoubt {
  /** Cov between two weighted mean shifts, mm²; a point that is in both counts its own variance. */
  between(a: Share, b: Share): Mat3;
  /** Σθ of the alignment, rad²; zero where there is none. */
  readonly rotation: Mat3;
  /**
   * Cov of a turn fitted to some points, rad².
   * @param own J⁻¹ of the points and weights, for points that had nothing in common
   */
  turn(own: Mat3, points: readonly Displacement[], weights: readonly number[]): Mat3;
}

/** Doubt of a stage aligned by a rigid motion: u² I for a point with itself, plus A between the places. */
export function alignedDoubt(motion: MotionDoubt): StageDoubt {
  return {
    rotation: motion.rotation,
    // the alignment turns all points alike
    turn: (own) => sum(own, motion.rotation),
    between: (a, b) => {
      // A(r, s) is linear in either place, so the mean over all pairs is A between the mean places
      const shared = covarianceBetween(motion, a.place, b.place);
      const own = ownVariance(a, b);
      if (own === 0) return shared;
      const [x, y, z] = shared;
      return [
        [x[0] + own, x[1], x[2]],
        [y[0], y[1] + own, y[2]],
        [z[0], z[1], z[2] + own],
      ];
    },
  };
}

/** Up to so many pairs are compared one by one: more than that are looked up. */
const fewPairs = 64;

/** Σ of share · share · variance over the points that are in both. */
function ownVariance(a: Share, b: Share): number {
  const same = a.points === b.points;
  const inB =
    same || a.points.length * b.points.length <= fewPairs
      ? null
      : new Map(b.points.map((point, i) => [point, i]));
  let total = 0;
  for (let i = 0; i < a.points.length; i++) {
    const point = a.points[i];
    const j = same ? i : inB === null ? b.points.indexOf(point) : (inB.get(point) ?? -1);
    if (j >= 0) total += a.shares[i] * b.shares[j] * point.variance;
  }
  return total;
}

/** @param shares one for each point, adding up to one */
export function shareOf(points: readonly Displacement[], shares: readonly number[]): Share {
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) {
    const { reference } = points[i].point;
    x += reference[0] * shares[i];
    y += reference[1] * shares[i];
    z += reference[2] * shares[i];
  }
  return { points, shares, place: [x, y, z] };
}

/** Each point counts alike. */
export const evenly = (points: readonly Displacement[]): Share =>
  shareOf(points, new Array<number>(points.length).fill(1 / points.length));

/** Each point counts by a weight. */
export function byWeight(points: readonly Displacement[], weights: readonly number[]): Share {
  const total = weights.reduce((a, b) => a + b, 0);
  return shareOf(
    points,
    weights.map((weight) => weight / total),
  );
}

/** Cov of the difference of two mean shifts, mm². */
export function differenceCovariance(doubt: StageDoubt, a: Share, b: Share): Mat3 {
  const [one, other, shared] = [doubt.between(a, a), doubt.between(b, b), doubt.between(a, b)];
  const entry = (i: 0 | 1 | 2, j: 0 | 1 | 2): number =>
    one[i][j] + other[i][j] - (shared[i][j] + shared[j][i]);
  return [
    [entry(0, 0), entry(0, 1), entry(0, 2)],
    [entry(1, 0), entry(1, 1), entry(1, 2)],
    [entry(2, 0), entry(2, 1), entry(2, 2)],
  ];
}

export function meanShift(group: readonly Displacement[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (const { shift } of group) {
    x += shift[0];
    y += shift[1];
    z += shift[2];
  }
  const share = 1 / group.length;
  return [x * share, y * share, z * share];
}
