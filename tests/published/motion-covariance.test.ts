import { describe, expect, it } from 'vitest';
import { deletedResidual } from '../../server/src/geometry/deleted-residual';
import { rotationFromAngles } from '../../server/src/geometry/euler';
import { covarianceBetween, motionCovariance } from '../../server/src/geometry/motion-covariance';
import { movedVector, rigidFit } from '../../server/src/geometry/rigid-motion';
import {
  add,
  length,
  type Mat3,
  subtract,
  transformed,
  transposed,
  type Vec3,
} from '../../server/src/geometry/vector';
import { expectClose, expectRelative } from './expect-close';
import scipy from './scipy-cases.json';
import { seededRandom } from './seeded-random';

// Aligned with the axes and centred, so that the principal axes of the paper are the coordinate axes.
const fiducials: Vec3[] = [
  [900, 300, 50],
  [-900, 300, 50],
  [900, -300, 50],
  [-900, -300, 50],
  [0, 0, -100],
  [0, 0, -100],
];
const target: Vec3 = [2100, 450, 350];
const sigma = 0.6;
const weights = fiducials.map(() => 1 / sigma ** 2);

const trace = (m: Mat3): number => m[0][0] + m[1][1] + m[2][2];
const fromAxis = ([x, y, z]: Vec3): number[] => [Math.hypot(y, z), Math.hypot(x, z), Math.hypot(x, y)];

describe('Fitzpatrick, West & Maurer 1998: squared error at a target', () => {
  const localisation = 3 * sigma ** 2;
  const f = [0, 1, 2].map((k) =>
    Math.sqrt(fiducials.reduce((sum, p) => sum + fromAxis(p)[k] ** 2, 0) / fiducials.length),
  );
  const expected = (place: Vec3): number =>
    (localisation / fiducials.length) *
    (1 + fromAxis(place).reduce((sum, d, k) => sum + d ** 2 / f[k] ** 2, 0) / 3);

  it('is the trace of the covariance, anywhere', () => {
    const motion = motionCovariance(fiducials, weights);
    for (const place of [target, [0, 0, 0], [-1500, 700, 0], [0, 0, 1000]] as Vec3[]) {
      expectRelative(trace(covarianceBetween(motion, place, place)), expected(place), 1e-12);
    }
  });

  it('is what simulated registrations show, as are the whole covariance and Sibson 1979: E[FRE²] = (1 − 2/N) FLE²', () => {
    const random = seededRandom(1998);
    const rounds = 6000;
    const second: Vec3 = [-1200, 500, 900];
    const motion = motionCovariance(fiducials, weights);
    const shared = [0, 1, 2].map(() => [0, 0, 0]);
    let [error, residual] = [0, 0];
    for (let round = 0; round < rounds; round++) {
      const noisy = fiducials.map(
        (p): Vec3 => add(p, [random.normal(sigma), random.normal(sigma), random.normal(sigma)]),
      );
      const fit = rigidFit(noisy, fiducials, weights);
      const motionFound = {
        rotation: fit.rotation as unknown as Mat3,
        translation: fit.translation as unknown as Vec3,
      };
      const [first, other] = [target, second].map((place) =>
        subtract(movedVector(motionFound, place), place),
      );
      error += length(first) ** 2 / rounds;
      residual +=
        fit.residuals.reduce((sum, e) => sum + length(e as unknown as Vec3) ** 2, 0) /
        fiducials.length /
        rounds;
      for (let i = 0; i < 3; i++) for (let k = 0; k < 3; k++) shared[i][k] += (first[i] * other[k]) / rounds;
    }
    expectRelative(error, expected(target), 0.04);
    expectRelative(residual, (1 - 2 / fiducials.length) * localisation, 0.02);
    const predicted = covarianceBetween(motion, target, second);
    const deviation = (place: Vec3, k: number): number =>
      Math.sqrt(covarianceBetween(motion, place, place)[k][k]);
    for (let i = 0; i < 3; i++) {
      for (let k = 0; k < 3; k++) {
        // A covariance from so many rounds is known to about 1/√rounds of the two standard deviations: four of those.
        expectClose(
          shared[i][k],
          predicted[i][k],
          (4 * Math.SQRT2 * deviation(target, i) * deviation(second, k)) / Math.sqrt(rounds),
        );
      }
    }
    // The terms that a wrong sign of [r]× would turn are far from 0 by that measure.
    expect(Math.abs(predicted[0][1])).toBeGreaterThan(
      (8 * deviation(target, 0) * deviation(second, 1) * Math.SQRT2) / Math.sqrt(rounds),
    );
  });
});

describe('scipy: least_squares over a shift and a small rotation', () => {
  for (const [i, each] of scipy.alignments.entries()) {
    if (!each.rotationCovariance || !each.places || !each.covarianceBetween || !each.covarianceAtFirst)
      continue;
    const {
      start,
      to,
      weights: w,
      rotationCovariance,
      places,
      covarianceBetween: between,
      covarianceAtFirst,
    } = each;
    it(`case ${i + 1}: covariance of the rotation, at a place and between two`, () => {
      const motion = motionCovariance(to as unknown as Vec3[], w);
      const scale = Math.max(...covarianceAtFirst.flat().map(Math.abs));
      const [a, b] = places as unknown as Vec3[];
      expectClose(
        motion.rotation,
        rotationCovariance,
        1e-6 * Math.max(...rotationCovariance.flat().map(Math.abs)),
      );
      expectClose(covarianceBetween(motion, a, b), between, 1e-6 * scale);
      expectClose(covarianceBetween(motion, a, a), covarianceAtFirst, 1e-6 * scale);
      expectClose(covarianceBetween(motion, b, a), transposed(between as unknown as Mat3), 1e-6 * scale);
    });
    if (start.length < 4) continue;
    it(`case ${i + 1}: the first point by the fit of the others (Belsley, Kuh & Welsch 1980)`, () => {
      const [measured, references] = [start, to] as unknown as Vec3[][];
      const fit = rigidFit(measured, references, w);
      const motion = motionCovariance(references, w);
      const found = deletedResidual({ measured, references, weights: w, fit, motion }, 0);
      // The formula is linear in the rotation: what is left is of the order of its square times the size.
      const expected = each.deletedResidual as number[];
      expectClose(found.residual, expected, Math.max(0.005, Math.hypot(...expected) ** 2 / 2000));
      expect(found.unjudgeable.flat().every((value) => value === 0)).toBe(true);
    });
  }
});

describe('a judged point', () => {
  it('has the deviation that simulated jobs scatter by', () => {
    const random = seededRandom(42);
    const turn = rotationFromAngles({ yaw: 1.2, pitch: -0.4, twist: 0.3 });
    const rounds = 3000;
    let squares = 0;
    for (let round = 0; round < rounds; round++) {
      const read = fiducials.map(
        (p): Vec3 =>
          add(
            transformed(turn, add(p, [random.normal(sigma), random.normal(sigma), random.normal(sigma)])),
            [500, -200, 90],
          ),
      );
      const fit = rigidFit(read, fiducials, weights);
      const motion = motionCovariance(fiducials, weights);
      const { residual, covariance } = deletedResidual(
        { measured: read, references: fiducials, weights, fit, motion },
        round % 4,
      );
      squares +=
        [0, 1, 2].reduce((sum, k) => sum + residual[k] ** 2 / (covariance[k][k] + sigma ** 2), 0) /
        3 /
        rounds;
    }
    // Birge's factor now and then widens the covariance (1 % of jobs), so a little under 1.
    expectClose(squares, 0.99, 0.05);
  });
});
