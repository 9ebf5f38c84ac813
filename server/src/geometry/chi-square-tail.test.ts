import { describe, expect, it } from 'vitest';
import { logChiSquareTail } from './chi-square-tail';
import { chiSquareQuantile } from './distributions';

describe('the tail of χ²', () => {
  it('is the other side of its quantiles', () => {
    for (const n of [1, 2, 3, 6, 7])
      for (const p of [0.5, 0.9, 0.99, 0.999, 0.999999])
        expect(Math.exp(logChiSquareTail(chiSquareQuantile(p, n), n))).toBeCloseTo(1 - p, 9);
  });

  it('is that of the tables far out: P(χ²₁ > 100) = 1.5239706e-23 (twice Φ(−10) of Abramowitz & Stegun 1964, table 26.2)', () => {
    expect(Math.exp(logChiSquareTail(100, 1)) / 1.523970604832e-23).toBeCloseTo(1, 9);
    expect(logChiSquareTail(5000, 2)).toBe(-2500);
    expect(logChiSquareTail(0, 3)).toBeCloseTo(0, 12);
  });

  it('does not break where one way of computing it ends', () => {
    for (const n of [1, 3]) {
      const [below, above] = [logChiSquareTail(25 - 1e-9, n), logChiSquareTail(25 + 1e-9, n)];
      expect(above).toBeLessThan(below);
      expect(below - above).toBeLessThan(1e-8);
    }
  });

  it('refuses what has none', () => {
    for (const [x, n] of [
      [-1, 2],
      [Number.NaN, 2],
      [1, 0],
      [1, 1.5],
    ])
      expect(() => logChiSquareTail(x, n)).toThrow(RangeError);
  });
});
