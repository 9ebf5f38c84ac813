import { determinant, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { requirePoints, requireSameLength, requireWeights } from './inputs';
import { spatialRotation } from './spatial-rotation';
import type { Mat3, Vec3 } from './vector';

/** A rigid motion x → R x + t in space. */
interface SpatialMotion {
  /** R, rows */
  readonly rotation: Mat3;
  /** t, in the unit of the points */
  readonly translation: Vec3;
}

/** A rigid motion x → R x + t in any dimension, and how well it carries one set of points onto another. */
export interface RigidFit {
  /** R, rows; a proper rotation (determinant +1) */
  readonly rotation: readonly (readonly number[])[];
  /** t, in the unit of the points */
  readonly translation: readonly number[];
  /** c of the best similarity c R x + t; NaN where all weighted `from` points coincide */
  scale: number;
  /** of Σw(p−p̄)(q−q̄)ᵀ / Σw, largest first, in the unit squared */
  singularValues: number[];
  /** a mirror image would fit better; false where the points lie in a plane (or line) and cannot tell */
  reflected: boolean;
  /** R p + t − q, one for each point */
  readonly residuals: readonly (readonly number[])[];
  /** √(Σw|e|² / Σw) */
  rms: number;
  /** Σw|e|² */
  chiSquare: number;
}

/** A fit of points in space. */
export interface SpatialFit extends RigidFit {
  readonly rotation: Mat3;
  readonly translation: Vec3;
  /** R p + t − q, one for each point */
  readonly residuals: readonly Vec3[];
}

/** Σ w x / Σ w */
export function weightedMean(points: readonly Vec3[], weights: readonly number[]): Vec3;
export function weightedMean(
  points: readonly (readonly number[])[],
  weights: readonly number[],
): readonly number[];
export function weightedMean(
  points: readonly (readonly number[])[],
  weights: readonly number[],
): readonly number[] {
  const total = sumOf(weights);
  const mean: number[] = points[0].map(() => 0);
  for (let i = 0; i < points.length; i++) {
    const share = weights[i] / total;
    for (let axis = 0; axis < mean.length; axis++) mean[axis] += share * points[i][axis];
  }
  return mean;
}

function sumOf(values: readonly number[]): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i];
  return total;
}

/** Under this share of the largest, a singular value is rounding and not a dimension of the points. */
const negligible = 1e-12;
/** Distances under this share of the coordinates are rounding: the points coincide. */
const coincident = 1e-12;

/**
 * The rigid motion that carries `from` onto `to` with the least Σ wᵢ |R pᵢ + t − qᵢ|².
 *
 * Where the points leave a turn free (one point; collinear points in space) the best rotation that turns least is
 * returned: its residuals are right, what it does to other points is a guess.
 * Singular value decomposition with the determinant correction, so that noisy or coplanar points never give a
 * mirror image: Arun, Huang & Blostein 1987; Umeyama 1991 (whose x are `from` and y are `to`).
 *
 * @param from n points, all with as many coordinates
 * @param to n points, the same coordinates
 * @param weights n, 1/u² of each pair; 0 leaves a pair out but gives its residual
 * @throws RangeError for lists of different lengths, no points, non-finite values, or no weight above 0
 */
export function rigidFit(from: readonly Vec3[], to: readonly Vec3[], weights: readonly number[]): SpatialFit;
export function rigidFit(
  from: readonly (readonly number[])[],
  to: readonly (readonly number[])[],
  weights: readonly number[],
): RigidFit;
export function rigidFit(
  from: readonly (readonly number[])[],
  to: readonly (readonly number[])[],
  weights: readonly number[],
): RigidFit {
  const similarity = similarityOf(from, to, weights);
  const { rotation, fromMean, toMean } = similarity;
  const dimension = fromMean.length;
  // From the centred points: rounding of a far-off translation stays out of the residuals.
  const residuals: number[][] = [];
  let chiSquare = 0;
  const centred = fromMean.slice();
  for (let i = 0; i < from.length; i++) {
    for (let axis = 0; axis < dimension; axis++) centred[axis] = from[i][axis] - fromMean[axis];
    const residual = toMean.slice();
    for (let axis = 0; axis < dimension; axis++)
      residual[axis] = dotProduct(rotation[axis], centred) - (to[i][axis] - toMean[axis]);
    residuals.push(residual);
    chiSquare += weights[i] * dotProduct(residual, residual);
  }
  return {
    rotation,
    translation: toMean.map((value, axis) => value - dotProduct(rotation[axis], fromMean)),
    scale: similarity.scale,
    singularValues: similarity.singularValues,
    reflected: similarity.reflected,
    residuals,
    rms: Math.sqrt(chiSquare / sumOf(weights)),
    chiSquare,
  };
}

/** What a fit says before any residual is asked for. */
interface Similarity extends Pick<RigidFit, 'rotation' | 'scale' | 'singularValues' | 'reflected'> {
  readonly fromMean: readonly number[];
  readonly toMean: readonly number[];
}

