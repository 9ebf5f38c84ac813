import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { cloud, vector, weights } from './arbitraries';
import { birgeFactor, covarianceBetween, motionCovariance, variancesAt } from './motion-covariance';
import { crossMatrix, length, type Mat3, product, subtract, sum, transposed, type Vec3 } from './vector';

const weighted = (size?: number) =>
  cloud(size).chain((points) => fc.tuple(fc.constant(points), weights(points.length)));
const flatClose = (expected: Mat3, digits = 10) =>
  expected.flat().map((value) => expect.closeTo(value, digits));

describe('motionCovariance', () => {
  it('for a cross of four points, by hand', () => {
    // Two at ±2 on x, two at ±1 on y, weight 3: J = 3·diag(2, 8, 10).
    const motion = motionCovariance(
      [
        [12, 5, 0],
        [8, 5, 0],
        [10, 6, 0],
        [10, 4, 0],
      ],
      [3, 3, 3, 3],
    );
    expect(motion.centroid).toEqual([10, 5, 0]);
    expect(motion.information).toEqual([
      [6, 0, 0],
      [0, 24, 0],
      [0, 0, 30],
    ]);
    expect(motion.rotation).toEqual(
      [
        [1 / 6, 0, 0],
        [0, 1 / 24, 0],
        [0, 0, 1 / 30],
      ].map((row) => row.map((v) => expect.closeTo(v, 12))),
    );
    expect(motion.translation).toEqual([
      [1 / 12, 0, 0],
      [0, 1 / 12, 0],
      [0, 0, 1 / 12],
    ]);
    expect(motion.unobservable).toEqual([]);
    expect(motion.degreesOfFreedom).toBe(6);
    // One to the left of it: a turn about z moves it forward or back, one about x up or down.
    const left = covarianceBetween(motion, [10, 6, 0], [10, 6, 0]);
    expect(left.flat()).toEqual(
      flatClose([
        [1 / 12 + 1 / 30, 0, 0],
        [0, 1 / 12, 0],
        [0, 0, 1 / 12 + 1 / 6],
      ]),
    );
    // Ahead and to the left share the turn about z, in opposite senses: forward there is −left here.
    const shared = covarianceBetween(motion, [11, 5, 0], [10, 6, 0]);
    expect(shared[1][0]).toBeCloseTo(-1 / 30, 12);
    expect(shared[0][1]).toBeCloseTo(0, 12);
    expect(shared[2][2]).toBeCloseTo(1 / 12, 12);
  });

  it('has J and J⁻¹ off the diagonal as ml-matrix inverts them', () => {
    fc.assert(
      fc.property(weighted(), ([points, w]) => {
        const motion = motionCovariance(points, w);
        const plain = points.reduce(
          (sum, p, i) => {
            const r = Matrix.columnVector(subtract(p, motion.centroid) as unknown as number[]);
            return sum.add(Matrix.eye(3).mul(r.dot(r)).sub(r.mmul(r.transpose())).mul(w[i]));
          },
          Matrix.zeros(3, 3),
        );
        const scale = plain.max();
        expect(motion.information.flat().map((v) => v / scale)).toEqual(
          plain.to1DArray().map((v) => expect.closeTo(v / scale, 12)),
        );
        const inverted = inverse(plain);
        expect(motion.rotation.flat().map((v) => v * scale)).toEqual(
          inverted.to1DArray().map((v) => expect.closeTo(v * scale, 8)),
        );
      }),
    );
  });

  it('shares what it shares symmetrically: A(a, b) = A(b, a)ᵀ, and the factor multiplies it', () => {
    fc.assert(
      fc.property(weighted(), vector(3000), vector(3000), ([points, w], a, b) => {
        const motion = motionCovariance(points, w);
        const there = covarianceBetween(motion, a, b);
        expect(there.flat()).toEqual(flatClose(transposed(covarianceBetween(motion, b, a)), 9));
        const doubled = covarianceBetween(motionCovariance(points, w, 2), a, b);
        expect(doubled.flat()).toEqual(there.flat().map((value) => expect.closeTo(2 * value, 9)));
      }),
    );
  });

  it('does not change with the frame: turned and shifted positions, turned covariance', () => {
    fc.assert(
      fc.property(weighted(), vector(2000), ([points, w], place) => {
        const before = covarianceBetween(motionCovariance(points, w), place, place);
        const turn = (p: Vec3): Vec3 => [-p[1] + 500, p[0] - 700, p[2] + 30];
        const after = covarianceBetween(motionCovariance(points.map(turn), w), turn(place), turn(place));
        expect([after[1][1], after[0][0], after[2][2], -after[1][0], after[1][2], -after[0][2]]).toEqual(
          [before[0][0], before[1][1], before[2][2], before[0][1], before[0][2], before[1][2]].map((v) =>
            expect.closeTo(v, 8),
          ),
        );
      }),
    );
  });

  it('names the axis that collinear points leave free, and knows nothing of a turn about it', () => {
    const motion = motionCovariance(
      [
        [0, 0, 0],
        [300, 400, 0],
        [600, 800, 0],
        [-30, -40, 0],
      ],
      [1, 2, 1, 1],
    );
    expect(motion.unobservable).toHaveLength(1);
    expect(motion.unobservable[0].map(Math.abs)).toEqual([0.6, 0.8, 0].map((v) => expect.closeTo(v, 9)));
    expect(motion.degreesOfFreedom).toBe(7);
    expect(motion.rotation.flat().every(Number.isFinite)).toBe(true);
  });

  it('leaves all turns free for one point or coincident ones', () => {
    for (const count of [1, 2, 5]) {
      const points = Array.from({ length: count }, (): Vec3 => [1234.5, -333.3, 0.1]);
      const motion = motionCovariance(
        points,
        points.map((_, i) => 0.3 + i),
      );
      expect(motion.unobservable).toHaveLength(3);
      expect(motion.rotation.flat().every((value) => value === 0)).toBe(true);
      expect(motion.unobservable.every((axis) => Math.abs(length(axis) - 1) < 1e-12)).toBe(true);
    }
  });

  it('works at any size', () => {
    for (const size of [1e-6, 1, 1e6]) {
      const points: Vec3[] = [
        [size, 0, 0],
        [0, size, 0],
        [0, 0, size],
        [-size, 0, 0],
      ];
      const { rotation, unobservable } = motionCovariance(
        points,
        points.map(() => 1 / size ** 2),
      );
      expect(unobservable).toEqual([]);
      expect(rotation[0][0]).toBeCloseTo(1 / 1.5, 9);
    }
  });

  it('refuses what is not a set of weighted positions', () => {
    expect(() => motionCovariance([], [])).toThrow(RangeError);
    expect(() => motionCovariance([[0, 0, 0]], [1, 1])).toThrow(RangeError);
    expect(() => motionCovariance([[0, 0, Number.NaN]], [1])).toThrow(RangeError);
    expect(() => motionCovariance([[0, 0, 0]], [1], Number.NaN)).toThrow(RangeError);
  });
});

