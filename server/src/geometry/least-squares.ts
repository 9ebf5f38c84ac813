import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { requireFinite, requireSameLength } from './inputs';
import { factored, whitened } from './positive-definite';

export interface LinearSolution {
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

/** Takes values with this covariance (or these variances) to values with covariance I. */
export function whitener(
  covariance: readonly (readonly number[])[] | readonly number[],
  count: number,
): (columns: Matrix) => Matrix {
  requireSameLength('Covariance', count, covariance.length);
  if (typeof covariance[0] === 'number') {
    const variances = covariance as readonly number[];
    requireFinite('Variances', variances);
    if (variances.some((variance) => variance <= 0)) throw new RangeError('Variances: all must be above 0.');
    return (columns) => columns.clone().divColumnVector(variances.map(Math.sqrt));
  }
  const rows = covariance as readonly (readonly number[])[];
  for (const row of rows) {
    requireSameLength('Covariance', count, row.length);
    requireFinite('Covariance', row);
  }
  const factors = factored(new Matrix(rows as number[][]));
  if (!factors) throw new RangeError('Covariance: not positive definite.');
  return (columns) => whitened(factors, columns);
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
  const whiten = whitener(covariance, observed.length);
  const rows = new Matrix(design as number[][]);
  const columns = whiten(rows);
  const values = whiten(Matrix.columnVector(observed as number[]));

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
    chiSquare: whiten(residuals).norm('frobenius') ** 2,
    residuals: residuals.to1DArray(),
  };
}
