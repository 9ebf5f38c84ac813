import { length, scaled, type Vec3 } from '../../geometry/vector';

/** The same way with length one; null for no way at all. */
export function unitVector(way: Vec3): Vec3 | null {
  const size = length(way);
  return size > 0 && Number.isFinite(size) ? scaled(way, 1 / size) : null;
}

/** As a file writes it: two decimals, no negative zeros. */
export const roundedDirection = (way: Vec3): Vec3 => {
  const [x, y, z] = way.map((value) => Math.round(value * 100) / 100 + 0);
  return [x, y, z];
};
