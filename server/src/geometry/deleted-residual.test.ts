import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { motion, noisyCloud } from './arbitraries';
import { deletedResidual } from './deleted-residual';
import { birgeFactor, covarianceBetween, motionCovariance } from './motion-covariance';
import { moved, rigidFit } from './rigid-motion';
import {
  add,
  distance,
  identity,
  length,
  type Mat3,
  product,
  scaledMatrix,
  subtract,
  sum,
  type Vec3,
} from './vector';

const fitted = (measured: readonly Vec3[], references: readonly Vec3[], weights: readonly number[]) => ({
  measured,
  references,
  weights,
  fit: rigidFit(measured, references, weights),
  motion: motionCovariance(references, weights),
});

const judged = (from: readonly Vec3[], to: readonly Vec3[], weights: readonly number[], index: number) =>
  deletedResidual(fitted(from, to, weights), index);

/** The same by leaving the point out. */
const byRefit = (from: readonly Vec3[], to: readonly Vec3[], weights: readonly number[], index: number) => {
  const others = <T>(list: readonly T[]): T[] => list.filter((_, i) => i !== index);
  const fit = rigidFit(others(from), others(to), others(weights));
  const factor = birgeFactor(fit.chiSquare, from.length - 1);
  return {
    residual: subtract(moved(fit, from[index]) as unknown as Vec3, to[index]),
    covariance: covarianceBetween(
      motionCovariance(others(to), others(weights), factor),
      to[index],
      to[index],
    ),
    factor,
  };
};
const largest = (m: Mat3): number => Math.max(...m.flat().map(Math.abs));
const box: Vec3[] = [
  [0, 0, 0],
  [2000, 0, 50],
  [2000, 1100, 0],
  [0, 1100, 30],
  [1000, 500, 300],
  [900, 0, 400],
];
const ones = box.map(() => 1);

