import { describe, expect, it } from 'vitest';
import { chiSquareQuantile, normalCdf } from './distributions';

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
