import { describe, expect, it } from 'vitest';
import { layoutFor, widthOf } from './layout';

const letter = 8.43;
const [text, drawing] = [0, 1];
const sizeOf = (widthPx: number | null, group: number) =>
  layoutFor(widthPx, letter).groups[group].size ?? Number.NaN;

describe('text and drawing', () => {
  it('share a wide window a little in favour of the text', () => {
    expect(layoutFor(1800, letter).orientation).toBe(0);
    expect([sizeOf(1800, text), sizeOf(1800, drawing)]).toEqual([0.55, expect.closeTo(0.45, 9)]);
  });

  it('leave a row and its hint whole in a middling one', () => {
    expect(layoutFor(1250, letter).orientation).toBe(0);
    expect(sizeOf(1250, text) * 1250).toBeCloseTo(97 * letter + 86, 6);
    expect(sizeOf(1250, drawing) * 1250).toBeGreaterThanOrEqual(340);
  });

  it('stand below one another where no row would be whole', () => {
    expect(layoutFor(852, letter).orientation).toBe(1);
  });

  it('go by the size of the letters', () => {
    expect(layoutFor(1250, 1.4 * letter).orientation).toBe(1);
    expect(layoutFor(852, 0.5 * letter).orientation).toBe(0);
  });

  it('stand beside each other where the width is not known', () => {
    expect(layoutFor(null, letter).orientation).toBe(0);
  });
});

describe('the width of all groups', () => {
  it('is their sum, also where a row stands in a column', () => {
    expect(widthOf({ orientation: 0, groups: [{ size: 700 }, { size: 550 }] })).toBe(1250);
    expect(widthOf({ orientation: 1, groups: [{ size: 800, groups: [{ size: 625 }, { size: 625 }] }] })).toBe(
      1250,
    );
  });

  it.each([
    { orientation: 1, groups: [{ size: 400 }, { size: 400 }] },
    { orientation: 0, groups: [{}, {}] },
    { orientation: 0, groups: [] },
    undefined,
    {},
  ])('is not known from %j', (layout) => {
    expect(widthOf(layout)).toBeNull();
  });
});
