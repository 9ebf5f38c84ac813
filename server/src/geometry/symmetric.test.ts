import fc from 'fast-check';
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { eigenPairs, eigenvalues, matrixFunction } from './symmetric';
import { diagonal, dot, length, type Mat3, scaled, subtract, transformed } from './vector';

// a library's routine fails on numbers next to nothing, which are not what is tested here
const share = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((millionths) => millionths / 1e6);

/** Entries of any size from the least to the greatest that a body measured in any unit could give. */
const symmetric = fc
  .tuple(fc.array(share, { minLength: 6, maxLength: 6 }), fc.integer({ min: -120, max: 120 }))
  .map(([[a, b, c, d, e, f], power]): Mat3 => {
    const k = 10 ** power;
    return [
      [a * k, b * k, c * k],
      [b * k, d * k, e * k],
      [c * k, e * k, f * k],
    ];
  });

const sizeOf = (matrix: Mat3): number => Math.max(Number.MIN_VALUE, ...matrix.flat().map(Math.abs));

describe('eigenPairs', () => {
  it('agrees with the general decomposition of a library', () => {
    fc.assert(
      fc.property(symmetric, (matrix) => {
        const size = sizeOf(matrix);
        const unit = matrix.map((row) => row.map((value) => value / size));
        const expected = new EigenvalueDecomposition(new Matrix(unit), { assumeSymmetric: true });
        const values = [...expected.realEigenvalues].sort((a, b) => a - b);
        eigenvalues(matrix).forEach((value, i) => {
          expect(Math.abs(value / size - values[i])).toBeLessThan(1e-14 * 4);
        });
      }),
    );
  });

  it('gives what the matrix only stretches, at right angles, smallest first', () => {
    fc.assert(
      fc.property(symmetric, (matrix) => {
        const size = sizeOf(matrix);
        const pairs = eigenPairs(matrix);
        pairs.forEach(({ value, vector }, i) => {
          expect(length(vector)).toBeCloseTo(1, 13);
          const left = subtract(transformed(matrix, vector), scaled(vector, value));
          expect(length(left) / size).toBeLessThan(1e-14 * 4);
          const next = pairs[i + 1];
          if (!next) return;
          expect(value).toBeLessThanOrEqual(next.value);
          expect(Math.abs(dot(vector, next.vector))).toBeLessThan(1e-14);
        });
      }),
    );
  });

  it('leaves a diagonal as it is, equal and zero values too', () => {
    expect(eigenPairs(diagonal(3, 1, 2)).map(({ value, vector }) => [value, ...vector])).toEqual([
      [1, 0, 1, 0],
      [2, 0, 0, 1],
      [3, 1, 0, 0],
    ]);
    expect(eigenvalues(diagonal(0))).toEqual([0, 0, 0]);
    expect(eigenvalues(diagonal(2, 2, 1))).toEqual([1, 2, 2]);
  });

  it('gives small values of a positive matrix to their own last digits', () => {
    // D M D with M well conditioned: Demmel & Veselić 1992
    const d = [1, 1e-6, 1e-12];
    const m = [
      [2, 1, 0.5],
      [1, 2, 1],
      [0.5, 1, 2],
    ];
    const graded = m.map((row, i) => row.map((value, j) => value * d[i] * d[j])) as unknown as Mat3;
    const values = eigenvalues(graded);
    // successive Schur complements of M, as the scales are far apart
    expect(values[2]).toBeCloseTo(2, 10);
    expect(values[1] / 1e-12).toBeCloseTo(1.5, 10);
    expect(values[0] / 1e-24).toBeCloseTo(1.5, 10);
  });

  it('makes functions of a matrix: its inverse', () => {
    const matrix: Mat3 = [
      [4, 1, 0.5],
      [1, 3, -1],
      [0.5, -1, 5],
    ];
    const inverse = matrixFunction(eigenPairs(matrix), (value) => 1 / value);
    const product = new Matrix(matrix as unknown as number[][]).mmul(
      new Matrix(inverse as unknown as number[][]),
    );
    expect(Matrix.sub(product, Matrix.eye(3)).norm('max')).toBeLessThan(1e-14);
  });
});
