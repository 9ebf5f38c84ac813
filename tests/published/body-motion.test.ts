import { describe, expect, it } from 'vitest';
import { bodyMotion } from '../../server/src/geometry/body-motion';
import type { Vec3 } from '../../server/src/geometry/vector';
import { expectClose } from './expect-close';
import scipy from './scipy-cases.json';

describe('points on one line, least_squares of scipy over the angles that they fix', () => {
  for (const [i, { start, to, weights, known, angles }] of scipy.bodies.entries()) {
    it(`case ${i + 1}`, () => {
      const motion = bodyMotion(start as unknown as Vec3[], to as unknown as Vec3[], weights);
      const found = [motion.twist, motion.pitch, motion.yaw];
      expectClose(
        known.map((k) => found[k] ?? Number.NaN),
        angles,
        1e-8,
      );
      expect(found.filter((angle) => angle === null)).toHaveLength(3 - known.length);
    });
  }
});

describe('all angles fixed, z-y-x angles of scipy', () => {
  for (const [i, { start, to, weights, angles }] of scipy.alignments.entries()) {
    it(`case ${i + 1}`, () => {
      const { yaw, pitch, twist } = bodyMotion(start as unknown as Vec3[], to as unknown as Vec3[], weights);
      expectClose([yaw, pitch, twist] as number[], angles, 1e-9);
    });
  }
});
