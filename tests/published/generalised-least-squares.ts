import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { requireFinite, requireSameLength } from '../../server/src/geometry/inputs';
import { byCovariance, type Whitener } from '../../server/src/geometry/whitening';

interface LinearSolution {
  coefficients: number[];
  /** (Xᵀ V⁻¹ X)⁻¹: from the given covariance alone, not scaled by χ² */
  covariance: number[][];
  /** residualsᵀ V⁻¹ residuals */
  chiSquare: number;
  /** observed − X · coefficients */
  residuals: number[];
}

/** Smallest singular value of the design (columns of length 1), as a share of the largest, that still decides anything. */
const negligible = 1e-13;

/**
 * @param covariance count × count, or count variances of values that are independent
 * @throws RangeError for mismatched sizes, non-finite values, or a covariance that is not positive definite
 */
export function whitener(
  covariance: readonly (readonly number[])[] | readonly number[],
  count: number,
): Whitener {
  requireSameLength('Covariance', count, covariance.length);
  return typeof covariance[0] === 'number'
    ? byVariances(covariance as readonly number[])
    : byCovariance(inOneRow(covariance as readonly (readonly number[])[]), count);
}

/**
 * The rows of a square matrix one after the other.
 * @throws RangeError for a row of another length, or a value that is not finite
 */
export function inOneRow(rows: readonly (readonly number[])[]): Float64Array {
  const matrix = new Float64Array(rows.length * rows.length);
  for (let i = 0; i < rows.length; i++) {
    requireSameLength('Covariance', rows.length, rows[i].length);
    requireFinite('Covariance', rows[i]);
    matrix.set(rows[i], i * rows.length);
  }
  return matrix;
}

function byVariances(variances: readonly number[]): Whitener {
  requireFinite('Variances', variances);
  if (variances.some((variance) => variance <= 0)) throw new RangeError('Variances: all must be above 0.');
  const roots = variances.map(Math.sqrt);
  return (columns) => {
    for (let i = 0; i < columns.length; i++) columns[i] /= roots[i % roots.length];
  };
}

/**
 * Generalised least squares (Aitken 1935): the coefficients with the least residualsᵀ V⁻¹ residuals.
 *
 * @param design n rows of p, p ≤ n
 * @param observed n
 * @param covariance V, n×n, or its diagonal where the observations are independent
 * @throws RangeError for mismatched sizes, non-finite values, a V that is not positive definite, or a design
 *   whose columns do not determine the coefficients
 */
export function generalisedLeastSquares(
  design: readonly (readonly number[])[],
  observed: readonly number[],
  covariance: readonly (readonly number[])[] | readonly number[],
): LinearSolution {
  requireSameLength('Observations', design.length, observed.length);
  requireFinite('Observations', observed);
  if (design.length === 0 || design[0].length === 0) throw new RangeError('Design: empty.');
  for (const row of design) {
    requireSameLength('Design, coefficients', design[0].length, row.length);
    requireFinite('Design', row);
  }
  if (design.length < design[0].length) throw new RangeError('Design: fewer observations than coefficients.');
  const whitened = whitener(covariance, observed.length);
  const rows = new Matrix(design as number[][]);
  const columns = inColumns(rows, whitened);
  const values = inColumns(Matrix.columnVector(observed as number[]), whitened);

  // Columns of length 1, so that what counts as undetermined does not depend on their units.
  const scales = Array.from({ length: columns.columns }, (_, i) => Math.hypot(...columns.getColumn(i)) || 1);
  const decomposition = new SingularValueDecomposition(columns.divRowVector(scales));
  const singular = decomposition.diagonal;
  if (!(singular[singular.length - 1] > negligible * singular[0])) {
    throw new RangeError('Design: its columns do not determine the coefficients.');
  }
  // (XᵀX)⁻¹ = B Bᵀ with B = S⁻¹ V / σ
  const root = decomposition.rightSingularVectors.divRowVector(singular).divColumnVector(scales);
  const solution = root.mmul(decomposition.leftSingularVectors.transpose().mmul(values));
  const residuals = Matrix.columnVector(observed as number[]).sub(rows.mmul(solution));
  return {
    coefficients: solution.to1DArray(),
    covariance: root.mmul(root.transpose()).to2DArray(),
    chiSquare: inColumns(residuals, whitened).norm('frobenius') ** 2,
    residuals: residuals.to1DArray(),
  };
}

/** The whitened matrix. */
function inColumns(matrix: Matrix, whitened: Whitener): Matrix {
  const columns = Float64Array.from(matrix.transpose().to1DArray());
  whitened(columns);
  return Matrix.from1DArray(matrix.columns, matrix.rows, columns).transpose();
}
