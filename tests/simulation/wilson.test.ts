import { describe, expect, it } from 'vitest';
import { wilsonInterval } from './wilson';

describe('wilsonInterval', () => {
  // Newcombe 1998, Statistics in Medicine 17, table I, method 3; values from memory
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %i hits of %i', (hits, of, low, high) => {
    const found = wilsonInterval({ hits, of });
    expect(found[0]).toBeCloseTo(low, 4);
    expect(found[1]).toBeCloseTo(high, 4);
  });

  it('knows nothing of no case, and is the same from both sides', () => {
    expect(wilsonInterval({ hits: 0, of: 0 })).toEqual([0, 1]);
    const [low, high] = wilsonInterval({ hits: 45, of: 50 });
    const [otherLow, otherHigh] = wilsonInterval({ hits: 5, of: 50 });
    expect(low).toBeCloseTo(1 - otherHigh, 12);
    expect(high).toBeCloseTo(1 - otherLow, 12);
  });
});
