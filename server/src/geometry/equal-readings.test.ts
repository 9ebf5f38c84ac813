import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binomialTail, chanceOfSameNumber } from './equal-readings';

describe('the chance of the same number', () => {
  // 2 ∫₀ʰ (1 − d/h) φ(d/s)/s dd by scipy.integrate.quad (SciPy 1.17.1)
  it.each([
    [0.1, Math.hypot(0.2, 0.2), 0.1395963147294403],
    [0.5, Math.hypot(0.2, 0.2), 0.5661569103971695],
    [1, Math.hypot(0.05, 0.05), 0.9435810416452246],
    [0.1, Math.hypot(0.05, 0.05), 0.48606495811225586],
    [0.01, 1, 0.003989389559156743],
    [0.0001, 5, 7.97884560776e-6],
  ])('step %s, scatter %s', (step, scatter, expected) =>
    expect(chanceOfSameNumber(step, scatter) / expected).toBeCloseTo(1, 9),
  );

  it('is 1 without scatter, and rises with the step', () => {
    expect(chanceOfSameNumber(0.1, 0)).toBe(1);
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (log) => {
        const step = 10 ** log;
        const [finer, coarser] = [chanceOfSameNumber(step, 1), chanceOfSameNumber(step * 1.1, 1)];
        expect(finer).toBeGreaterThan(0);
        expect(coarser).toBeGreaterThan(finer);
        expect(coarser).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('refuses what is no step or no scatter', () => {
    for (const step of [0, -1, Number.NaN]) expect(() => chanceOfSameNumber(step, 1)).toThrow(RangeError);
    for (const scatter of [-1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => chanceOfSameNumber(1, scatter)).toThrow(RangeError);
  });
});

describe('the tail of the binomial distribution', () => {
  // scipy.stats.binom.sf(k − 1, n, p) (SciPy 1.17.1); the second also by exact fractions
  it.each([
    [2, 20, 0.1, 0.6082530018748323],
    [3, 20, 0.0028, 2.4147702055059508e-5],
    [12, 14, 0.115, 3.8902497805665725e-10],
    [20, 20, 0.7, 7.979226629761e-4],
    [1, 1000, 1e-9, 9.999995005001662e-7],
  ])('at least %i of %i at %s', (k, n, p, expected) =>
    expect(binomialTail(k, n, p) / expected).toBeCloseTo(1, 9),
  );

  it('is certain of none, and of anything that always happens', () => {
    expect(binomialTail(0, 5, 0.2)).toBe(1);
    expect(binomialTail(5, 5, 1)).toBe(1);
    expect(binomialTail(1, 5, 0)).toBe(0);
  });

  it('is told as enough exactly where the whole of it is', () => {
    const told = new Set<boolean>();
    for (let k = 1; k <= 60; k++)
      for (const p of [0.003, 0.03, 0.3, 0.9])
        for (const enough of [1e-12, 1e-6, 1e-3, 0.5, 1]) {
          const whole = binomialTail(k, 60, p);
          const isEnough = binomialTail(k, 60, p, enough) >= enough;
          expect(isEnough).toBe(whole >= enough);
          told.add(isEnough);
        }
    expect(told.size).toBe(2);
  });

  it('refuses what is no probability or no count', () => {
    for (const [k, n, p] of [
      [1, 2, -0.1],
      [1, 2, 1.1],
      [3, 2, 0.5],
      [0.5, 2, 0.5],
      [-1, 2, 0.5],
    ])
      expect(() => binomialTail(k, n, p)).toThrow(RangeError);
  });
});
