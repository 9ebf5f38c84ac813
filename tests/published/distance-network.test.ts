import { describe, expect, it } from 'vitest';
import {
  distanceNetwork,
  type NetworkDistance,
  type NetworkPoint,
} from '../../server/src/geometry/distance-network';
import { chiSquareQuantile } from '../../server/src/geometry/distributions';
import { add, distance, type Vec3 } from '../../server/src/geometry/vector';
import { expectClose, expectRelative } from './expect-close';
import scipy from './scipy-cases.json';
import { seededRandom } from './seeded-random';

describe('trilateration with uncertain control (Ghilani & Wolf), least_squares of scipy', () => {
  for (const [
    i,
    { prior, variances, distances, positions, standardUncertainties, acrossLast },
  ] of scipy.networks.entries()) {
    it(`case ${i + 1}`, () => {
      const network = distanceNetwork(
        prior.map((position, k) => ({ position: position as unknown as Vec3, priorVariance: variances[k] })),
        distances.map(({ pair, ...rest }) => ({ from: pair[0], to: pair[1], ...rest })),
      );
      expect(network.converged).toBe(true);
      expectClose(network.positions.slice(1), positions, 1e-4);
      expectRelative(
        network.covariances.slice(1).map((c) => [0, 1, 2].map((axis) => Math.sqrt(c[axis][axis]))),
        standardUncertainties,
        1e-4,
      );
      expectClose(network.covariance(6, 7), acrossLast, 1e-4 * Math.max(...acrossLast.flat().map(Math.abs)));
    });
  }
});

describe('Baarda 1968: the tests of a network', () => {
  const control: Vec3[] = [
    [0, 0, 0],
    [1800, 0, 30],
    [1800, 900, 0],
    [0, 900, 20],
    [900, 450, 600],
  ];
  const truth: Vec3[] = [...control, [2600, 250, 400], [2900, 700, 250]];
  const pairs = truth
    .flatMap((_, i) => truth.slice(i + 1).map((__, k) => [i, i + 1 + k]))
    .filter(([, to]) => to >= 5);
  const random = seededRandom(1968);
  const spread = (u: number): Vec3 => [random.normal(u), random.normal(u), random.normal(u)];
  /** Control known to 0.5 mm, the others guessed to 30 mm, distances to 1 mm. */
  const simulated = (fault = 0): { points: NetworkPoint[]; distances: NetworkDistance[] } => ({
    points: truth.map((place, i) => ({
      position: add(place, spread(i < 5 ? 0.5 : 30)),
      priorVariance: i < 5 ? 0.25 : 2500,
    })),
    distances: pairs.map(([from, to], i) => ({
      from,
      to,
      distance: distance(truth[from], truth[to]) + random.normal() + (i === 2 ? fault : 0),
      uncertainty: 1,
    })),
  });

  it('raise a false alarm in about 1 % of sound networks, 5 % at 95 %', () => {
    const rounds = 1000;
    let [at99, at95, chiSquares, degrees] = [0, 0, 0, 0];
    for (let round = 0; round < rounds; round++) {
      const { points, distances } = simulated();
      const { chiSquare, degreesOfFreedom } = distanceNetwork(points, distances);
      if (chiSquare > chiSquareQuantile(0.99, degreesOfFreedom)) at99++;
      if (chiSquare > chiSquareQuantile(0.95, degreesOfFreedom)) at95++;
      chiSquares += chiSquare / rounds;
      degrees += degreesOfFreedom / rounds;
    }
    expectRelative(chiSquares, degrees, 0.06);
    expect(at99 / rounds).toBeGreaterThan(0.001);
    expect(at99 / rounds).toBeLessThan(0.022);
    expect(at95 / rounds).toBeGreaterThan(0.03);
    expect(at95 / rounds).toBeLessThan(0.07);
    // Eleven distances less the six coordinates that they settle.
    expectClose(degrees, 5, 0.1);
  });

  it('has normalised residuals of unit variance', () => {
    const rounds = 300;
    const squares = pairs.map(() => 0);
    for (let round = 0; round < rounds; round++) {
      const { points, distances } = simulated();
      distanceNetwork(points, distances).normalisedResiduals.forEach((w, i) => {
        squares[i] += (w * w) / rounds;
      });
    }
    for (const square of squares) expectClose(square, 1, 0.33);
  });

  it('names the wrong distance by its normalised residual, and its χ² fails', () => {
    let [named, failed] = [0, 0];
    for (let round = 0; round < 50; round++) {
      const { points, distances } = simulated(20);
      const { normalisedResiduals, chiSquare, degreesOfFreedom } = distanceNetwork(points, distances);
      const sizes = normalisedResiduals.map(Math.abs);
      if (sizes.indexOf(Math.max(...sizes)) === 2 && normalisedResiduals[2] > 0) named++;
      if (chiSquare > chiSquareQuantile(0.99, degreesOfFreedom)) failed++;
    }
    expect(named).toBeGreaterThan(45);
    expect(failed).toBeGreaterThan(45);
  });
});
