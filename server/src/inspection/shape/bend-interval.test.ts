import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { number } from '../../geometry/arbitraries';
import { bendStartInterval } from './bend-interval';

describe('the 95 % interval of the start of a bend', () => {
  it('reaches half a hinge towards the base, however well the corner is known, and holds the corner', () => {
    const [from, to] = bendStartInterval(2300, 0);
    // 95 % of 0 to 40 mm before it, by hand: 1 to 39
    expect(from).toBeCloseTo(2300 - 39, 2);
    expect(to).toBe(2300);
  });

  it('is about that of the readings, half a half hinge nearer to the base, where they leave much in doubt', () => {
    const [from, to] = bendStartInterval(2300, 200);
    // u of the rectangle is 40/√12: the sum is as good as normal
    const half = 1.96 * Math.hypot(200, 40 / Math.sqrt(12));
    expect(from).toBeCloseTo(2280 - half, 0);
    expect(to).toBeCloseTo(2280 + half, 0);
  });

  it('is never less cautious than h − 2u, and widens with u', () => {
    fc.assert(
      fc.property(number(-3000, 3000), number(0, 900), number(0, 20), (h, u, more) => {
        const [from, to] = bendStartInterval(h, u);
        expect(from).toBeLessThanOrEqual(h - 2 * u);
        expect(from).toBeLessThanOrEqual(h - 38);
        expect(to).toBeGreaterThanOrEqual(h);
        const [nearer, farther] = bendStartInterval(h, u + more);
        expect(nearer).toBeLessThanOrEqual(from + 1e-6);
        expect(farther).toBeGreaterThanOrEqual(to - 1e-6);
      }),
    );
  });
});
