import { describe, expect, it } from 'vitest';
import { segmentedLineFit } from './segmented-line';

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
