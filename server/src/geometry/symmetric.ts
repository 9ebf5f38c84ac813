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
  const values = pairs.map((pair) => f(pair.value));
  const entry = (row: number, column: number): number =>
    pairs.reduce((sum, { vector }, i) => sum + values[i] * vector[row] * vector[column], 0);
  const [xx, xy, xz] = [entry(0, 0), entry(0, 1), entry(0, 2)];
  const [yy, yz, zz] = [entry(1, 1), entry(1, 2), entry(2, 2)];
  return [
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ];
}
