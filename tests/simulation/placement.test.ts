import { describe, expect, it } from 'vitest';
import { rotationFromAngles } from '../../server/src/geometry/euler';
import { add, transformed, type Vec3 } from '../../server/src/geometry/vector';
import { seededRandom } from '../published/seeded-random';
import { controlPoints } from './body';
import { fitsWithin } from './placement';
import { anyRotation, normalVec3 } from './random';

const references = controlPoints(6).map((point) => point.reference);

describe('whether some placement brings all points within tolerance', () => {
  it('is so of a sound body wherever it stands', () => {
    const turned = references.map((at) => add(transformed(anyRotation(seededRandom(1)), at), [900, -70, 40]));
    expect(fitsWithin(turned, references, 0.001)).toBe(true);
  });

  it('is decided to a hundredth by hand: two pairs on a line, the ends up and the middle down', () => {
    // heights 0, h, h, 0 along one line: the best line lies half-way, h/2 from each
    const line: Vec3[] = [-1000, -500, 500, 1000].flatMap((x): Vec3[] => [
      [x, 0, 0],
      [x, 400, 0],
    ]);
    const bowed = line.map(([x, y]): Vec3 => [x, y, Math.abs(x) === 500 ? 6 : 0]);
    expect(fitsWithin(bowed, line, 3.01)).toBe(true);
    expect(fitsWithin(bowed, line, 2.99)).toBe(false);
  });

  it('is so of a front that a pitch takes up, not of one that is shorter', () => {
    const pitched = references.map((at) =>
      transformed(rotationFromAngles({ yaw: 0, pitch: 0.005, twist: 0 }), at),
    );
    expect(fitsWithin(pitched, references, 0.1)).toBe(true);
    const raised = references.map(([x, y, z]): Vec3 => (x > 0 ? [x, y, z + 9] : [x, y, z]));
    expect(fitsWithin(raised, references, 3)).toBe(true);
    const shorter = references.map(([x, y, z]): Vec3 => (x > 0 ? [x - 9, y, z] : [x, y, z]));
    expect(fitsWithin(shorter, references, 3)).toBe(false);
  });

  it('never refuses what a placement that is at hand brings within', () => {
    const random = seededRandom(7);
    for (let run = 0; run < 50; run++) {
      const scattered = references.map((at) => {
        const by = normalVec3(random, 1).map((each) => Math.max(-3, Math.min(3, each)));
        return add(at, by as unknown as Vec3);
      });
      const rotation = rotationFromAngles({ yaw: 0.003, pitch: -0.004, twist: 0.002 });
      expect(
        fitsWithin(
          scattered.map((at) => transformed(rotation, at)),
          references,
          3,
        ),
      ).toBe(true);
    }
  });
});