describe('birgeFactor', () => {
  it('is 1 up to the 99 % point of χ², the ratio beyond', () => {
    // 99 % points: 16.812 on 6 degrees of freedom (handbook tables)
    expect(birgeFactor(16.8, 4)).toBe(1);
    expect(birgeFactor(16.82, 4)).toBeCloseTo(16.82 / 6, 12);
    expect(birgeFactor(0, 10)).toBe(1);
  });
  it('is 1 where nothing can scatter', () => {
    expect(birgeFactor(50, 2)).toBe(1);
    expect(birgeFactor(50, 1)).toBe(1);
  });
});

describe('covarianceBetween', () => {
  it('is Σt + [r]× Σθ [s]×ᵀ, to the last digit of the products one by one', () => {
    fc.assert(
      fc.property(weighted(), vector(3000), vector(3000), ([points, each], a, b) => {
        const motion = motionCovariance(points, each);
        const [r, s] = [a, b].map((place) => crossMatrix(subtract(place, motion.centroid)));
        const whole = sum(motion.translation, product(product(r, motion.rotation), transposed(s)));
        covarianceBetween(motion, a, b).forEach((row, i) => {
          row.forEach((entry, j) => {
            expect(entry === whole[i][j]).toBe(true);
          });
        });
      }),
    );
  });
});

describe('variancesAt', () => {
  it('is the diagonal of the covariance of a place with itself', () => {
    fc.assert(
      fc.property(weighted(), vector(3000), ([points, each], place) => {
        const motion = motionCovariance(points, each);
        const whole = covarianceBetween(motion, place, place);
        const scale = Math.max(...whole.flat().map(Math.abs), 1e-300);
        variancesAt(motion, place).forEach((variance, k) => {
          expect(Math.abs(variance - whole[k][k])).toBeLessThan(1e-9 * scale);
        });
      }),
    );
  });
});
