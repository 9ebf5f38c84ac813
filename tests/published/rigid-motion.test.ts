import { eigs, matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { anglesOf } from '../../server/src/geometry/euler';
import { moved, rigidFit } from '../../server/src/geometry/rigid-motion';
import type { Mat3 } from '../../server/src/geometry/vector';
import { expectClose, expectRelative } from './expect-close';
import r from './r-cases.json';
import scipy from './scipy-cases.json';
import { seededRandom } from './seeded-random';

describe("Umeyama 1991, the paper's own example in the plane", () => {
  const from = [
    [0, 0],
    [1, 0],
    [0, 2],
  ];
  const to = [
    [0, 0],
    [-1, 0],
    [0, 2],
  ];
  const fit = rigidFit(from, to, [1, 1, 1]);

  it('has the printed rotation and scale, to the printed digits', () => {
    expectClose(
      fit.rotation,
      [
        [0.832, 0.555],
        [-0.555, 0.832],
      ],
      5e-4,
    );
    expectClose(fit.scale, 0.721, 5e-4);
  });
  it('has the printed translation, which belongs to the scaled motion', () => {
    const means = { from: [1 / 3, 2 / 3], to: [-1 / 3, 2 / 3] };
    const turned = fit.rotation.map((row) => fit.scale * (row[0] * means.from[0] + row[1] * means.from[1]));
    expectClose(
      means.to.map((value, i) => value - turned[i]),
      [-0.8, 0.4],
      5e-4,
    );
  });
  it('is a mirror image of its source', () => expect(fit.reflected).toBe(true));
  // Recomputed by hand from R = [[3, 2], [−2, 3]]/√13.
  it('is exact in all digits', () => {
    const [c, s] = [3 / Math.sqrt(13), 2 / Math.sqrt(13)];
    expectClose(
      fit.rotation,
      [
        [c, s],
        [-s, c],
      ],
      1e-12,
    );
    expectClose(fit.scale, 0.72111, 5e-6);
  });
});

describe('macaque skull landmarks (Dryden & Mardia), procOPA of the R package shapes', () => {
  for (const [i, landmarks] of r.macaques.entries()) {
    it(`female ${i + 1} onto male ${i + 1}`, () => {
      const fit = rigidFit(
        landmarks.from,
        landmarks.to,
        landmarks.from.map(() => 1),
      );
      expectClose(fit.rotation, landmarks.rotation, 1e-9);
      expectRelative(fit.chiSquare, landmarks.sumOfSquares, 1e-9);
      expectClose(fit.scale, landmarks.scale, 1e-9);
      expectClose(
        fit.residuals,
        landmarks.moved.map((row, k) => row.map((value, axis) => value - landmarks.target[k][axis])),
        1e-9,
      );
    });
  }
});

describe('random weighted alignments, Rotation.align_vectors of scipy', () => {
  for (const [
    i,
    { kind, start, to, weights, rotation, translation, chiSquare, angles },
  ] of scipy.alignments.entries()) {
    it(`case ${i + 1}: ${kind}, ${start.length} points`, () => {
      const fit = rigidFit(start, to, weights);
      expectClose(fit.rotation, rotation, 1e-9);
      expectClose(fit.translation, translation, 1e-7);
      expectClose(fit.chiSquare, chiSquare, 1e-9 * Math.max(1, chiSquare));
      const { yaw, pitch, twist } = anglesOf(fit.rotation as unknown as Mat3);
      expectClose([yaw, pitch, twist], angles, 1e-9);
    });
  }
});

describe("Horn 1987: the unit quaternion as the largest eigenvector, with mathjs's eigenvalues", () => {
  const hornRotation = (from: number[][], to: number[][], weights: number[]): number[][] => {
    const total = weights.reduce((a, b) => a + b, 0);
    const mean = (points: number[][]) =>
      [0, 1, 2].map((k) => points.reduce((sum, point, i) => sum + (weights[i] * point[k]) / total, 0));
    const [p, q] = [mean(from), mean(to)];
    const s = (a: number, b: number) =>
      from.reduce((sum, point, i) => sum + weights[i] * (point[a] - p[a]) * (to[i][b] - q[b]), 0) /
      total /
      1e6;
    const [x, y, z] = [0, 1, 2];
    const n = [
      [s(x, x) + s(y, y) + s(z, z), s(y, z) - s(z, y), s(z, x) - s(x, z), s(x, y) - s(y, x)],
      [s(y, z) - s(z, y), s(x, x) - s(y, y) - s(z, z), s(x, y) + s(y, x), s(z, x) + s(x, z)],
      [s(z, x) - s(x, z), s(x, y) + s(y, x), s(y, y) - s(x, x) - s(z, z), s(y, z) + s(z, y)],
      [s(x, y) - s(y, x), s(z, x) + s(x, z), s(y, z) + s(z, y), s(z, z) - s(x, x) - s(y, y)],
    ];
    const { eigenvectors } = eigs(matrix(n), { precision: 1e-14 });
    const largest = eigenvectors.reduce((a, b) => (Number(a.value) > Number(b.value) ? a : b));
    const raw = (largest.vector as unknown as { toArray: () => number[] }).toArray();
    const size = Math.hypot(...raw);
    const [w, i, j, k] = raw.map((value) => value / size);
    return [
      [w * w + i * i - j * j - k * k, 2 * (i * j - w * k), 2 * (i * k + w * j)],
      [2 * (i * j + w * k), w * w - i * i + j * j - k * k, 2 * (j * k - w * i)],
      [2 * (i * k - w * j), 2 * (j * k + w * i), w * w - i * i - j * j + k * k],
    ];
  };

  it('agrees on the cases of scipy', () => {
    for (const { start, to, weights } of scipy.alignments) {
      expectClose(rigidFit(start, to, weights).rotation, hornRotation(start, to, weights), 1e-9);
    }
  });

  it('agrees on a hundred seeded cases, mirrored and coplanar ones among them', () => {
    const random = seededRandom(1987);
    let reflected = 0;
    for (let round = 0; round < 100; round++) {
      const count = 3 + (round % 9);
      const flat = round % 5 === 0;
      const to = Array.from({ length: count }, () => [
        random.uniform(-2000, 2000),
        random.uniform(-900, 900),
        flat ? 0 : random.uniform(-400, 900),
      ]);
      const motion = rigidFit(
        Array.from({ length: 4 }, () => [random.normal(), random.normal(), random.normal()]),
        Array.from({ length: 4 }, () => [random.normal(), random.normal(), random.normal()]),
        [1, 1, 1, 1],
      );
      const mirror = round % 7 === 3 ? -1 : 1;
      const from = to.map((point) =>
        moved(motion, [
          mirror * point[0] + random.normal(),
          point[1] + random.normal(),
          point[2] + random.normal(),
        ]),
      );
      const weights = to.map(() => random.uniform(0.2, 5));
      const fit = rigidFit(from, to, weights);
      expectClose(fit.rotation, hornRotation(from, to, weights), 1e-9);
      if (fit.reflected && !flat && count > 3) reflected++;
    }
    expect(reflected).toBeGreaterThan(5);
  });
});
