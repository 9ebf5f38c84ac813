import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { Mat3, Vec3 } from './vector';

/** One eigenvalue of a symmetric 3×3 matrix with its unit eigenvector. */
export interface EigenPair {
  value: number;
  vector: Vec3;
}

/** The three eigenpairs of a symmetric matrix, smallest value first, vectors at right angles to each other. */
export function eigenPairs(matrix: Mat3): EigenPair[] {
  const decomposition = new EigenvalueDecomposition(new Matrix(matrix as unknown as number[][]), {
    assumeSymmetric: true,
  });
  const vectors = decomposition.eigenvectorMatrix;
  return decomposition.realEigenvalues.map((value, column) => ({
    value,
    vector: [vectors.get(0, column), vectors.get(1, column), vectors.get(2, column)],
  }));
}

/** Σ f(λ) v vᵀ: a function of a symmetric matrix, from its eigenpairs. */
export function matrixFunction(pairs: readonly EigenPair[], f: (value: number) => number): Mat3 {
  const [first, second, third] = pairs;
  const [a, b, c] = [f(first.value), f(second.value), f(third.value)];
  const [u, v, w] = [first.vector, second.vector, third.vector];
  const entry = (row: 0 | 1 | 2, column: 0 | 1 | 2): number =>
    a * u[row] * u[column] + b * v[row] * v[column] + c * w[row] * w[column];
  const [xx, xy, xz] = [entry(0, 0), entry(0, 1), entry(0, 2)];
  const [yy, yz, zz] = [entry(1, 1), entry(1, 2), entry(2, 2)];
  return [
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ];
}
