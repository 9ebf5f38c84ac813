import { covarianceBetween, type MotionCovariance } from '../geometry/motion-covariance';
import {
  add,
  diagonal,
  type Mat3,
  scaled,
  scaledMatrix,
  sum,
  transposed,
  type Vec3,
  zero,
} from '../geometry/vector';
import type { Point } from '../model/chassis';

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
export function alignedDoubt(motion: MotionCovariance): StageDoubt {
  return {
    rotation: motion.rotation,
    // the alignment turns all points alike
    turn: (own) => sum(own, motion.rotation),
    between: (a, b) => {
      // A(r, s) is linear in either place, so the mean over all pairs is A between the mean places
      const shared = covarianceBetween(motion, meanReference(a), meanReference(b));
      return sum(shared, diagonal(ownVariance(a, b)));
    },
  };
}

/** Σ of share · share · variance over the points that are in both. */
function ownVariance(a: Share, b: Share): number {
  const inB = a.points === b.points ? null : new Map(b.points.map((point, i) => [point, b.shares[i]]));
  let total = 0;
  a.points.forEach((point, i) => {
    const other = inB === null ? b.shares[i] : inB.get(point);
    if (other !== undefined) total += a.shares[i] * other * point.variance;
  });
  return total;
}

/** Each point counts alike. */
export const evenly = (points: readonly Displacement[]): Share => ({
  points,
  shares: points.map(() => 1 / points.length),
});

/** Each point counts by a weight. */
export function byWeight(points: readonly Displacement[], weights: readonly number[]): Share {
  const total = weights.reduce((a, b) => a + b, 0);
  return { points, shares: weights.map((weight) => weight / total) };
}

/** Cov of the difference of two mean shifts, mm². */
export function differenceCovariance(doubt: StageDoubt, a: Share, b: Share): Mat3 {
  const own = sum(doubt.between(a, a), doubt.between(b, b));
  const shared = doubt.between(a, b);
  return sum(own, scaledMatrix(sum(shared, transposed(shared)), -1));
}

export const meanShift = (group: readonly Displacement[]): Vec3 =>
  scaled(group.map((each) => each.shift).reduce(add, zero), 1 / group.length);

const meanReference = ({ points, shares }: Share): Vec3 =>
  points.map((each, i) => scaled(each.point.reference, shares[i])).reduce(add, zero);
