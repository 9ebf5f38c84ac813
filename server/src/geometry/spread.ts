import { eigenPairs, eigenvalues } from './symmetric';
import type { Mat3, Vec3 } from './vector';

/**
 * Singular values of the positions about their mean, descending, in the positions' unit; zeros where there are fewer than three.
 * From the moments: below a 10⁻⁷th of the largest they are rounding.
 */
export function centredSingularValues(positions: readonly Vec3[]): [number, number, number] {
  const [least, middle, largest] = eigenvalues(momentsOf(positions).moments);
  const rootOf = (value: number) => Math.sqrt(Math.max(0, value));
  return [rootOf(largest), rootOf(middle), rootOf(least)];
}

/** The best plane through positions: its centroid, unit normal and the root mean square distance from it, in the positions' unit. */
export function planeOf(positions: readonly Vec3[]): { centroid: Vec3; normal: Vec3; thickness: number } {
  const { centroid, moments } = momentsOf(positions);
  const [flattest] = eigenPairs(moments);
  return {
    centroid,
    normal: flattest.vector,
    thickness: Math.sqrt(Math.max(0, flattest.value) / positions.length),
  };
}

/** The mean x̄ and Σ (x − x̄)(x − x̄)ᵀ. */
function momentsOf(positions: readonly Vec3[]): { centroid: Vec3; moments: Mat3 } {
  const n = positions.length;
  let [mx, my, mz] = [0, 0, 0];
  for (const position of positions) {
    mx += position[0];
    my += position[1];
    mz += position[2];
  }
  const centroid: Vec3 = [mx / n, my / n, mz / n];
  let [xx, xy, xz, yy, yz, zz] = [0, 0, 0, 0, 0, 0];
  for (const position of positions) {
    const x = position[0] - centroid[0];
    const y = position[1] - centroid[1];
    const z = position[2] - centroid[2];
    xx += x * x;
    xy += x * y;
    xz += x * z;
    yy += y * y;
    yz += y * z;
    zz += z * z;
  }
  return {
    centroid,
    moments: [
      [xx, xy, xz],
      [xy, yy, yz],
      [xz, yz, zz],
    ],
  };
}
