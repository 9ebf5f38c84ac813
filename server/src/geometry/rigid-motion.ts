import { determinant, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { requirePoints, requireSameLength, requireWeights } from './inputs';
import { add, type Mat3, transformed, type Vec3 } from './vector';

/** A rigid motion x → R x + t in any dimension, and how well it carries one set of points onto another. */
export interface RigidFit {
  /** R, rows; a proper rotation (determinant +1) */
  rotation: number[][];
  /** t, in the unit of the points */
  translation: number[];
  /** c of the best similarity c R x + t; NaN where all weighted `from` points coincide */
  scale: number;
  /** of Σw(p−p̄)(q−q̄)ᵀ / Σw, largest first, in the unit squared */
  singularValues: number[];
  /** a mirror image would fit better; false where the points lie in a plane (or line) and cannot tell */
  reflected: boolean;
  /** R p + t − q, one for each point */
  residuals: number[][];
  /** √(Σw|e|² / Σw) */
  rms: number;
  /** Σw|e|² */
  chiSquare: number;
}

/** Σ w x / Σ w */
export function weightedMean(points: readonly (readonly number[])[], weights: readonly number[]): number[] {
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
export function rigidFit(
  from: readonly (readonly number[])[],
  to: readonly (readonly number[])[],
  weights: readonly number[],
): RigidFit {
  requirePoints('Points to move', from);
  requireSameLength('Points to reach', from.length, to.length);
  requirePoints('Points to reach', to);
  requireSameLength('Coordinates', from[0].length, to[0].length);
  requireWeights(weights, from.length);

  const dimension = from[0].length;
  const total = sumOf(weights);
  const fromMean = weightedMean(from, weights);
  const toMean = weightedMean(to, weights);

  // Umeyama's Σxy = Σ w (q−q̄)(p−p̄)ᵀ / Σw and σx²
  const correlation = toMean.map(() => fromMean.map(() => 0));
  let variance = 0;
  for (let i = 0; i < from.length; i++) {
    const share = weights[i] / total;
    for (let column = 0; column < dimension; column++) {
      const p = from[i][column] - fromMean[column];
      variance += share * p * p;
      for (let row = 0; row < dimension; row++)
        correlation[row][column] += share * (to[i][row] - toMean[row]) * p;
    }
  }

  const fromSize = largestCoordinate(from);
  const { rotation, singularValues, agreement, reflected } = bestRotation(
    new Matrix(correlation),
    coincident * coincident * fromSize * largestCoordinate(to),
  );

  const translation = toMean.map((value, axis) => value - dotProduct(rotation[axis], fromMean));
  // From the centred points: rounding of a far-off translation stays out of the residuals.
  const residuals: number[][] = [];
  let chiSquare = 0;
  const centred = fromMean.map(() => 0);
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
    translation,
    scale: variance > (coincident * fromSize) ** 2 ? agreement / variance : Number.NaN,
    singularValues,
    reflected,
    residuals,
    rms: Math.sqrt(chiSquare / total),
    chiSquare,
  };
}

/** The largest absolute value among all coordinates. */
function largestCoordinate(points: readonly (readonly number[])[]): number {
  let largest = 0;
  for (let i = 0; i < points.length; i++)
    for (let axis = 0; axis < points[i].length; axis++)
      largest = Math.max(largest, Math.abs(points[i][axis]));
  return largest;
}

/**
 * The rotation R with the greatest tr(Rᵀ H), among several the one that turns least.
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
  const handedness = Math.sign(determinantOf(left) * determinantOf(right));
  const rank = singularValues.filter(
    (value) => value > Math.max(rounding, negligible * singularValues[0]),
  ).length;

  // R = U Q Vᵀ: Q is 1 on the directions that the points span, and free on the rest but for its handedness.
  const inner = Matrix.eye(dimension);
  if (rank === dimension) {
    inner.set(dimension - 1, dimension - 1, handedness);
    if (dimension === 3) return spanning(left, right, singularValues, handedness);
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

/** In three dimensions written out: thousands of bases are tried. */
function determinantOf(matrix: Matrix): number {
  if (matrix.rows !== 3) return determinant(matrix);
  const minor = (a: number, b: number) =>
    matrix.get(1, a) * matrix.get(2, b) - matrix.get(1, b) * matrix.get(2, a);
  return matrix.get(0, 0) * minor(1, 2) - matrix.get(0, 1) * minor(0, 2) + matrix.get(0, 2) * minor(0, 1);
}

/** U Q Vᵀ of points that span space: Q turns nothing but the last direction, and that only where it has to be mirrored. */
function spanning(left: Matrix, right: Matrix, singularValues: number[], handedness: number) {
  const [first, second, third] = singularValues;
  const entry = (row: number, column: number): number =>
    left.get(row, 0) * right.get(column, 0) +
    left.get(row, 1) * right.get(column, 1) +
    left.get(row, 2) * handedness * right.get(column, 2);
  return {
    rotation: [0, 1, 2].map((row) => [entry(row, 0), entry(row, 1), entry(row, 2)]),
    singularValues,
    agreement: first + second + third * handedness,
    reflected: handedness < 0,
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
export function movedVector(fit: { rotation: Mat3; translation: Vec3 }, point: Vec3): Vec3 {
  return add(transformed(fit.rotation, point), fit.translation);
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
