import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noisyCloud, number, vector } from './arbitraries';
import { bodyMotion } from './body-motion';
import { rotationFromAngles } from './euler';
import { motionCovariance } from './motion-covariance';
import { add, subtract, transformed, type Vec3 } from './vector';

const degrees = Math.PI / 180;
const close = (values: readonly number[], digits = 9) => values.map((value) => expect.closeTo(value, digits));

/** Turned about the weighted mean, then shifted. */
const movedBody = (
  from: readonly Vec3[],
  weights: readonly number[],
  angles: { yaw: number; pitch: number; twist: number },
  shift: Vec3,
): Vec3[] => {
  const { centroid } = motionCovariance(from, weights);
  const turn = rotationFromAngles(angles);
  return from.map((p) => add(add(transformed(turn, subtract(p, centroid)), centroid), shift));
};

describe('bodyMotion', () => {
  it('finds shift and angles of any body, about its weighted mean', () => {
    fc.assert(
      fc.property(
        noisyCloud(0),
        number(-1, 1),
        number(-1, 1),
        number(-1, 1),
        vector(100),
        ({ points, weights }, yaw, pitch, twist, shift) => {
          const motion = bodyMotion(
            points,
            movedBody(points, weights, { yaw, pitch, twist }, shift),
            weights,
          );
          expect(motion.shift).toEqual(close(shift, 8));
          expect([motion.yaw, motion.pitch, motion.twist]).toEqual(close([yaw, pitch, twist]));
          expect(motion.residualRms).toBeLessThan(1e-8);
          expect(motion.weightSum).toBeCloseTo(
            weights.reduce((a, b) => a + b),
            9,
          );
          const { rotation, centroid } = motionCovariance(points, weights);
          expect(motion.rotationCovariance).toEqual(rotation);
          expect(motion.centroid).toEqual(centroid);
        },
      ),
    );
  });

  it('has the signs of the axes: tip to the left is yaw, tip up is −pitch, top to the right is twist', () => {
    const bar: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [500, 100, 0],
      [500, 0, 100],
    ];
    const read = (f: (p: Vec3) => Vec3) => bodyMotion(bar, bar.map(f), [1, 1, 1, 1]);
    expect(read(([x, y, z]) => [x, y + x * 0.01, z]).yaw).toBeGreaterThan(0.009);
    expect(read(([x, y, z]) => [x, y, z + x * 0.01]).pitch).toBeLessThan(-0.009);
    expect(read(([x, y, z]) => [x, y - z * 0.01, z + y * 0.01]).twist).toBeCloseTo(0.01, 3);
    expect(read(([x, y, z]) => [x - 9, y, z]).shift).toEqual(close([-9, 0, 0]));
  });

  it('weighs: the shift is that of the weighted mean', () => {
    const motion = bodyMotion(
      [
        [0, 0, 0],
        [100, 0, 0],
      ],
      [
        [0, 0, 4],
        [100, 0, 0],
      ],
      [3, 1],
    );
    expect(motion.centroid).toEqual(close([25, 0, 0]));
    expect(motion.shift).toEqual(close([0, 0, 3]));
    expect(motion.weightSum).toBe(4);
  });

  it('one point: a shift and nothing else', () => {
    const motion = bodyMotion([[3, 2, 1]], [[4, 4, 4]], [0.5]);
    expect(motion.shift).toEqual([1, 2, 3]);
    expect([motion.yaw, motion.pitch, motion.twist, motion.residualRms]).toEqual([null, null, null, null]);
    expect(motion.rotationCovariance).toEqual([
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ]);
  });

  it('coincident points: no angle, but a residual where they came apart', () => {
    const place: Vec3 = [1000.1, 200.2, 300.3];
    const motion = bodyMotion([place, place], [add(place, [0, 0, 1]), add(place, [0, 0, -1])], [1, 1]);
    expect([motion.yaw, motion.pitch, motion.twist]).toEqual([null, null, null]);
    expect(motion.residualRms).toBeCloseTo(1, 9);
  });

  describe('two points on a line', () => {
    const weights = [2, 1];
    const about = (first: Vec3, second: Vec3, angles: { yaw?: number; pitch?: number; twist?: number }) =>
      bodyMotion(
        [first, second],
        movedBody([first, second], weights, { yaw: 0, pitch: 0, twist: 0, ...angles }, [1, 2, 3]),
        weights,
      );

    it('along x: twist is not known, yaw and pitch are', () => {
      const motion = about([0, 100, 0], [800, 100, 0], { yaw: 2 * degrees, pitch: -3 * degrees });
      expect(motion.twist).toBeNull();
      expect([motion.yaw, motion.pitch]).toEqual(close([2 * degrees, -3 * degrees]));
      expect(motion.shift).toEqual(close([1, 2, 3]));
      expect(motion.residualRms).toBeCloseTo(0, 9);
      // J = 2·1/3·800² about y and z
      const variance = 3 / (2 * 800 ** 2);
      expect(motion.rotationCovariance.flat()).toEqual(
        [0, 0, 0, 0, variance, 0, 0, 0, variance].map((v) => expect.closeTo(v, 15)),
      );
    });
    it('turned far, with an angle held at 0', () => {
      const motion = about([0, 100, 0], [800, 100, 0], { yaw: 70 * degrees, pitch: -50 * degrees });
      expect([motion.yaw, motion.pitch]).toEqual(close([70 * degrees, -50 * degrees]));
    });
    it('along y: pitch is not known', () => {
      const motion = about([0, -400, 0], [0, 400, 0], { yaw: 2 * degrees, twist: 1 * degrees });
      expect(motion.pitch).toBeNull();
      expect([motion.yaw, motion.twist]).toEqual(close([2 * degrees, 1 * degrees]));
    });
    it('along z: yaw is not known', () => {
      const motion = about([0, 0, 0], [0, 0, 90], { pitch: 2 * degrees, twist: -5 * degrees });
      expect(motion.yaw).toBeNull();
      expect([motion.pitch, motion.twist]).toEqual(close([2 * degrees, -5 * degrees]));
    });
    it('slanting between x and z: pitch alone', () => {
      const motion = about([0, 0, 0], [500, 0, 500], { pitch: 4 * degrees });
      expect([motion.yaw, motion.twist]).toEqual([null, null]);
      expect(motion.pitch).toBeCloseTo(4 * degrees, 9);
      expect(motion.rotationCovariance[1][1]).toBeCloseTo(3 / (2 * 500_000), 15);
      expect(motion.rotationCovariance[0]).toEqual([0, 0, 0]);
    });
    it('slanting in all three: no angle', () => {
      const motion = about([0, 0, 0], [500, 500, 500], { pitch: 4 * degrees });
      expect([motion.yaw, motion.pitch, motion.twist]).toEqual([null, null, null]);
      // It moved as a whole all the same.
      expect(motion.residualRms).toBeCloseTo(0, 9);
    });
    it('a little off x (under a tenth): only twist is not known', () => {
      const motion = about([0, 0, 0], [1000, 80, -60], {});
      expect(motion.twist).toBeNull();
      expect(motion.yaw).toBeCloseTo(0, 9);
      expect(motion.pitch).toBeCloseTo(0, 9);
      const beyond = about([0, 0, 0], [1000, 120, -60], {});
      expect([beyond.twist, beyond.pitch]).toEqual([null, null]);
      expect(beyond.yaw).toBeCloseTo(0, 9);
    });
    it('stretched: a residual', () => {
      expect(
        bodyMotion(
          [
            [0, 0, 0],
            [100, 0, 0],
          ],
          [
            [0, 0, 0],
            [104, 0, 0],
          ],
          [1, 1],
        ).residualRms,
      ).toBeCloseTo(2, 9);
    });
  });

  it('works at any size', () => {
    for (const size of [1e-6, 1e-2, 1, 1e6]) {
      const points = (
        [
          [0, 0, 0],
          [800, 100, 0],
        ] as Vec3[]
      ).map((p) => p.map((v) => v * size) as unknown as Vec3);
      const motion = bodyMotion(
        points,
        movedBody(points, [1, 1], { yaw: 0.1, pitch: 0, twist: 0 }, [0, 0, 0]),
        [1, 1],
      );
      expect(motion.yaw ?? motion.pitch).toBeDefined();
      expect([motion.twist, motion.pitch]).toEqual([null, null]);
      expect(motion.yaw).toBeCloseTo(0.1, 9);
    }
  });

  it('refuses lists that do not fit', () => {
    expect(() => bodyMotion([[0, 0, 0]], [], [1])).toThrow(RangeError);
    expect(() => bodyMotion([[0, 0, 0]], [[0, 0, 0]], [1, 1])).toThrow(RangeError);
    expect(() => bodyMotion([[0, 0, Number.NaN]], [[0, 0, 0]], [1])).toThrow(RangeError);
    expect(() => bodyMotion([], [], [])).toThrow(RangeError);
  });
});
