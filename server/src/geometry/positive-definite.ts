/** Under this pivot of a matrix scaled to a unit diagonal, its inverse would be rounding. */
const leastPivot = 1e-13;

/**
 * A symmetric positive definite matrix, scaled to a unit diagonal and factored: V = S L Lᵀ S. Scaling first makes the
 * answer independent of the units of its rows.
 */
export interface Factored {
  readonly size: number;
  /** S's diagonal */
  readonly scales: Float64Array;
  /** L, lower triangular, row after row; what stands above the diagonal is not looked at */
  readonly lower: Float64Array;
}

/** Room for the factors of matrices of one size. */
export const unfactored = (size: number): Factored => ({
  size,
  scales: new Float64Array(size),
  lower: new Float64Array(size * size),
});

/**
 * The factors of a symmetric matrix (Cholesky), or null where it is not positive definite, as far as rounding can tell.
 * @param matrix size × size, row after row, symmetric but for rounding
 */
export function factored(matrix: Float64Array, size: number): Factored | null {
  const factors = unfactored(size);
  return isFactored(matrix, factors) ? factors : null;
}

/** Writes the factors; false where the matrix is not positive definite. */
export function isFactored(matrix: Float64Array, { size, scales, lower }: Factored): boolean {
  for (let row = 0; row < size; row++) {
    scales[row] = Math.sqrt(matrix[row * size + row]);
    if (!(scales[row] > 0 && scales[row] < Number.POSITIVE_INFINITY)) return false;
  }
  for (let row = 0; row < size; row++) {
    const start = row * size;
    let squares = 0;
    for (let column = 0; column < row; column++) {
      const above = column * size;
      const unit = (matrix[start + column] + matrix[above + row]) / 2 / scales[row] / scales[column];
      let products = 0;
      for (let k = 0; k < column; k++) products += lower[above + k] * lower[start + k];
      const factor = (unit - products) / lower[above + column];
      lower[start + column] = factor;
      squares += factor * factor;
    }
    const unit = matrix[start + row] / scales[row] / scales[row];
    const pivot = Math.sqrt(Math.max(unit - squares, 0));
    if (!(pivot * pivot > leastPivot)) return false;
    lower[start + row] = pivot;
  }
  return true;
}

/**
 * (S L)⁻¹ X in the place of X: turns values with covariance S L Lᵀ S into values with covariance I.
 * @param columns any number of columns of the matrix's size, one after the other
 */
export function whiten({ size, scales, lower }: Factored, columns: Float64Array): void {
  for (let start = 0; start < columns.length; start += size) {
    // zeros at the head of a column stay zeros
    let first = 0;
    while (first < size && columns[start + first] === 0) first++;
    for (let row = first; row < size; row++) {
      let value = columns[start + row] / scales[row];
      for (let k = first; k < row; k++) value -= lower[row * size + k] * columns[start + k];
      columns[start + row] = value / lower[row * size + row];
    }
  }
}

/** V⁻¹ y in the place of y. */
export function solve(factors: Factored, values: Float64Array): void {
  const { size, scales, lower } = factors;
  whiten(factors, values);
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) values[row] -= lower[k * size + row] * values[k];
    values[row] /= lower[row * size + row];
  }
  for (let row = 0; row < size; row++) values[row] /= scales[row];
}

/** The inverse of the factored matrix, row after row. */
export function inverseOf(factors: Factored): Float64Array {
  const { size } = factors;
  const root = new Float64Array(size * size);
  for (let k = 0; k < size; k++) root[k * size + k] = 1;
  whiten(factors, root);
  const inverse = new Float64Array(size * size);
  for (let row = 0; row < size; row++)
    for (let column = 0; column <= row; column++) {
      let products = 0;
      // above its own row a column of a lower triangular matrix is 0
      for (let k = row; k < size; k++) products += root[row * size + k] * root[column * size + k];
      inverse[row * size + column] = products;
      inverse[column * size + row] = products;
    }
  return inverse;
}

/**
 * |(S L)⁻¹ y|² for many matrices of one size, with nothing allocated at a question: for a search that asks it hundreds of times.
 *
 * @returns a function of a matrix (row after row, symmetric but for rounding) and values y; null where the matrix is not
 *   positive definite
 */
export function whitenedSquares(size: number): (matrix: Float64Array, values: Float64Array) => number | null {
  const factors = unfactored(size);
  const { scales, lower } = factors;
  const done = new Float64Array(size);
  return (matrix, values) => {
    if (!isFactored(matrix, factors)) return null;
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
