import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** Under this pivot of a matrix scaled to a unit diagonal, its inverse would be rounding. */
const leastPivot = 1e-13;

/**
 * A symmetric positive definite matrix, scaled to a unit diagonal and factored: V = S L Lᵀ S. Scaling first makes the
 * answer independent of the units of its rows.
 */
export interface Factored {
  /** S's diagonal */
  scales: number[];
  /** L, lower triangular */
  lower: Matrix;
}

/** The factors of a symmetric matrix, or null where it is not positive definite (as far as rounding can tell). */
export function factored(matrix: Matrix): Factored | null {
  const scales = matrix.diagonal().map(Math.sqrt);
  if (!scales.every((scale) => scale > 0 && Number.isFinite(scale))) return null;
  const size = matrix.rows;
  const unit = Matrix.zeros(size, size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      const value = (matrix.get(row, column) + matrix.get(column, row)) / 2 / scales[row] / scales[column];
      unit.set(row, column, value);
      unit.set(column, row, value);
    }
  }
  const decomposition = new CholeskyDecomposition(unit);
  const lower = decomposition.lowerTriangularMatrix;
  const sound =
    decomposition.isPositiveDefinite() && lower.diagonal().every((pivot) => pivot * pivot > leastPivot);
  return sound ? { scales, lower } : null;
}

/** (S L)⁻¹ X: turns values with covariance S L Lᵀ S into values with covariance I. */
export function whitened({ scales, lower }: Factored, columns: Matrix): Matrix {
  const size = columns.rows;
  // plain rows: this loop is where most of the time of a fit goes
  const rows = lower.to2DArray();
  const result = Matrix.zeros(size, columns.columns);
  const done = new Float64Array(size);
  for (let column = 0; column < columns.columns; column++) {
    for (let row = 0; row < size; row++) {
      const factors = rows[row];
      let value = columns.get(row, column) / scales[row];
      for (let k = 0; k < row; k++) value -= factors[k] * done[k];
      done[row] = value / factors[row];
      result.set(row, column, done[row]);
    }
  }
  return result;
}

/** The inverse of the factored matrix. */
export function inverseOf(factors: Factored): Matrix {
  const root = whitened(factors, Matrix.eye(factors.scales.length));
  return root.transpose().mmul(root);
}
