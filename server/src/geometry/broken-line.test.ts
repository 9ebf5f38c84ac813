import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from './arbitraries';
import { brokenLineFit, segmentedLineFit } from './broken-line';

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
    expect(fit?.breakUncertainty).toBeCloseTo(Math.hypot(20, 10), 2);
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

describe('segmentedLineFit', () => {
  it('finds a change of slope', () => {
    const x = [-2, -1, 0, 1, 2, 3, 4, 5];
    const fit = segmentedLineFit(
      x,
      x.map((v) => 7 - 2 * v + 3 * Math.max(0, v - 1.4)),
      x.map(() => 1e-4),
    );
    expect(fit?.breakAt).toBeCloseTo(1.4, 9);
    expect([fit?.intercept, fit?.slope, fit?.change]).toEqual(
      [7, -2, 3].map((value) => expect.closeTo(value, 9)),
    );
  });
  it('does not guess from fewer than four positions', () => {
    expect(segmentedLineFit([0, 1, 1, 2], [0, 0, 1, 5], [1, 1, 1, 1])).toBeNull();
  });
});
