import type { Mat3, Vec3 } from '../../server/src/geometry/vector';
import { scaled } from '../../server/src/geometry/vector';
import { type SeededRandom, seededRandom } from '../published/seeded-random';

/** A generator for one job, independent of how many others run and in which order. */
export function jobRandom(seed: number, index: number): SeededRandom {
  let hash = (seed ^ Math.imul(index + 1, 0x9e3779b1)) >>> 0;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return seededRandom(hash ^ (hash >>> 16));
}

export const normalVec3 = (random: SeededRandom, standardDeviation: number): Vec3 => [
  random.normal(standardDeviation),
  random.normal(standardDeviation),
  random.normal(standardDeviation),
];

export function unitVec3(random: SeededRandom): Vec3 {
  const v = normalVec3(random, 1);
  return scaled(v, 1 / Math.hypot(...v));
}

/** A whole number from 0 to count − 1. */
export const below = (random: SeededRandom, count: number): number => Math.floor(random.uniform(0, count));

export const pick = <T>(random: SeededRandom, items: readonly T[]): T => items[below(random, items.length)];

/** Any rotation, all alike probable: a unit quaternion of four normals (Marsaglia 1972). */
export function anyRotation(random: SeededRandom): Mat3 {
  const q = [random.normal(), random.normal(), random.normal(), random.normal()];
  const norm = Math.hypot(...q);
  const [w, x, y, z] = q.map((each) => each / norm);
  return [
    [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
    [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
    [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
  ];
}