interface SpatialSimilarity extends Similarity {
  readonly rotation: Mat3;
  readonly fromMean: Vec3;
  readonly toMean: Vec3;
}

/** The rotation, scale and handedness of `rigidFit`, without what is left of each point. The same input and errors. */
export function similarityOf(
  from: readonly Vec3[],
  to: readonly Vec3[],
  weights: readonly number[],
): SpatialSimilarity;
export function similarityOf(
  from: readonly (readonly number[])[],
  to: readonly (readonly number[])[],
  weights: readonly number[],
): Similarity;
export function similarityOf(
  from: readonly (readonly number[])[],
  to: readonly (readonly number[])[],
  weights: readonly number[],
): Similarity {
  const fromSize = requirePoints('Points to move', from);
  requireSameLength('Points to reach', from.length, to.length);
  const toSize = requirePoints('Points to reach', to);
  requireSameLength('Coordinates', from[0].length, to[0].length);
  requireWeights(weights, from.length);

  const dimension = from[0].length;
  const total = sumOf(weights);
  const fromMean = weightedMean(from, weights);
  const toMean = weightedMean(to, weights);

  // Umeyama's Σxy = Σ w (q−q̄)(p−p̄)ᵀ / Σw and σx²
  const correlation = new Float64Array(dimension * dimension);
  let variance = 0;
  for (let i = 0; i < from.length; i++) {
    const share = weights[i] / total;
    for (let column = 0; column < dimension; column++) {
      const p = from[i][column] - fromMean[column];
      variance += share * p * p;
      for (let row = 0; row < dimension; row++)
        correlation[row * dimension + column] += share * (to[i][row] - toMean[row]) * p;
    }
  }

  const rounding = coincident * coincident * fromSize * toSize;
  const { rotation, singularValues, agreement, reflected } =
    (dimension === 3 ? spatialRotation(correlation, rounding, negligible) : null) ??
    bestRotation(Matrix.from1DArray(dimension, dimension, correlation), rounding);
  return {
    rotation,
    scale: variance > (coincident * fromSize) ** 2 ? agreement / variance : Number.NaN,
    singularValues,
    reflected,
    fromMean,
    toMean,
  };
}

/**
 * The rotation R with the greatest tr(Rᵀ H), among several the one that turns least: of any dimension and rank.
 * @param rounding singular values up to this are taken for 0
 */
function bestRotation(
  correlation: Matrix,
  rounding: number,
): { rotation: number[][]; singularValues: number[]; agreement: number; reflected: boolean } {
  const decomposition = new SingularValueDecomposition(correlation);
  const left = decomposition.leftSingularVectors;
  const right = decomposition.rightSingularVectors;
  const singularValues = decomposition.diagonal;
  const dimension = singularValues.length;
  const handedness = Math.sign(determinant(left) * determinant(right));
  const rank = singularValues.filter(
    (value) => value > Math.max(rounding, negligible * singularValues[0]),
  ).length;

  // R = U Q Vᵀ: Q is 1 on the directions that the points span, and free on the rest but for its handedness.
  const inner = Matrix.eye(dimension);
  if (rank === dimension) {
    inner.set(dimension - 1, dimension - 1, handedness);
  } else {
    const free = left.subMatrixColumn(range(rank, dimension)).transpose();
    const towardsIdentity = new SingularValueDecomposition(
      free.mmul(right.subMatrixColumn(range(rank, dimension))),
    );
    const a = towardsIdentity.leftSingularVectors;
    const b = towardsIdentity.rightSingularVectors;
    a.mulColumn(a.columns - 1, handedness * Math.sign(determinant(a) * determinant(b)));
    inner.setSubMatrix(a.mmul(b.transpose()), rank, rank);
  }
  return {
    rotation: left.mmul(inner).mmul(right.transpose()).to2DArray(),
    singularValues,
    agreement: singularValues.reduce((sum, value, i) => sum + (i < rank ? value * inner.get(i, i) : 0), 0),
    reflected: rank === dimension && handedness < 0,
  };
}

const range = (start: number, end: number): number[] =>
  Array.from({ length: end - start }, (_, i) => start + i);

function dotProduct(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** R x + t in three dimensions. */
export function movedVector({ rotation: [r, s, t], translation }: SpatialMotion, [x, y, z]: Vec3): Vec3 {
  return [
    r[0] * x + r[1] * y + r[2] * z + translation[0],
    s[0] * x + s[1] * y + s[2] * z + translation[1],
    t[0] * x + t[1] * y + t[2] * z + translation[2],
  ];
}

/**
 * R x + t in any dimension.
 * @throws RangeError where the point has another number of coordinates than the motion
 */
export function moved(
  fit: { rotation: readonly (readonly number[])[]; translation: readonly number[] },
  point: readonly number[],
): number[] {
  requireSameLength('Coordinates', fit.translation.length, point.length);
  return fit.translation.map((shift, axis) => dotProduct(fit.rotation[axis], point) + shift);
}
