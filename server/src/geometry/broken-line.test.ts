import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { brokenLineFit } from '../../../tests/published/broken-line-fit';
import { generalisedLeastSquares } from '../../../tests/published/generalised-least-squares';
import { seededRandom } from '../../../tests/published/seeded-random';
import { number } from './arbitraries';
import { Offsets } from './broken-line';
import { chiSquareQuantile } from './distributions';

const diagonal = (values: readonly number[]): number[][] =>
  values.map((value, i) => values.map((_, k) => (i === k ? value : 0)));
const line = (
  positions: readonly number[],
  h: number,
  slopes: readonly [number, number],
): [number, number][] =>
  positions.map((s) => [slopes[0] * Math.max(0, s - h), slopes[1] * Math.max(0, s - h)]);
const positions = [0, 150, 320, 500, 640, 800];
const variances = positions.flatMap(() => [0.25, 0.5]);

describe('brokenLineFit', () => {
  it('finds where two channels leave zero, with the sign of each', () => {
    const fit = brokenLineFit(positions, line(positions, 250, [0.03, -0.05]), diagonal(variances));
    expect(fit?.breakAt).toBeCloseTo(250, 6);
    expect(fit?.slopes).toEqual([0.03, -0.05].map((value) => expect.closeTo(value, 9)));
    expect(fit?.chiSquare).toBeCloseTo(0, 9);
    // Hand sum over the four beyond: 70², 250², 390², 550².
    const squares = 70 ** 2 + 250 ** 2 + 390 ** 2 + 550 ** 2;
    expect(fit?.chiSquareZero).toBeCloseTo(squares * (0.03 ** 2 / 0.25 + 0.05 ** 2 / 0.5), 6);
    expect(fit?.chiSquareStraight).toBeGreaterThan(10);
  });

  it('has the uncertainty of the place by hand: one channel that matters, two positions beyond', () => {
    // Offsets k(s − h) with two beyond at 100 and 200: h = s₁ − 100 d₁/(d₂ − d₁) in variances of 1.
    const fit = brokenLineFit(
      [0, 300, 400, 500],
      line([0, 300, 400, 500], 300.0001, [0.1, 0]),
      diagonal(Array(8).fill(1)),
    );
    // Those on the break and before add nothing: ∂h/∂d₁ = −d₂·100/(d₂−d₁)², ∂h/∂d₂ = d₁·100/(d₂−d₁)²; d = 10, 20.
    expect(fit?.linearisedBreakUncertainty).toBeCloseTo(Math.hypot(20, 10), 2);
  });

  describe('the uncertainty of the place', () => {
    it('is half of where χ² rises by 3.84 over 1.96, by hand: both ends inside one segment', () => {
      // The slope is known from far out: χ² of one channel with every position beyond but the first is a parabola in h.
      const at = [0, 1000, 100_000, 100_100];
      const fit = brokenLineFit(at, line(at, 500, [0.1, 0]), diagonal(Array(8).fill(1)));
      // near enough h = s₁ − d₁/k with k known: u = 1/0.1
      expect(fit?.linearisedBreakUncertainty).toBeCloseTo(10, 0);
      expect(fit?.breakUncertainty).toBeCloseTo(10, 0);
    });

    /** By how much χ² of exact offsets rises for a break elsewhere with the best slope there: plain least squares, one channel. */
    const rise = (at: readonly number[], h: number, slope: number, tried: number): number => {
      const d = at.map((s) => slope * Math.max(0, s - h));
      const x = at.map((s) => Math.max(0, s - tried));
      const sum = (of: (i: number) => number) => at.reduce((total, _, i) => total + of(i), 0);
      return sum((i) => d[i] ** 2) - sum((i) => d[i] * x[i]) ** 2 / sum((i) => x[i] ** 2);
    };
    const endOfInterval = (at: readonly number[], h: number, slope: number, outside: number): number => {
      let [near, far] = [h, outside];
      for (let i = 0; i < 60; i++) {
        const middle = (near + far) / 2;
        if (rise(at, h, slope, middle) <= 3.841459) near = middle;
        else far = middle;
      }
      return near;
    };

    it('reaches into the next segment, where χ² is flatter', () => {
      // Just short of a position: the linearised fit counts on it, but a break past it explains the offsets as well.
      const [at, h] = [[0, 300, 400, 500], 299.9999];
      const fit = brokenLineFit(at, line(at, h, [0.1, 0]), diagonal(Array(8).fill(1)))!;
      const [from, to] = [0, 399].map((outside) => endOfInterval(at, h, 0.1, outside));
      expect(to).toBeGreaterThan(300);
      expect(fit.breakUncertainty).toBeCloseTo((to - from) / 2 / 1.96, 4);
      expect(fit.breakUncertainty).toBeGreaterThan(1.5 * fit.linearisedBreakUncertainty);
    });

    it('takes the end of the search where χ² has not risen by there', () => {
      const [at, h] = [[0, 40, 400, 500], 39.9999];
      expect(rise(at, h, 0.03, 0)).toBeLessThan(3.84);
      const fit = brokenLineFit(at, line(at, h, [0.03, 0]), diagonal(Array(8).fill(1)))!;
      expect(fit.breakUncertainty).toBeCloseTo(endOfInterval(at, h, 0.03, 399) / 2 / 1.96, 4);
      expect(fit.breakUncertainty).toBeGreaterThan(fit.linearisedBreakUncertainty);
    });

    it('is what the gain of the break makes of the covariance, and the break moves by the gain', () => {
      const exact = line(positions, 260, [0.03, -0.05]);
      const fit = brokenLineFit(positions, exact, diagonal(variances))!;
      const u2 = [...fit.breakGain].reduce((total, gain, i) => total + gain ** 2 * variances[i], 0);
      expect(Math.sqrt(u2)).toBeCloseTo(fit.linearisedBreakUncertainty, 9);
      for (const i of [2, 5, 8, 11]) {
        const nudged = exact.map(([a, b], k): [number, number] => [
          a + (2 * k === i ? 1e-3 : 0),
          b + (2 * k + 1 === i ? 1e-3 : 0),
        ]);
        const moved = brokenLineFit(positions, nudged, diagonal(variances))!;
        expect((moved.breakAt - fit.breakAt) / 1e-3).toBeCloseTo(fit.breakGain[i], 2);
      }
    });

    it('is never under that of the linearised fit', () => {
      const random = seededRandom(11);
      for (let run = 0; run < 200; run++) {
        const exact = line(positions, random.uniform(20, 600), [
          random.uniform(-0.1, 0.1),
          random.uniform(-0.1, 0.1),
        ]);
        const fit = brokenLineFit(
          positions,
          exact.map(([a, b]): [number, number] => [a + random.normal(0.5), b + random.normal(0.7)]),
          diagonal(variances.map((_, i) => (i % 2 === 0 ? 0.25 : 0.49))),
        );
        if (fit === null) continue;
        expect(fit.breakUncertainty).toBeGreaterThanOrEqual(fit.linearisedBreakUncertainty);
      }
    });

    it('covers the true place in 95 % of simulated bends that are plain to see', () => {
      const random = seededRandom(20_260_307);
      const scatter = 0.6;
      let [found, covered] = [0, 0];
      for (let run = 0; run < 2000; run++) {
        const h = random.uniform(20, 540);
        const slope = random.uniform(4, 40) / (800 - h);
        const way = random.uniform(0, 2 * Math.PI);
        const exact = line(positions, h, [slope * Math.cos(way), slope * Math.sin(way)]);
        const fit = brokenLineFit(
          positions,
          exact.map(([a, b]): [number, number] => [a + random.normal(scatter), b + random.normal(scatter)]),
          diagonal(Array(12).fill(scatter ** 2)),
        );
        if (fit === null || fit.chiSquareStraight < chiSquareQuantile(0.95, 8)) continue;
        found++;
        if (Math.abs(fit.breakAt - h) <= 1.96 * fit.breakUncertainty) covered++;
      }
      expect(found).toBeGreaterThan(1400);
      expect(covered / found).toBeGreaterThan(0.93);
      expect(covered / found).toBeLessThan(0.97);
    });
  });

  it('recovers any break that is plain to see, in any unit', () => {
    fc.assert(
      fc.property(
        number(10, 590),
        number(0.05, 0.2),
        number(-0.2, 0.2),
        fc.integer({ min: -3, max: 3 }),
        (h, first, second, power) => {
          const unit = 10 ** power;
          const exact = line(positions, h, [first, second]).map((pair): [number, number] => [
            pair[0] * unit,
            pair[1] * unit,
          ]);
          const noise = variances.map((value) => (value / 400) * unit ** 2);
          const fit = brokenLineFit(
            positions.map((s) => s * unit),
            exact,
            diagonal(noise),
          );
          expect(fit).not.toBeNull();
          expect((fit?.breakAt ?? 0) / unit).toBeCloseTo(h, 4);
          expect(fit?.slopes).toEqual([first, second].map((value) => expect.closeTo(value, 8)));
        },
      ),
    );
  });

  it('mirrored offsets: mirrored slopes, the same place', () => {
    const offsets: [number, number][] = [
      [0.3, -0.2],
      [-0.4, 0.1],
      [0.2, 0.6],
      [6.1, -8.2],
      [11.2, -14.9],
      [17.5, -22.4],
    ];
    const plain = brokenLineFit(positions, offsets, diagonal(variances));
    const mirrored = brokenLineFit(
      positions,
      offsets.map(([a, b]) => [-a, b]),
      diagonal(variances),
    );
    expect(mirrored?.breakAt).toBeCloseTo(plain?.breakAt ?? Number.NaN, 6);
    expect(mirrored?.slopes[0]).toBeCloseTo(-(plain?.slopes[0] ?? 0), 9);
    expect(mirrored?.slopes[1]).toBeCloseTo(plain?.slopes[1] ?? 0, 9);
  });

  describe('does not guess', () => {
    it('with one position beyond the break', () => {
      expect(
        brokenLineFit(
          [0, 100, 200, 300],
          [
            [0, 0],
            [0, 0],
            [0, 0],
            [9, 2],
          ],
          diagonal(Array(8).fill(0.25)),
        ),
      ).toBeNull();
      // The last but one is off by no more than its uncertainty: still nothing tells place from slope.
      expect(
        brokenLineFit(
          [0, 100, 200, 300],
          [
            [0, 0],
            [0, 0],
            [0.4, 0],
            [9, 2],
          ],
          diagonal(Array(8).fill(0.25)),
        ),
      ).toBeNull();
      expect(
        brokenLineFit(
          [0, 100, 200, 300],
          [
            [0, 0],
            [0, 0],
            [4, 0],
            [9, 2],
          ],
          diagonal(Array(8).fill(0.25)),
        ),
      ).not.toBeNull();
    });
    it('with no position before it', () => {
      expect(
        brokenLineFit(
          [0, 100, 200, 300],
          [
            [5, 0],
            [10, 0],
            [15, 0],
            [20, 0],
          ],
          diagonal(Array(8).fill(0.25)),
        ),
      ).toBeNull();
    });
    it('with fewer than three positions, or nothing but zeros', () => {
      expect(
        brokenLineFit(
          [0, 100],
          [
            [0, 0],
            [5, 5],
          ],
          diagonal([1, 1, 1, 1]),
        ),
      ).toBeNull();
      expect(
        brokenLineFit(
          positions,
          positions.map(() => [0, 0]),
          diagonal(variances),
        ),
      ).toBeNull();
    });
  });

  it('refuses what is not a row of offsets', () => {
    const ok = diagonal([1, 1, 1, 1, 1, 1]);
    const zeros: [number, number][] = [
      [0, 0],
      [0, 0],
      [0, 0],
    ];
    expect(() => brokenLineFit([0, 2, 1], zeros, ok)).toThrow(RangeError);
    expect(() => brokenLineFit([0, 1, 1], zeros, ok)).toThrow(RangeError);
    expect(() => brokenLineFit([0, 1], zeros, ok)).toThrow(RangeError);
    expect(() => brokenLineFit([0, 1, 2], zeros, diagonal([1, 1, 1]))).toThrow(RangeError);
    expect(() =>
      brokenLineFit(
        [0, 1, 2],
        [
          [0, 0],
          [0, Number.NaN],
          [0, 0],
        ],
        ok,
      ),
    ).toThrow(RangeError);
    expect(() => brokenLineFit([0, 1, 2], zeros, diagonal([1, 1, 1, 1, 1, -1]))).toThrow(RangeError);
  });
});

