import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { vector } from './arbitraries';
import { distanceNetwork, type NetworkPoint } from './distance-network';
import { distance, type Vec3 } from './vector';

const control: Vec3[] = [
  [0, 0, 0],
  [2000, 0, 40],
  [0, 1000, 0],
  [2000, 1000, -40],
  [900, 500, 700],
];
const fixed: NetworkPoint[] = control.map((position) => ({ position, priorVariance: 0 }));
const to = (place: Vec3, from: readonly number[] = [0, 1, 2, 3, 4]) =>
  from.map((i) => ({ from: i, to: 5, distance: distance(control[i], place), uncertainty: 1 }));

describe('distanceNetwork', () => {
  it('finds a point from exact distances to known ones, whatever the guess', () => {
    fc.assert(
      fc.property(vector(40), (guess) => {
        const truth: Vec3 = [2700, 350, 500];
        const start: Vec3 = [truth[0] + guess[0], truth[1] + guess[1], truth[2] + guess[2]];
        // The prior pulls by u²/2500 of the guess's error, little along the well-known axes.
        const network = distanceNetwork([...fixed, { position: start, priorVariance: 1e8 }], to(truth));
        expect(network.converged).toBe(true);
        expect(distance(network.positions[5], truth)).toBeLessThan(1e-3);
        expect(network.degreesOfFreedom).toBeCloseTo(2, 3);
        expect(network.chiSquare).toBeLessThan(1e-6);
      }),
    );
  });

  it('moves a point the way that its distance says, and gives residuals as observed − computed', () => {
    const two: NetworkPoint[] = [
      { position: [0, 0, 0], priorVariance: 0 },
      { position: [1000, 0, 0], priorVariance: 4 },
    ];
    const network = distanceNetwork(two, [{ from: 0, to: 1, distance: 1010, uncertainty: 1 }]);
    // Weights 1 and 1/4: 4/5 of the way.
    expect(network.positions[1]).toEqual([1008, 0, 0].map((value) => expect.closeTo(value, 9)));
    expect(network.residuals[0]).toBeCloseTo(2, 9);
    expect(network.covariances[1].flat()).toEqual(
      [0.8, 0, 0, 0, 4, 0, 0, 0, 4].map((value) => expect.closeTo(value, 9)),
    );
    expect(
      network
        .covariance(0, 1)
        .flat()
        .every((value) => value === 0),
    ).toBe(true);
    // Qvv = 1 − 0.8
    expect(network.redundancies[0]).toBeCloseTo(0.2, 9);
    expect(network.normalisedResiduals[0]).toBeCloseTo(2 / Math.sqrt(0.2), 6);
    // The prior is as sharp as a measurement, so it takes part: 2² + (8/2)² on one degree of freedom.
    expect(network.chiSquare).toBeCloseTo(20, 6);
    expect(network.degreesOfFreedom).toBeCloseTo(1, 9);
  });

  it('takes a wide prior for no evidence', () => {
    const two: NetworkPoint[] = [
      { position: [0, 0, 0], priorVariance: 0 },
      { position: [1000, 0, 0], priorVariance: 2500 },
    ];
    const network = distanceNetwork(two, [{ from: 0, to: 1, distance: 1090, uncertainty: 1 }]);
    expect(network.positions[1][0]).toBeCloseTo(1090, 1);
    expect(network.degreesOfFreedom).toBeLessThan(0.001);
    expect(network.normalisedResiduals).toEqual([0]);
    expect(network.positions[1].slice(1)).toEqual([0, 0]);
    expect(network.covariances[1][1][1]).toBeCloseTo(2500, 6);
  });

  it('reads a level distance without the third axis', () => {
    const two: NetworkPoint[] = [
      { position: [0, 0, 0], priorVariance: 0 },
      { position: [300, 390, 5000], priorVariance: 1e6 },
    ];
    const network = distanceNetwork(two, [{ from: 1, to: 0, distance: 500, uncertainty: 1, level: true }]);
    expect(Math.hypot(network.positions[1][0], network.positions[1][1])).toBeCloseTo(500, 3);
    expect(network.positions[1][2]).toBe(5000);
  });

  it('shares what two points have in common, symmetrically', () => {
    const points: NetworkPoint[] = [
      fixed[0],
      { position: [1000, 0, 0], priorVariance: 100 },
      { position: [2000, 0, 0], priorVariance: 100 },
    ];
    const network = distanceNetwork(points, [
      { from: 1, to: 2, distance: 1000, uncertainty: 0.1 },
      { from: 0, to: 1, distance: 1000, uncertainty: 1 },
    ]);
    expect(network.covariance(1, 2)[0][0]).toBeGreaterThan(0.9);
    expect(network.covariance(2, 1)[0][0]).toBeCloseTo(network.covariance(1, 2)[0][0], 12);
    expect(network.covariance(1, 1)).toEqual(network.covariances[1]);
  });

  it('with nothing unknown judges the distances alone', () => {
    const network = distanceNetwork(fixed, [{ from: 0, to: 2, distance: 1003, uncertainty: 1.5 }]);
    expect(network.residuals).toEqual([3]);
    expect(network.normalisedResiduals).toEqual([2]);
    expect(network.chiSquare).toBe(4);
    expect(network.degreesOfFreedom).toBe(1);
    expect(network.converged).toBe(true);
  });

  it('with no distance stays where it was', () => {
    const network = distanceNetwork([{ position: [1, 2, 3], priorVariance: 9 }], []);
    expect(network.positions).toEqual([[1, 2, 3]]);
    expect(network.covariances[0][2][2]).toBeCloseTo(9, 12);
    expect(network.degreesOfFreedom).toBe(0);
  });

  it('stays finite where two points coincide and their distance has no direction', () => {
    const two: NetworkPoint[] = [fixed[0], { position: [0, 0, 0], priorVariance: 4 }];
    const network = distanceNetwork(two, [{ from: 0, to: 1, distance: 3, uncertainty: 1 }]);
    expect(network.positions[1]).toEqual([0, 0, 0]);
    expect(network.residuals).toEqual([3]);
  });

  it('works at any size', () => {
    for (const size of [1e-6, 1e6]) {
      const scaledControl = control.map((p) => p.map((v) => v * size) as unknown as Vec3);
      const truth: Vec3 = [2700 * size, 350 * size, 500 * size];
      const network = distanceNetwork(
        [
          ...scaledControl.map((position) => ({ position, priorVariance: 0 })),
          { position: [2690 * size, 360 * size, 490 * size], priorVariance: 1e8 * size ** 2 },
        ],
        scaledControl.map((p, from) => ({ from, to: 5, distance: distance(p, truth), uncertainty: size })),
      );
      expect(distance(network.positions[5], truth) / size).toBeLessThan(1e-3);
      expect(network.degreesOfFreedom).toBeCloseTo(2, 3);
    }
  });

  it('refuses what is not a network', () => {
    const one: NetworkPoint[] = [{ position: [0, 0, 0], priorVariance: 1 }];
    const span = { from: 0, to: 1, distance: 1, uncertainty: 1 };
    expect(() => distanceNetwork([], [])).toThrow(RangeError);
    expect(() => distanceNetwork(one, [span])).toThrow(RangeError);
    expect(() => distanceNetwork(fixed, [{ ...span, to: 0 }])).toThrow(RangeError);
    expect(() => distanceNetwork(fixed, [{ ...span, distance: -1 }])).toThrow(RangeError);
    expect(() => distanceNetwork(fixed, [{ ...span, distance: Number.NaN }])).toThrow(RangeError);
    expect(() => distanceNetwork(fixed, [{ ...span, uncertainty: 0 }])).toThrow(RangeError);
    expect(() => distanceNetwork([{ position: [0, 0, 0], priorVariance: -1 }], [])).toThrow(RangeError);
  });
});
