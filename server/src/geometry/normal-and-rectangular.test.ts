import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../tests/published/seeded-random';
import { number } from './arbitraries';
import { normalAndRectangularQuantile } from './normal-and-rectangular';

describe('normalAndRectangularQuantile', () => {
  it('is that of the rectangle where the normal value is next to nothing', () => {
    for (const p of [0.025, 0.3, 0.975])
      expect(normalAndRectangularQuantile(p, 1e-6, 40)).toBeCloseTo(40 * p, 6);
  });

  it('is the normal one, about half the width, where the rectangle is next to nothing', () => {
    // 1.959964 and 1.281552: handbook tables (Abramowitz & Stegun 1964)
    expect(normalAndRectangularQuantile(0.975, 10, 0.001)).toBeCloseTo(19.59964 + 0.0005, 3);
    expect(normalAndRectangularQuantile(0.1, 10, 0.001)).toBeCloseTo(-12.81552 + 0.0005, 3);
  });

  it('is by hand: width √12 times the deviation, so that both count alike', () => {
    // Its variance is 2σ²; a normal sum would have ±1.96 √2 σ = 2.772 σ about the middle, this one is a little narrower.
    const half = normalAndRectangularQuantile(0.975, 1, Math.sqrt(12)) - Math.sqrt(12) / 2;
    expect(half).toBeLessThan(2.772);
    expect(half).toBeGreaterThan(2.65);
  });

  it('holds what it says of simulated sums', () => {
    const random = seededRandom(20_260_308);
    for (const [u, width] of [
      [3, 40],
      [15, 40],
      [60, 40],
    ]) {
      const [from, to] = [0.025, 0.975].map((p) => normalAndRectangularQuantile(p, u, width));
      let [under, over] = [0, 0];
      for (let i = 0; i < 20_000; i++) {
        const sum = random.normal(u) + random.uniform(0, width);
        if (sum < from) under++;
        if (sum > to) over++;
      }
      // 500 each are expected, with a standard deviation of 22
      expect(Math.abs(under - 500)).toBeLessThan(90);
      expect(Math.abs(over - 500)).toBeLessThan(90);
    }
  });

  it('is symmetric about half the width, rises, and is in any unit', () => {
    fc.assert(
      fc.property(number(0.01, 0.99), number(0.1, 100), number(0.1, 100), (p, u, width) => {
        const found = normalAndRectangularQuantile(p, u, width);
        expect(found + normalAndRectangularQuantile(1 - p, u, width)).toBeCloseTo(width, 6);
        expect(normalAndRectangularQuantile(p / 2, u, width)).toBeLessThan(found);
        expect(normalAndRectangularQuantile(p, u / 25.4, width / 25.4) * 25.4).toBeCloseTo(found, 6);
      }),
    );
  });

  it('refuses what is no probability, deviation or width', () => {
    for (const [p, u, width] of [
      [0, 1, 1],
      [1, 1, 1],
      [Number.NaN, 1, 1],
      [0.5, 0, 1],
      [0.5, 1, 0],
      [0.5, 1, Number.POSITIVE_INFINITY],
    ])
      expect(() => normalAndRectangularQuantile(p, u, width)).toThrow(RangeError);
  });
});
