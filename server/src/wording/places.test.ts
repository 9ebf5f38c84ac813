import { describe, expect, it } from 'vitest';
import type { Way } from '../model/sheet-axes';
import { betweenText, doubtfulPlaceText, placeFigure, placeText, rangeText } from './places';

const forward: Way = { along: 0, side: null, sheetSign: 1 };
const rearward: Way = { along: 0, side: null, sheetSign: -1 };

describe('a place', () => {
  it('goes without a word where the sheet counts as usual', () => {
    expect(placeText(-300.4, forward, 'mm')).toBe('-300 mm');
    expect(betweenText([-300, 20], forward, 'mm')).toBe('between -300 and 20 mm');
    expect(placeText(-450, { along: 1, side: 'R', sheetSign: -1 }, 'mm')).toBe('450 mm');
  });

  it('is a number of the sheet, with the side of zero on which it really is', () => {
    expect(placeText(-2450, rearward, 'mm')).toBe('2450 mm (rearward of zero)');
    expect(placeText(300, rearward, 'mm')).toBe('-300 mm (forward of zero)');
    expect(placeText(0, rearward, 'mm')).toBe('0 mm');
    expect(placeText(-254, rearward, 'inch')).toBe('10.0 in (rearward of zero)');
    expect(placeText(-80, { along: 2, side: null, sheetSign: -1 }, 'mm')).toBe('80 mm (below zero)');
    expect(placeText(-450, { along: 1, side: 'R', sheetSign: 1 }, 'mm')).toBe('-450 mm (right of zero)');
    expect(placeFigure(-2450.2, rearward, 'mm')).toBe('2450');
  });

  it('has its lower number first, and says the word once where it holds for all', () => {
    expect(rangeText([-3012, -1760], rearward, 'mm')).toBe('1760–3012 mm (rearward of zero)');
    expect(betweenText([-40, 50], rearward, 'mm')).toBe(
      'between -50 mm (forward of zero) and 40 mm (rearward of zero)',
    );
    expect(doubtfulPlaceText(-910, [-963, -897], rearward, 'mm')).toBe(
      '910 mm (rearward of zero; between 897 and 963 mm at 95 %)',
    );
  });
});
