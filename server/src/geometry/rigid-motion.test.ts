import fc from 'fast-check';
import { determinant, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { cloud, motion, noisyCloud } from './arbitraries';
import { moved, movedVector, type RigidFit, rigidFit } from './rigid-motion';
import { distance, identity, length, type Mat3, type Vec3 } from './vector';

const ones = (points: readonly unknown[]): number[] => points.map(() => 1);
const vectorOf = (fit: RigidFit, i: number): Vec3 => fit.residuals[i] as unknown as Vec3;

describe('rigidFit', () => {
  it('finds a quarter turn to the left and a shift, with the signs of right-handed axes', () => {
    const from = [
      [0, 0, 0],
      [2, 0, 0],
      [0, 1, 0],
      [0, 0, 3],
    ];
    const to = [
      [10, 20, 30],
      [10, 22, 30],
      [9, 20, 30],
      [10, 20, 33],
    ];
    const fit = rigidFit(from, to, ones(from));
    expect(fit.rotation.flat()).toEqual(
      [0, -1, 0, 1, 0, 0, 0, 0, 1].map((value) => expect.closeTo(value, 12)),
    );
    expect(fit.translation).toEqual([10, 20, 30].map((value) => expect.closeTo(value, 12)));
    expect(fit.rms).toBeCloseTo(0, 12);
    expect(moved(fit, [1, 1, 1])).toEqual([9, 21, 31].map((value) => expect.closeTo(value, 12)));
  });

  it('gives residuals as moved − reached', () => {
    const from: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [0, 1000, 0],
      [0, 0, 1000],
    ];
    const to = from.map((p, i): Vec3 => (i === 1 ? [1004, 0, 0] : p));
    const fit = rigidFit(from, to, ones(from));
    // short of where it should be, by what the others do not let it have
    expect(fit.residuals[1][0]).toBeLessThan(-2);
    from.forEach((p, i) => {
      const plain = moved(fit, p).map((value, k) => value - to[i][k]);
      expect(distance(plain as unknown as Vec3, vectorOf(fit, i))).toBeLessThan(1e-9);
    });
  });

  it('recovers any motion of any points, and its rotation is proper', () => {
    fc.assert(
      fc.property(cloud(), motion(), (points, move) => {
        const fit = rigidFit(points, points.map(move), ones(points));
        expect(fit.rms).toBeLessThan(1e-9);
        expect(fit.scale).toBeCloseTo(1, 10);
        expect(fit.reflected).toBe(false);
        expect(determinant(new Matrix(fit.rotation))).toBeCloseTo(1, 12);
        const place: Vec3 = [3000, -200, 500];
        expect(distance(moved(fit, place) as unknown as Vec3, move(place))).toBeLessThan(1e-8);
      }),
    );
  });

  it('leaves residuals that no motion of the source changes', () => {
    fc.assert(
      fc.property(noisyCloud(5), motion(), ({ points, noise, weights }, move) => {
        const read = points.map((p, i): Vec3 => [p[0] + noise[i][0], p[1] + noise[i][1], p[2] + noise[i][2]]);
        const plain = rigidFit(read, points, weights);
        const elsewhere = rigidFit(read.map(move), points, weights);
        points.forEach((_, i) => {
          expect(distance(vectorOf(plain, i), vectorOf(elsewhere, i))).toBeLessThan(1e-8);
        });
        expect(elsewhere.chiSquare).toBeCloseTo(plain.chiSquare, 8);
      }),
    );
  });

  it('is a minimum: no small turn or shift away from it lowers χ²', () => {
    fc.assert(
      fc.property(noisyCloud(20), motion(0.01), ({ points, noise, weights }, nudge) => {
        const read = points.map((p, i): Vec3 => [p[0] + noise[i][0], p[1] + noise[i][1], p[2] + noise[i][2]]);
        const fit = rigidFit(read, points, weights);
        const nudged = read.map(
          (p, i) => distance(nudge(moved(fit, p) as unknown as Vec3), points[i]) ** 2 * weights[i],
        );
        expect(nudged.reduce((a, b) => a + b)).toBeGreaterThanOrEqual(fit.chiSquare - 1e-9);
        expect(fit.rms).toBeCloseTo(Math.sqrt(fit.chiSquare / weights.reduce((a, b) => a + b)), 10);
      }),
    );
  });

  it('heeds the weights: a point of weight 0 does not count but has its residual', () => {
    const from: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [0, 1000, 0],
      [0, 0, 1000],
      [500, 500, 500],
    ];
    const to = from.map((p, i): Vec3 => (i === 4 ? [p[0], p[1] + 30, p[2]] : p));
    const fit = rigidFit(from, to, [1, 1, 1, 1, 0]);
    expect(fit.chiSquare).toBeCloseTo(0, 12);
    expect(vectorOf(fit, 4)[1]).toBeCloseTo(-30, 9);
    const leaning = rigidFit(from, to, [1, 1, 1, 1, 1e6]);
    expect(length(vectorOf(leaning, 4))).toBeLessThan(1e-3);
  });

  it('gives the factor from source to target: inches read as millimetres', () => {
    const to: Vec3[] = [
      [0, 0, 0],
      [2540, 0, 0],
      [0, 1270, 0],
      [0, 0, 254],
    ];
    expect(
      rigidFit(
        to.map((p) => p.map((x) => x / 25.4)),
        to,
        ones(to),
      ).scale,
    ).toBeCloseTo(25.4, 9);
  });

  it('tells a mirror image, but not from points in a plane', () => {
    const points: Vec3[] = [
      [0, 0, 0],
      [1000, 0, 0],
      [0, 800, 0],
      [0, 0, 500],
      [700, 300, 100],
    ];
    const mirrored = (p: Vec3): Vec3 => [p[0], -p[1], p[2]];
    const solid = rigidFit(points.map(mirrored), points, ones(points));
    expect(solid.reflected).toBe(true);
    expect(solid.singularValues[2]).toBeGreaterThan(0);
    expect(determinant(new Matrix(solid.rotation))).toBeCloseTo(1, 12);
    const flat = points.map((p): Vec3 => [p[0], p[1], 0]);
    const inPlane = rigidFit(flat.map(mirrored), flat, ones(flat));
    expect(inPlane.reflected).toBe(false);
    expect(inPlane.rms).toBeLessThan(1e-9);
  });

  it('works at any size', () => {
    for (const size of [1e-6, 1e-3, 1, 1e3, 1e6]) {
      const from: Vec3[] = [
        [0, 0, 0],
        [1, 0, 0],
        [0, 2, 0],
        [0, 0, 3],
        [1, 1, 1],
      ].map((p) => p.map((x) => x * size) as unknown as Vec3);
      const to = from.map((p): Vec3 => [-p[1] + 5 * size, p[0], p[2] - size]);
      const fit = rigidFit(
        from,
        to,
        from.map(() => 1 / size ** 2),
      );
      expect(fit.rms / size).toBeLessThan(1e-12);
      expect(fit.scale).toBeCloseTo(1, 12);
      expect(fit.rotation[1][0]).toBeCloseTo(1, 12);
    }
  });

  describe('where the points leave a turn free', () => {
    it('one point: no turn', () => {
      const fit = rigidFit([[5, 6, 7]], [[6, 6, 6]], [4]);
      expect(fit.rotation).toEqual(identity);
      expect(fit.translation).toEqual([1, 0, -1]);
      expect(fit.residuals).toEqual([[0, 0, 0]]);
      expect(fit.scale).toBeNaN();
    });
    it('coincident points, but for rounding: no turn', () => {
      const place = [1000.1, -333.3, 77.7];
      const fit = rigidFit([place, place, place], [place, place, place], [1, 3, 0.7]);
      expect(fit.rotation).toEqual(identity.map((row) => row.map((value) => expect.closeTo(value, 12))));
      expect(fit.scale).toBeNaN();
    });
    it('two points: the least turn that lays one line along the other', () => {
      const fit = rigidFit(
        [
          [0, 0, 0],
          [10, 0, 0],
        ],
        [
          [0, 0, 0],
          [0, 10, 0],
        ],
        [1, 1],
      );
      expect(fit.rotation.flat()).toEqual(
        [0, -1, 0, 1, 0, 0, 0, 0, 1].map((value) => expect.closeTo(value, 12)),
      );
      expect(fit.chiSquare).toBeCloseTo(0, 12);
    });
    it('collinear points that have not moved: no turn', () => {
      const line: Vec3[] = [
        [100, 200, 300],
        [200, 400, 600],
        [350, 700, 1050],
      ];
      const fit = rigidFit(line, line, [1, 2, 3]);
      expect(fit.rotation.flat()).toEqual(identity.flat().map((value) => expect.closeTo(value, 9)));
    });
  });

  it('refuses what is not a set of pairs', () => {
    expect(() =>
      rigidFit(
        [[0, 0]],
        [
          [0, 0],
          [1, 1],
        ],
        [1],
      ),
    ).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, 0, 0]], [1])).toThrow(RangeError);
    expect(() =>
      rigidFit(
        [[0, 0], [1]],
        [
          [0, 0],
          [1, 1],
        ],
        [1, 1],
      ),
    ).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, 0]], [1, 1])).toThrow(RangeError);
    expect(() => rigidFit([], [], [])).toThrow(RangeError);
    expect(() => rigidFit([[0, Number.NaN]], [[0, 0]], [1])).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, Number.POSITIVE_INFINITY]], [1])).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, 0]], [-1])).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, 0]], [0])).toThrow(RangeError);
    expect(() => rigidFit([[0, 0]], [[0, 0]], [Number.NaN])).toThrow(RangeError);
    expect(() =>
      moved(
        {
          rotation: [
            [1, 0],
            [0, 1],
          ],
          translation: [0, 0],
        },
        [1, 2, 3],
      ),
    ).toThrow(RangeError);
  });

  it('moves a vector as it moves a point', () => {
    const fit = rigidFit(
      [
        [0, 0, 0],
        [2, 0, 0],
        [0, 1, 0],
      ],
      [
        [1, 2, 3],
        [1, 4, 3],
        [0, 2, 3],
      ],
      [1, 1, 1],
    );
    const [turn, shift] = [fit.rotation as unknown as Mat3, fit.translation as unknown as Vec3];
    expect(movedVector({ rotation: turn, translation: shift }, [4, 5, 6])).toEqual(
      moved(fit, [4, 5, 6]).map((value) => expect.closeTo(value, 12)),
    );
  });
});
