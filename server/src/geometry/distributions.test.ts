import { describe, expect, it } from 'vitest';
import { chiSquareQuantile, fQuantile, normalCdf } from './distributions';

describe('normalCdf', () => {
  it('is a half at 0, symmetric, and has its limits', () => {
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(1.7) + normalCdf(-1.7)).toBeCloseTo(1, 14);
    expect(normalCdf(1.7)).toBeGreaterThan(0.9);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
  });
});

describe('chiSquareQuantile', () => {
  it('is −2 ln(1 − p) on two degrees of freedom, the same when asked again', () => {
    for (const p of [0, 0.5, 0.99, 0.99])
      expect(chiSquareQuantile(p, 2)).toBeCloseTo(-2 * Math.log(1 - p), 10);
  });
  it('stays right after more questions than it remembers', () => {
    for (let i = 1; i <= 1100; i++) chiSquareQuantile(0.5, i / 10);
    expect(chiSquareQuantile(0.95, 1)).toBeCloseTo(3.841459, 6);
  });
  it('refuses what is no probability or no degrees of freedom', () => {
    for (const p of [-0.1, 1, Number.NaN]) expect(() => chiSquareQuantile(p, 3)).toThrow(RangeError);
    for (const dof of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => chiSquareQuantile(0.5, dof)).toThrow(RangeError);
    }
  });
});

describe('fQuantile', () => {
  it('is d/2 ((1 − p)^(−2/d) − 1) with two degrees of freedom above the line', () => {
    for (const d of [3, 6, 20])
      for (const p of [0, 0.5, 0.99])
        expect(fQuantile(p, 2, d)).toBeCloseTo((d / 2) * ((1 - p) ** (-2 / d) - 1), 8);
  });
  it('nears χ²/n where the mean square below the line is as good as known', () => {
    expect(fQuantile(0.99, 6, 1e7)).toBeCloseTo(chiSquareQuantile(0.99, 6) / 6, 4);
  });
  it('refuses what is no probability or no degrees of freedom', () => {
    for (const p of [-0.1, 1, Number.NaN]) expect(() => fQuantile(p, 3, 3)).toThrow(RangeError);
    for (const dof of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => fQuantile(0.5, dof, 3)).toThrow(RangeError);
      expect(() => fQuantile(0.5, 3, dof)).toThrow(RangeError);
    }
  });
});
