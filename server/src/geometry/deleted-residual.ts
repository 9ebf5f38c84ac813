import { requireSameLength } from './inputs';
import { birgeFactor, covarianceBetween, type MotionCovariance } from './motion-covariance';
import { movedVector, type RigidFit, rigidFit } from './rigid-motion';
import { eigenPairs, matrixFunction } from './symmetric';
import {
  identity,
  length,
  type Mat3,
  product,
  quadratic,
  scaledMatrix,
  subtract,
  sum,
  transformed,
  transposed,
  type Vec3,
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
 * @param from n readings; @param to n reference positions (mm); @param weights n, 1/u²
 * @param fit `rigidFit(from, to, weights)`
 * @param motion `motionCovariance(to, weights)`; a factor other than 1 is divided out
 * @param index which point
 * @throws RangeError for lists of different lengths or an index outside them
 */
export function deletedResidual(
  from: readonly Vec3[],
  to: readonly Vec3[],
  weights: readonly number[],
  fit: RigidFit,
  motion: MotionCovariance,
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
  const pairs = eigenPairs(sum(identity, scaledMatrix(shared, -weight)));
  const inverse = matrixFunction(pairs, (value) => (value >= judgeable ? 1 / value : 0));
  // A and I − wA have the same eigenvectors: their product is symmetric but for rounding.
  const ofOthers = product(shared, inverse);
  const unjudgeable = matrixFunction(pairs, (value) => (value >= judgeable ? 0 : 1));

  const plain = fit.residuals[index] as unknown as Vec3;
  let residual = transformed(inverse, plain);
  let chiSquare = Math.max(0, fit.chiSquare - weight * quadratic(plain, inverse));
  if (from.length > 1 && length(plain) > linearUpTo) {
    const free = pairs.some(({ value }) => value < judgeable);
    const others = weights.map((value, i) => (i !== index ? value : free ? value * trace : 0));
    const refit = rigidFit(from, to, others);
    const rotation = refit.rotation as unknown as Mat3;
    const translation = refit.translation as unknown as Vec3;
    const deviation = subtract(movedVector({ rotation, translation }, from[index]), to[index]);
    residual = subtract(deviation, transformed(unjudgeable, deviation));
    chiSquare = refit.chiSquare - others[index] * length(refit.residuals[index] as unknown as Vec3) ** 2;
  }
  const factor = birgeFactor(Math.max(0, chiSquare), from.length - 1);
  const covariance = scaledMatrix(sum(ofOthers, transposed(ofOthers)), factor / 2);
  return { residual, covariance, factor, unjudgeable };
}
