import { covarianceBetween } from '../../geometry/motion-covariance';
import { randomEffectsMean } from '../../geometry/random-effects-mean';
import type { Vec3 } from '../../geometry/vector';
import type { Axis } from '../../model/chassis';
import { mapAxes } from '../alignment/points';
import type { CarPoint } from './car';

/** One estimate a car of the three numbers of a place, or of a difference. */
interface Estimate {
  readonly at: Vec3;
  readonly variance: Vec3;
  readonly shared: Vec3;
}

/** What several cars have in common. Vehicle axes, mm. */
export interface Combined {
  readonly at: Vec3;
  /** At ± 1.96 of it the mean over sound cars is covered in 95 %. */
  readonly uncertainty: Vec3;
  /** Standard deviation between cars that they show; null for one car. */
  readonly between: Vec3 | null;
  /** χ² by the scatter that is stated, on `cars` − 1 degrees of freedom, of the axis where it is largest. */
  readonly chiSquare: number;
  readonly cars: number;
}

/** @param scatterMm between cars, as known beforehand, standard */
function combined(estimates: readonly Estimate[], scatterMm: number): Combined {
  const means = mapAxes((k) =>
    randomEffectsMean(
      estimates.map(({ at }) => at[k]),
      estimates.map(({ variance }) => variance[k]),
      scatterMm ** 2,
    ),
  );
  // an error that all cars have does not average out
  const sharedOn = (k: Axis): number =>
    estimates.reduce((sum, { shared }) => sum + shared[k], 0) / estimates.length;
  return {
    at: mapAxes((k) => means[k].value),
    uncertainty: mapAxes((k) => Math.sqrt(means[k].uncertainty ** 2 + sharedOn(k))),
    between: estimates.length === 1 ? null : mapAxes((k) => Math.sqrt(Math.max(0, means[k].between ?? 0))),
    chiSquare: Math.max(...means.map(({ chiSquare }) => chiSquare)),
    cars: estimates.length,
  };
}

/** A point over cars. */
export const overCars = (points: readonly CarPoint[], scatterMm: number): Combined =>
  combined(
    points.map(({ place, variance, shared }) => ({ at: place, variance, shared })),
    scatterMm,
  );

/** Left and right of one car. */
interface Pair {
  readonly left: CarPoint;
  readonly right: CarPoint;
}

/** Mirrored at the centre plane, and back. */
const mirror: Vec3 = [1, -1, 1];

/** The left point as both sides have it: the mean of the left and of the right, mirrored. */
export const bothSides = (pairs: readonly Pair[], scatterMm: number): Combined =>
  combined(
    pairs.map((pair) => ofPair(pair, 0.5)),
    scatterMm,
  );

/** Left less right, mirrored. */
export const sidesApart = (pairs: readonly Pair[], scatterMm: number): Combined =>
  combined(
    pairs.map((pair) => ofPair(pair, -1)),
    Math.SQRT2 * scatterMm,
  );

/** ½ (left + right) where `share` is ½, left − right where it is −1. */
function ofPair({ left, right }: Pair, share: 0.5 | -1): Estimate {
  const own = share === -1 ? 1 : 0.5;
  const common = covarianceBetween(left.doubt, left.place, right.place);
  const together = (a: Vec3, b: Vec3, k: Axis): number => own ** 2 * a[k] + share ** 2 * b[k];
  return {
    at: mapAxes((k) => own * left.place[k] + share * mirror[k] * right.place[k]),
    variance: mapAxes((k) =>
      Math.max(
        own ** 2 * (left.variance[k] + right.variance[k]) * leastShare,
        together(left.variance, right.variance, k) + 2 * own * share * mirror[k] * common[k][k],
      ),
    ),
    // of a mean no more than of either
    shared: mapAxes((k) => (share === -1 ? 0 : Math.max(left.shared[k], right.shared[k]))),
  };
}

/** Rounding, and a doubt that holds what all cars share, leave no variance below this share of what two readings have by themselves. */
const leastShare = 0.1;
