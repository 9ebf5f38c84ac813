import { describe, expect, it } from 'vitest';
import { distanceNetwork, type NetworkPoint } from './distance-network';
import { priorTest } from './prior-test';
import { distance, type Vec3 } from './vector';

const close = (values: readonly number[], digits = 6) => values.map((value) => expect.closeTo(value, digits));

describe('priorTest', () => {
  it('is the normalised residual of the one distance that checks a point, and says where that has it', () => {
    // by hand: a distance of 1010 ± 1 against a prior at 1000 ± 2; v = 8, Q = 4 − 0.8 = 3.2, 64/3.2 = 20, and 10 ± √5 off
    const points: NetworkPoint[] = [
      { position: [0, 0, 0], priorVariance: 0 },
      { position: [1000, 0, 0], priorVariance: 4 },
    ];
    const network = distanceNetwork(points, [{ from: 0, to: 1, distance: 1010, uncertainty: 1 }]);
    const tested = priorTest(points[1], network.positions[1], network.covariances[1]);
    expect(tested.statistic).toBeCloseTo(20, 6);
    expect(tested.statistic).toBeCloseTo(network.normalisedResiduals[0] ** 2, 6);
    expect(tested.degreesOfFreedom).toBe(1);
    expect(tested.shift).toEqual(close([10, 0, 0]));
    expect(tested.shiftUncertainty).toEqual(close([Math.sqrt(5), 0, 0]));
  });

  it('finds where exact distances have a point, and how much χ² that point alone explains', () => {
    const known: Vec3[] = [
      [0, 0, 0],
      [2000, 0, 40],
      [0, 1000, 0],
      [900, 500, 700],
    ];
    const truth: Vec3 = [2006, 995, -37];
    const points: NetworkPoint[] = [
      ...known.map((position): NetworkPoint => ({ position, priorVariance: 0 })),
      { position: [2000, 1000, -40], priorVariance: 0.25 },
    ];
    const distances = known.map((place, from) => ({
      from,
      to: 4,
      distance: distance(place, truth),
      uncertainty: 0.5,
    }));
    const network = distanceNetwork(points, distances);
    const tested = priorTest(points[4], network.positions[4], network.covariances[4]);
    // of first order: over two metres a few millimetres bend little
    tested.shift.forEach((value, k) => {
      expect(Math.abs(value - [6, -5, 3][k])).toBeLessThan(0.1);
    });
    expect(tested.degreesOfFreedom).toBe(3);
    const free = distanceNetwork(
      points.map((point, i) => (i === 4 ? { ...point, priorVariance: 1e8 } : point)),
      distances,
    );
    expect(tested.statistic / (network.chiSquare - free.chiSquare)).toBeCloseTo(1, 1);
  });

  it('says nothing of a point that is exact or that nothing checks', () => {
    const exact: NetworkPoint = { position: [0, 0, 0], priorVariance: 0 };
    expect(
      priorTest(
        exact,
        [0, 0, 0],
        [
          [0, 0, 0],
          [0, 0, 0],
          [0, 0, 0],
        ],
      ),
    ).toMatchObject({ statistic: 0, degreesOfFreedom: 0 });
    const alone: NetworkPoint = { position: [0, 0, 0], priorVariance: 4 };
    expect(
      priorTest(
        alone,
        [0, 0, 0],
        [
          [4, 0, 0],
          [0, 4, 0],
          [0, 0, 4],
        ],
      ),
    ).toMatchObject({ statistic: 0, degreesOfFreedom: 0 });
  });
});
