import { chiSquareQuantile } from './distributions';
import { requireFinite, requirePoints, requireWeights } from './inputs';
import { weightedMean } from './rigid-motion';
import { eigenPairs, matrixFunction } from './symmetric';
import { diagonal, type Mat3, scaledMatrix, type Vec3 } from './vector';

/**
 * What a weighted rigid fit leaves uncertain: a small error x ↦ δ + ω × (x − centroid) with Cov δ = `translation`,
 * Cov ω = `rotation` (rad²) and nothing in common between the two.
 */
export interface MotionCovariance {
  /** weighted mean of the positions */
  centroid: Vec3;
  /** factor · I / Σw */
  translation: Mat3;
  /** factor · J⁻¹, rad²; the pseudo-inverse where some rotation is unobservable, so 0 about those axes */
  rotation: Mat3;
  /** J = Σ w (|r|² I − r rᵀ), r from the centroid; without the factor */
  information: Mat3;
  /** unit axes that the positions do not fix the rotation about: none, one (collinear) or all (one point) */
  unobservable: Vec3[];
  /** what both covariances were multiplied by */
  factor: number;
  /** 3n − 3 − rank J: 3n − 6 for points that fix the motion */
  degreesOfFreedom: number;
}

/** What the doubt at a place follows from. */
export type MotionDoubt = Pick<MotionCovariance, 'centroid' | 'translation' | 'rotation'>;

/** Under this share of the largest, an eigenvalue of J is rounding: the points are on a line within 1e-5 of its length. */
const negligible = 1e-10;
/** Distances under this share of the coordinates are rounding: the points coincide. */
const rounding = 1e-12;

/** J = Σ w (|r|² I − r rᵀ), r = position − centre: how firmly the points fix a rotation about the centre. */
function rotationInformation(positions: readonly Vec3[], weights: readonly number[], centre: Vec3): Mat3 {
  let [xx, xy, xz, yy, yz, zz] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < positions.length; i++) {
    const x = positions[i][0] - centre[0];
    const y = positions[i][1] - centre[1];
    const z = positions[i][2] - centre[2];
    const w = weights[i];
    xx += w * (y * y + z * z);
    yy += w * (x * x + z * z);
    zz += w * (x * x + y * y);
    xy -= w * x * y;
    xz -= w * x * z;
    yz -= w * y * z;
  }
  return [
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ];
}

/** J⁺ and the axes in J's null space; eigenvalues of J up to `rounding` are taken for 0 whatever the others are. */
function pseudoInverse(information: Mat3, rounding: number): { covariance: Mat3; unobservable: Vec3[] } {
  const pairs = eigenPairs(information);
  const least = Math.max(rounding, negligible * pairs[2].value);
  return {
    covariance: matrixFunction(pairs, (value) => (value > least ? 1 / value : 0)),
    unobservable: pairs.filter((pair) => !(pair.value > least)).map((pair) => pair.vector),
  };
}

/**
 * The covariance of a weighted rigid fit onto these positions, weights 1/u².
 * Source: the normal equations of the linearised fit about the weighted centroid, as in Fitzpatrick, West & Maurer
 * 1998, whose mean square error at a target is the trace of `covarianceBetween(m, target, target)`.
 *
 * @param positions n reference positions
 * @param weights n, 1/u²
 * @param factor multiplies both covariances; see `birgeFactor`
 * @throws RangeError for lists of different lengths, no points, non-finite values, or no weight above 0
 */
export function motionCovariance(
  positions: readonly Vec3[],
  weights: readonly number[],
  factor = 1,
): MotionCovariance {
  const farthest = requirePoints('Positions', positions);
  requireWeights(weights, positions.length);
  requireFinite('Factor', [factor]);
  const centroid = weightedMean(positions, weights);
  const total = weights.reduce((all, weight) => all + weight, 0);
  const information = rotationInformation(positions, weights, centroid);
  const { covariance, unobservable } = pseudoInverse(information, total * (rounding * farthest) ** 2);
  return {
    centroid,
    translation: diagonal(factor / total),
    rotation: scaledMatrix(covariance, factor),
    information,
    unobservable,
    factor,
    degreesOfFreedom: 3 * positions.length - 6 + unobservable.length,
  };
}

/**
 * A(r, s) = Σt + [r]× Σθ [s]×ᵀ with r and s from the centroid: the covariance of what the fit's error does at `a` with
 * what it does at `b`, in the unit squared. A(r, r) is the variance at one place.
 */
export function covarianceBetween({ centroid, translation, rotation }: MotionDoubt, a: Vec3, b: Vec3): Mat3 {
  const rx = a[0] - centroid[0];
  const ry = a[1] - centroid[1];
  const rz = a[2] - centroid[2];
  const sx = b[0] - centroid[0];
  const sy = b[1] - centroid[1];
  const sz = b[2] - centroid[2];
  const [x, y, z] = rotation;
  // [r]× Σθ, row by row
  const xx = ry * z[0] - rz * y[0];
  const xy = ry * z[1] - rz * y[1];
  const xz = ry * z[2] - rz * y[2];
  const yx = rz * x[0] - rx * z[0];
  const yy = rz * x[1] - rx * z[1];
  const yz = rz * x[2] - rx * z[2];
  const zx = rx * y[0] - ry * x[0];
  const zy = rx * y[1] - ry * x[1];
  const zz = rx * y[2] - ry * x[2];
  const [first, second, third] = translation;
  return [
    [first[0] + (sy * xz - sz * xy), first[1] + (sz * xx - sx * xz), first[2] + (sx * xy - sy * xx)],
    [second[0] + (sy * yz - sz * yy), second[1] + (sz * yx - sx * yz), second[2] + (sx * yy - sy * yx)],
    [third[0] + (sy * zz - sz * zy), third[1] + (sz * zx - sx * zz), third[2] + (sx * zy - sy * zx)],
  ];
}

/** The diagonal of A(r, r): the variances at one place, without the rest of the matrix. */
export function variancesAt({ centroid, translation, rotation }: MotionDoubt, place: Vec3): Vec3 {
  const x = place[0] - centroid[0];
  const y = place[1] - centroid[1];
  const z = place[2] - centroid[2];
  const xx = rotation[0][0];
  const xy = rotation[0][1];
  const xz = rotation[0][2];
  const yy = rotation[1][1];
  const yz = rotation[1][2];
  const zz = rotation[2][2];
  return [
    translation[0][0] + z * z * yy + y * y * zz - 2 * y * z * yz,
    translation[1][1] + z * z * xx + x * x * zz - 2 * x * z * xz,
    translation[2][2] + y * y * xx + x * x * yy - 2 * x * y * xy,
  ];
}

/**
 * Birge's ratio: χ²/(3n − 6) where χ² exceeds its 99 % point, else 1. The points then scatter more than their u says,
 * and everything that rests on them is as much less certain (Birge 1932).
 */
export function birgeFactor(chiSquare: number, pointCount: number): number {
  const degreesOfFreedom = 3 * pointCount - 6;
  if (degreesOfFreedom <= 0) return 1;
  return chiSquare > chiSquareQuantile(0.99, degreesOfFreedom) ? chiSquare / degreesOfFreedom : 1;
}