describe('deletedResidual', () => {
  it('is what a fit of the others says, sign and all', () => {
    const read = box.map((p, i): Vec3 => (i === 3 ? [p[0] + 4, p[1] - 6, p[2] + 3] : p));
    const { residual, covariance, unjudgeable } = judged(read, box, ones, 3);
    expect(residual).toEqual([4, -6, 3].map((value) => expect.closeTo(value, 1)));
    const direct = byRefit(read, box, ones, 3);
    expect(covariance.flat()).toEqual(direct.covariance.flat().map((value) => expect.closeTo(value, 9)));
    expect(unjudgeable.flat().every((value) => value === 0)).toBe(true);
  });

  it('does not count its own misfit against the others, however large, where these let it spin', () => {
    const onOneLine: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [2000, 0, 0],
      [1000, 500, 0],
    ];
    // a comma that was lost
    const read = onOneLine.map((p, i): Vec3 => (i === 3 ? [1000, 50_000, 0] : p));
    const { factor, residual } = judged(read, onOneLine, [4, 4, 4, 4], 3);
    expect(factor).toBe(birgeFactor(0, 3));
    expect(residual[1]).toBeCloseTo(49_500, 3);
  });

  it('agrees with leaving each point out, for any points, noise, weights and place of the instrument', () => {
    fc.assert(
      fc.property(noisyCloud(0.5), motion(), fc.nat(), ({ points, noise, weights }, move, pick) => {
        const index = pick % points.length;
        const read = points.map((p, i) => move(add(p, noise[i])));
        const found = judged(read, points, weights, index);
        const direct = byRefit(read, points, weights, index);
        expect(distance(found.residual, direct.residual)).toBeLessThan(0.02);
      }),
    );
  });

  it('is exact in its covariance: A(I − wA)⁻¹ is the A of the others', () => {
    fc.assert(
      fc.property(noisyCloud(0), fc.nat(), ({ points, weights }, pick) => {
        const index = pick % points.length;
        const { covariance } = judged(points, points, weights, index);
        const direct = byRefit(points, points, weights, index).covariance;
        covariance.flat().forEach((value, i) => {
          expect(Math.abs(value - direct.flat()[i])).toBeLessThan(1e-9 * largest(direct));
        });
      }),
    );
  });

  it('multiplies by the Birge factor of the others, not of all', () => {
    const scattered = box.map((p, i): Vec3 => [p[0] + (i % 2 ? 5 : -5), p[1] + (i % 3 ? 4 : -4), p[2]]);
    const all = rigidFit(scattered, box, ones);
    const { covariance } = judged(scattered, box, ones, 0);
    const direct = byRefit(scattered, box, ones, 0);
    expect(direct.factor).toBeGreaterThan(2);
    expect(Math.abs(direct.factor / birgeFactor(all.chiSquare, 6) - 1)).toBeGreaterThan(0.05);
    expect(largest(covariance) / largest(direct.covariance)).toBeCloseTo(1, 2);
    // One wrong point alone does not make the others doubtful.
    const one = judged(
      box.map((p, i): Vec3 => (i === 0 ? [p[0] + 15, p[1], p[2]] : p)),
      box,
      ones,
      0,
    );
    expect(one.covariance[0][0]).toBeCloseTo(
      covarianceBetween(motionCovariance(box.slice(1), ones.slice(1)), box[0], box[0])[0][0],
      9,
    );
  });

  it('refits above 20: exact however far the point is off', () => {
    for (const off of [60, 500, 5000]) {
      const read = box.map((p, i): Vec3 => (i === 2 ? [p[0] - off, p[1] + off / 2, p[2] + off] : p));
      const { residual, covariance } = judged(read, box, ones, 2);
      expect(distance(residual, [-off, off / 2, off])).toBeLessThan(1e-6);
      const direct = byRefit(read, box, ones, 2);
      expect(covariance.flat()).toEqual(direct.covariance.flat().map((value) => expect.closeTo(value, 9)));
    }
  });

  it('divides out a factor that the motion carries', () => {
    const read = box.map((p, i): Vec3 => [p[0] + (i % 2), p[1], p[2] - (i % 3)]);
    const plain = judged(read, box, ones, 1);
    const other = deletedResidual({ ...fitted(read, box, ones), motion: motionCovariance(box, ones, 7) }, 1);
    expect(other.residual).toEqual(plain.residual.map((value) => expect.closeTo(value, 9)));
    expect(other.covariance.flat()).toEqual(plain.covariance.flat().map((value) => expect.closeTo(value, 9)));
  });

  describe('of three points', () => {
    const three: Vec3[] = [
      [0, 0, 0],
      [2000, 0, 0],
      [800, 900, 0],
    ];
    const across = 2;

    it('cannot be judged along the turn about the line of the other two', () => {
      const read = three.map((p, i): Vec3 => (i === across ? [p[0] + 3, p[1] - 2, p[2] + 9] : p));
      const { residual, unjudgeable, covariance } = judged(read, three, [1, 1, 1], across);
      expect(unjudgeable.flat()).toEqual(
        [0, 0, 0, 0, 0, 0, 0, 0, 1].map((value) => expect.closeTo(value, 9)),
      );
      expect(residual).toEqual([3, -2, 0].map((value) => expect.closeTo(value, 1)));
      expect(residual[2]).toBeCloseTo(0, 9);
      expect(covariance[2].map(Math.abs)).toEqual([0, 0, 0].map((value) => expect.closeTo(value, 9)));
      expect(covariance[0][0]).toBeGreaterThan(0.5);
    });
    it('is judged along the others however far it is off, and the projector is one', () => {
      const read = three.map((p, i): Vec3 => (i === across ? [p[0] + 300, p[1], p[2]] : p));
      const { residual, unjudgeable } = judged(read, three, [1, 1, 1], across);
      expect(residual).toEqual([300, 0, 0].map((value) => expect.closeTo(value, 3)));
      expect(product(unjudgeable, unjudgeable).flat()).toEqual(
        unjudgeable.flat().map((value) => expect.closeTo(value, 9)),
      );
    });
  });

  it('refits three points the same wherever the instrument stood', () => {
    const three: Vec3[] = [
      [0, 0, 0],
      [2000, 0, 0],
      [800, 900, 0],
    ];
    fc.assert(
      fc.property(motion(), (move) => {
        const read = three.map((p, i) => move(i === 2 ? [p[0] + 300, p[1], p[2] + 60] : p));
        const { residual } = judged(read, three, [1, 1, 1], 2);
        // Turned about the line of the others onto the plane: 300 along it, √(900² + 60²) from it.
        expect(residual).toEqual(
          [300, Math.hypot(900, 60) - 900, 0].map((value) => expect.closeTo(value, 4)),
        );
      }),
    );
  });

  it('judges nothing where there are no others', () => {
    const single: Vec3[] = [[10, 20, 30]];
    const { residual, covariance, unjudgeable } = judged(single, single, [2], 0);
    expect(unjudgeable.flat()).toEqual(identity.flat().map((value) => expect.closeTo(value, 12)));
    expect(length(residual)).toBeCloseTo(0, 12);
    expect(largest(covariance)).toBeCloseTo(0, 12);
  });

  it('of two points judges the distance between them alone', () => {
    const two: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
    ];
    const { residual, unjudgeable } = judged(
      [
        [0, 0, 0],
        [1004, 0, 0],
      ],
      two,
      [1, 1],
      1,
    );
    // One other point fixes the place but no turn: nothing is judged across, and along x it is.
    expect(
      largest(
        sum(
          unjudgeable,
          scaledMatrix(
            [
              [0, 0, 0],
              [0, 1, 0],
              [0, 0, 1],
            ],
            -1,
          ),
        ),
      ),
    ).toBeLessThan(1e-9);
    expect(residual[0]).toBeCloseTo(4, 9);
  });

  it('refuses an index or lists that do not fit', () => {
    const whole = fitted(box, box, ones);
    for (const index of [-1, 6, 1.5]) {
      expect(() => deletedResidual(whole, index)).toThrow(RangeError);
    }
    expect(() => deletedResidual({ ...whole, measured: box.slice(1) }, 0)).toThrow(RangeError);
    expect(() => deletedResidual({ ...whole, weights: [1] }, 0)).toThrow(RangeError);
  });
});
