import { requireSameLength } from './inputs';
import { birgeFactor, covarianceBetween, type MotionCovariance } from './motion-covariance';
import { movedVector, rigidFit, type SpatialFit } from './rigid-motion';
import { eigenPairs, matrixFunction } from './symmetric';
import {
  dot,
  length,
  type Mat3,
  quadratic,
  scaledMatrix,
  subtract,
  transformed,
  type Vec3,
  zero,
} from './vector';

/** One point of a fit, judged by the fit of the others. */
export interface DeletedResidual {
  /** R p + t − q with the motion fitted without this point; 0 along the unjudgeable directions */
  residual: Vec3;
  /** of the fit of the others at this point, with the others' Birge factor; 0 along the unjudgeable directions */
  covariance: Mat3;
  /** the others' Birge factor, in `covariance` already */
  factor: number;
  /** projector on the directions in which the others leave this point free; 0 where everything can be judged */
  unjudgeable: Mat3;
}

/** A weighted fit of readings to their references, with what it was made from. */
interface WeightedFit {
  /** n readings, mm */
  readonly measured: readonly Vec3[];
  /** n reference positions, mm */
  readonly references: readonly Vec3[];
  /** n, 1/u² */
  readonly weights: readonly number[];
  /** `rigidFit(measured, references, weights)` */
  readonly fit: SpatialFit;
  /** `motionCovariance(references, weights)`; a factor other than 1 is divided out */
  readonly motion: MotionCovariance;
}

/** Smallest eigenvalue of I − wA with which the others still say something in that direction. */
const judgeable = 1e-6;
/** Above this residual (mm) the linear formula bends, and the fit is made anew without the point. */
const linearUpTo = 20;
/** Weight left to the point in a refit whose other points alone would let it spin: settles the spin, moves nothing. */
const trace = 1e-9;

/**
 * d = (I − wA)⁻¹ e and the covariance A(I − wA)⁻¹ of the others there: Belsley, Kuh & Welsch 1980 (section 2.1), for three
 * coordinates at a time. Exact for the linearised fit; the residual and χ² come from a real refit where |e| > 20.
 *
 * @param index which point
 * @throws RangeError for lists of different lengths or an index outside them
 */
export function deletedResidual(
  { measured: from, references: to, weights, fit, motion }: WeightedFit,
  index: number,
): DeletedResidual {
  requireSameLength('Points to reach', from.length, to.length);
  requireSameLength('Weights', from.length, weights.length);
  requireSameLength('Residuals', from.length, fit.residuals.length);
  if (!(Number.isInteger(index) && index >= 0 && index < from.length)) {
    throw new RangeError(`Point ${index} is not one of ${from.length}.`);
  }
  const weight = weights[index];
  const shared = scaledMatrix(covarianceBetween(motion, to[index], to[index]), 1 / motion.factor);
  const { inverse, unjudgeable } = inverseBesides(shared, weight);
  const plain = fit.residuals[index];
  let residual = transformed(inverse, plain);
  let chiSquare = Math.max(0, fit.chiSquare - weight * quadratic(plain, inverse));
  if (from.length > 1 && length(plain) > linearUpTo) {
    const others = weights.map((value, i) =>
      i !== index ? value : unjudgeable === nothing ? 0 : value * trace,
    );
    const refit = rigidFit(from, to, others);
    const deviation = subtract(movedVector(refit, from[index]), to[index]);
    residual = subtract(deviation, transformed(unjudgeable, deviation));
    chiSquare = refit.chiSquare - others[index] * length(refit.residuals[index]) ** 2;
  }
  const factor = birgeFactor(Math.max(0, chiSquare), from.length - 1);
  return { residual, covariance: commonProduct(shared, inverse, factor), factor, unjudgeable };
}

const nothing: Mat3 = [zero, zero, zero];
/** No eigenvalue of I − wA is above 1, so that none is below its determinant: far from what cannot be judged. */
const plainlyJudgeable = 1e-3;

/** (I − wA)⁻¹ in the directions that can be judged, 0 along the others, and the projector on those: `nothing` where there are none. */
function inverseBesides(shared: Mat3, weight: number): { inverse: Mat3; unjudgeable: Mat3 } {
  const xx = 1 - weight * shared[0][0];
  const yy = 1 - weight * shared[1][1];
  const zz = 1 - weight * shared[2][2];
  const xy = -weight * shared[0][1];
  const xz = -weight * shared[0][2];
  const yz = -weight * shared[1][2];
  const [a, b, c] = [yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy];
  const determinant = xx * a + xy * b + xz * c;
  if (determinant > plainlyJudgeable) {
    const k = 1 / determinant;
    const [f, g] = [k * (xy * xz - xx * yz), k * (xx * yy - xy * xy)];
    const inverse: Mat3 = [
      [k * a, k * b, k * c],
      [k * b, k * (xx * zz - xz * xz), f],
      [k * c, f, g],
    ];
    return { inverse, unjudgeable: nothing };
  }
  const pairs = eigenPairs([
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ]);
  const isFree = pairs.some(({ value }) => value < judgeable);
  return {
    inverse: matrixFunction(pairs, (value) => (value >= judgeable ? 1 / value : 0)),
    unjudgeable: isFree ? matrixFunction(pairs, (value) => (value >= judgeable ? 0 : 1)) : nothing,
  };
}

/** k A B of two symmetric matrices with the same eigenvectors: symmetric but for rounding, which is taken out. */
function commonProduct(a: Mat3, b: Mat3, k: number): Mat3 {
  const entry = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => (k / 2) * (dot(a[i], b[j]) + dot(a[j], b[i]));
  const [xy, xz, yz] = [entry(0, 1), entry(0, 2), entry(1, 2)];
  return [
    [entry(0, 0), xy, xz],
    [xy, entry(1, 1), yz],
    [xz, yz, entry(2, 2)],
  ];
}
