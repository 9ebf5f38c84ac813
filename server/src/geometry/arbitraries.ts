import fc from 'fast-check';
import { rotationFromAngles } from './euler';
import { add, type Mat3, transformed, type Vec3 } from './vector';

/** What the property tests of this folder draw from. */

export const number = (from: number, to: number): fc.Arbitrary<number> =>
  fc.double({ min: from, max: to, noNaN: true, noDefaultInfinity: true });

export const vector = (size: number): fc.Arbitrary<Vec3> =>
  fc.tuple(number(-size, size), number(-size, size), number(-size, size));

const rotation = (largest = Math.PI): fc.Arbitrary<Mat3> =>
  fc
    .tuple(
      number(-largest, largest),
      number(-Math.min(largest, 1.5), Math.min(largest, 1.5)),
      number(-largest, largest),
    )
    .map(([yaw, pitch, twist]) => rotationFromAngles({ yaw, pitch, twist }));

export const motion = (largest?: number): fc.Arbitrary<(x: Vec3) => Vec3> =>
  fc.tuple(rotation(largest), vector(3000)).map(
    ([turn, shift]) =>
      (x: Vec3) =>
        add(transformed(turn, x), shift),
  );

/** Points that span space well: the corners of a box-like tetrahedron, moved about, and some more. */
export const cloud = (size = 1000): fc.Arbitrary<Vec3[]> =>
  fc
    .tuple(fc.array(vector(0.2), { minLength: 4, maxLength: 4 }), fc.array(vector(1), { maxLength: 5 }))
    .map(([jitter, more]) => {
      const corners: Vec3[] = [
        [1, 1, 1],
        [1, -1, -1],
        [-1, 1, -1],
        [-1, -1, 1],
      ];
      return [...corners.map((corner, i) => add(corner, jitter[i])), ...more].map(
        ([x, y, z]): Vec3 => [x * size, y * size * 0.7, z * size * 0.5],
      );
    });

export const weights = (count: number): fc.Arbitrary<number[]> =>
  fc.array(number(0.2, 5), { minLength: count, maxLength: count });

/** Points, noise on each, weights, all of one length. */
export const noisyCloud = (
  noise: number,
): fc.Arbitrary<{ points: Vec3[]; noise: Vec3[]; weights: number[] }> =>
  cloud().chain((points) =>
    fc.record({
      points: fc.constant(points),
      noise: fc.array(vector(noise), { minLength: points.length, maxLength: points.length }),
      weights: weights(points.length),
    }),
  );
