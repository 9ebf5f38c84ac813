import { describe, expect, it } from 'vitest';
import { moveBack } from './certainty-needed';
import { verdictOf } from './verdict';

describe('how far something must come back', () => {
  it('is |d| − T at the least, and |d| − T + 1.64 u for certain, each way', () => {
    // 1.6448536 is the 95 % point of the normal distribution, by any table
    const high = moveBack({ deviationMm: 3.4, uncertaintyMm: 0.5, limits: [-3, 3] })!;
    expect(high.leastMm).toBeCloseTo(-0.4, 9);
    expect(high.certainMm).toBeCloseTo(-(0.4 + 1.6448536 * 0.5), 5);
    const low = moveBack({ deviationMm: -5.2, uncertaintyMm: 0.5, limits: [-5, 3] })!;
    expect(low.leastMm).toBeCloseTo(0.2, 9);
    expect(low.certainMm).toBeCloseTo(0.2 + 1.6448536 * 0.5, 5);
  });

  it('is nothing at the least from inside', () => {
    const inside = moveBack({ deviationMm: 2.8, uncertaintyMm: 0.5, limits: [-3, 3] })!;
    expect(inside.leastMm).toBe(0);
    expect(inside.certainMm).toBeCloseTo(-(1.6448536 * 0.5 - 0.2), 5);
  });

  it('ends where the verdict is within, also where both limits matter', () => {
    for (const uncertaintyMm of [0.2, 1, 1.4, 1.52])
      for (const deviationMm of [-4, -2.9, 2.9, 6]) {
        const { certainMm } = moveBack({ deviationMm, uncertaintyMm, limits: [-3, 3] })!;
        const after = (mm: number) =>
          verdictOf([{ deviationMm: deviationMm + mm, uncertaintyMm, limits: [-3, 3] }]);
        expect(after(certainMm)).toBe('within');
        expect(after(certainMm * 0.99)).not.toBe('within');
      }
  });

  it('is not known where the place is too uncertain to be within anywhere, or not known itself', () => {
    expect(moveBack({ deviationMm: 4, uncertaintyMm: 1.6, limits: [-3, 3] })).toBeNull();
    expect(moveBack({ deviationMm: null, uncertaintyMm: null, limits: [-3, 3] })).toBeNull();
  });
});
