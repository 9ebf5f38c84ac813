import { describe, expect, it } from 'vitest';
import { rotationFromAngles } from './euler';
import { motionDistance } from './motion-agreement';
import { add, transformed, type Vec3 } from './vector';

const bodyA: readonly Vec3[] = [
  [0, 0, 0],
  [400, 0, 0],
  [400, 90, 0],
  [0, 0, 120],
];
const bodyB: readonly Vec3[] = [
  [500, 300, 0],
  [900, 300, 0],
  [900, 380, 60],
  [500, 300, 120],
];
const moved = (points: readonly Vec3[], shift: Vec3, yaw = 0, weight = 4) => ({
  from: points,
  to: points.map((point) => add(shift, transformed(rotationFromAngles({ yaw, pitch: 0, twist: 0 }), point))),
  weights: points.map(() => weight),
});

describe('the distance between two motions', () => {
  it('is nothing where one motion moved both, told from six figures', () => {
    const { squared, degreesOfFreedom } = motionDistance(
      moved(bodyA, [9, -4, 2], 0.02),
      moved(bodyB, [9, -4, 2], 0.02),
    );
    expect(squared).toBeLessThan(1e-9);
    expect(degreesOfFreedom).toBe(6);
  });

  it('is the squared difference of two shifts over its variance, of single points', () => {
    // Cov of a difference of independent means: JCGM 100:2008, 5.1.2
    const { squared, degreesOfFreedom } = motionDistance(
      moved([[0, 0, 0]], [3, 0, 0]),
      moved([[200, 0, 0]], [0, 4, 0]),
    );
    expect(squared).toBeCloseTo((3 ** 2 + 4 ** 2) / (1 / 4 + 1 / 4), 9);
    expect(degreesOfFreedom).toBe(3);
  });

  it('does not let single points turn about one another', () => {
    const about = motionDistance(moved([[0, 0, 0]], [0, -5, 0]), moved([[200, 0, 0]], [0, 5, 0]));
    expect(about.squared).toBeGreaterThan(100);
  });

  it('tells a point from where another body would have carried it', () => {
    const turned = moved(bodyA, [0, 0, 0], 0.05);
    expect(motionDistance(turned, moved([[600, 100, 0]], [0, 0, 0], 0.05)).squared).toBeLessThan(1e-9);
    expect(motionDistance(turned, moved([[600, 100, 0]], [0, 0, 0])).squared).toBeGreaterThan(100);
  });
});