describe('Offsets', () => {
  it('stand against zero and a straight line as by the general routine, with correlated readings', () => {
    const random = seededRandom(5);
    for (let run = 0; run < 100; run++) {
      const at = [0];
      for (let i = 0; i < run % 9; i++) at.push(at[i] + random.uniform(41, 400));
      if (at.length < 2) continue;
      const size = 2 * at.length;
      const roots = Array.from({ length: size }, () => [random.normal(0.5), random.normal(0.5)]);
      const covariance = roots.map((a, i) =>
        roots.map((b, k) => a[0] * b[0] + a[1] * b[1] + (i === k ? 0.2 : 0)),
      );
      const offsets = at.map((): [number, number] => [random.normal(3), random.normal(3)]);
      const against = (design: number[][]) => generalisedLeastSquares(design, offsets.flat(), covariance);
      const line = against(
        at.flatMap((s) => [
          [1, s, 0, 0],
          [0, 0, 1, s],
        ]),
      );
      const { chiSquareZero, chiSquareStraight } = new Offsets(
        at,
        offsets,
        Float64Array.from(covariance.flat()),
      );
      expect(Math.abs(chiSquareStraight - line.chiSquare)).toBeLessThan(1e-9 * chiSquareZero);
      const inverted = inverse(new Matrix(covariance));
      const column = Matrix.columnVector(offsets.flat());
      const zero = column.transpose().mmul(inverted).mmul(column).get(0, 0);
      expect(chiSquareZero / zero).toBeCloseTo(1, 9);
    }
  });

  it('say so where a line is not determined, and of a covariance of another size', () => {
    const one = new Offsets([0], [[1, 1]], Float64Array.of(1, 0, 0, 1));
    expect(() => one.chiSquareStraight).toThrow(RangeError);
    expect(one.chiSquareZero).toBe(2);
    expect(one.brokenLine()).toBeNull();
    expect(() => new Offsets([0], [[1, 1]], Float64Array.of(1))).toThrow(RangeError);
    expect(() => new Offsets([0], [[1, 1]], Float64Array.of(1, 0, 0, Number.NaN))).toThrow(RangeError);
  });
});
