/**
 * Linear least squares by Householder reflections (Golub 1965), in the place of what is given: for designs of a few columns that are
 * solved again and again.
 *
 * @param columns count columns of `values.length` values, one after the other, count ≤ `values.length`; overwritten
 * @param values what the columns are to come near to; of it remain the count coefficients, and after them what no coefficients reach:
 *   the sum of the squares of those is the least there is
 * @returns false where a column is nothing but a mix of those before it, to the last digit: then `values` say nothing
 */
export function solveLeastSquares(columns: Float64Array, count: number, values: Float64Array): boolean {
  const rows = values.length;
  for (let k = 0; k < count; k++) {
    const start = k * rows;
    const norm = lengthFrom(columns, start + k, start + rows);
    if (norm === 0) return false;
    // the reflection turns the column on the k-th axis; of the two ways the one without cancellation
    const pivot = columns[start + k] < 0 ? -norm : norm;
    for (let i = k; i < rows; i++) columns[start + i] /= pivot;
    columns[start + k] += 1;
    for (let j = k + 1; j < count; j++) reflect(columns, k, rows, columns, j * rows);
    reflect(columns, k, rows, values, 0);
    // the reflection has done its work: its place holds R's diagonal from here on
    columns[start + k] = -pivot;
  }
  for (let k = count - 1; k >= 0; k--) {
    for (let j = k + 1; j < count; j++) values[k] -= columns[j * rows + k] * values[j];
    values[k] /= columns[k * rows + k];
  }
  return true;
}

/** The sum of the squares of what no coefficients reach, in values that `solveLeastSquares` has been through. */
export function leastSquares(values: Float64Array, count: number): number {
  let squares = 0;
  for (let i = count; i < values.length; i++) squares += values[i] * values[i];
  return squares;
}

/** Turns the values that begin at `target` by the reflection that stands in the k-th column, from its k-th row on. */
function reflect(columns: Float64Array, k: number, rows: number, values: Float64Array, target: number): void {
  const start = k * rows;
  let products = 0;
  for (let i = k; i < rows; i++) products += columns[start + i] * values[target + i];
  const share = -products / columns[start + k];
  for (let i = k; i < rows; i++) values[target + i] += share * columns[start + i];
}

/** The length of a vector, of any size that a number holds: squares of the largest share are neither too large nor too small. */
function lengthFrom(values: Float64Array, from: number, to: number): number {
  let largest = 0;
  for (let i = from; i < to; i++) {
    const size = Math.abs(values[i]);
    if (size > largest) largest = size;
  }
  if (largest === 0) return 0;
  let squares = 0;
  for (let i = from; i < to; i++) {
    const share = values[i] / largest;
    squares += share * share;
  }
  return largest * Math.sqrt(squares);
}
