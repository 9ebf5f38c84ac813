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

/**
 * |(S L)⁻¹ y|² for many matrices of one size: what `factored` and `whitened` answer, digit for digit, without a matrix object on the way,
 * for a search that asks it hundreds of times.
 *
 * @returns a function of a matrix (rows one after the other, symmetric but for rounding) and values y; null where the matrix is not
 *   positive definite
 */
export function whitenedSquares(size: number): (matrix: Float64Array, values: Float64Array) => number | null {
  const scales = new Float64Array(size);
  const lower = new Float64Array(size * size);
  const done = new Float64Array(size);
  const isFactored = (matrix: Float64Array): boolean => {
    for (let row = 0; row < size; row++) {
      scales[row] = Math.sqrt(matrix[row * size + row]);
      if (!(scales[row] > 0 && Number.isFinite(scales[row]))) return false;
    }
    for (let row = 0; row < size; row++) {
      let squares = 0;
      for (let column = 0; column <= row; column++) {
        const unit =
          (matrix[row * size + column] + matrix[column * size + row]) / 2 / scales[row] / scales[column];
        if (column === row) {
          const pivot = Math.sqrt(Math.max(unit - squares, 0));
          if (!(pivot * pivot > leastPivot)) return false;
          lower[row * size + row] = pivot;
          break;
        }
        let products = 0;
        for (let k = 0; k < column; k++) products += lower[column * size + k] * lower[row * size + k];
        const factor = (unit - products) / lower[column * size + column];
        lower[row * size + column] = factor;
        squares += factor * factor;
      }
    }
    return true;
  };
  return (matrix, values) => {
    if (!isFactored(matrix)) return null;
    let squares = 0;
    for (let row = 0; row < size; row++) {
      let value = values[row] / scales[row];
      for (let k = 0; k < row; k++) value -= lower[row * size + k] * done[k];
      done[row] = value / lower[row * size + row];
      squares += done[row] * done[row];
    }
    return squares;
  };
}
