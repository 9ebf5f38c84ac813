import { Matrix, SVD } from 'ml-matrix';
import { eigenPairs } from './symmetric';
import { subtract, type Vec3 } from './vector';

/** Singular values of the positions about their mean, descending, in the positions' unit; three of them, zeros where there are fewer. */
export function centredSingularValues(positions: readonly Vec3[]): [number, number, number] {
  const n = positions.length;
  const mean = [0, 1, 2].map((k) => positions.reduce((total, p) => total + p[k], 0) / n);
  const centred = new Matrix(positions.map((p) => p.map((x, k) => x - mean[k])));
  const values = new SVD(centred, {
    computeLeftSingularVectors: false,
    computeRightSingularVectors: false,
    autoTranspose: true,
  }).diagonal;
  return [values[0] ?? 0, values[1] ?? 0, values[2] ?? 0];
}

/** The best plane through positions: its centroid, unit normal and the root mean square distance from it, in the positions' unit. */
export function planeOf(positions: readonly Vec3[]): { centroid: Vec3; normal: Vec3; thickness: number } {
  const n = positions.length;
  const mean = (k: 0 | 1 | 2) => positions.reduce((total, p) => total + p[k], 0) / n;
  const centroid: Vec3 = [mean(0), mean(1), mean(2)];
  const offsets = positions.map((p) => subtract(p, centroid));
  const moment = (i: 0 | 1 | 2, j: 0 | 1 | 2) => offsets.reduce((total, p) => total + p[i] * p[j], 0) / n;
  const flattest = eigenPairs([
    [moment(0, 0), moment(0, 1), moment(0, 2)],
    [moment(1, 0), moment(1, 1), moment(1, 2)],
    [moment(2, 0), moment(2, 1), moment(2, 2)],
  ]).reduce((a, b) => (b.value < a.value ? b : a));
  return { centroid, normal: flattest.vector, thickness: Math.sqrt(Math.max(0, flattest.value)) };
}
