import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { indents, lookOf, type RowHint } from './hint-looks';

const at = (line: number, character: number): RowHint => ({
  line,
  character,
  text: 'in place',
  kind: 'within',
});

describe('hints of one table', () => {
  it('begin in one column, whatever comes first', () => {
    const hints = [at(6, 40), at(5, 44), at(7, 42)];
    expect(indents(hints).map((blanks, i) => blanks + hints[i].character)).toEqual([44, 44, 44]);
  });

  it('do not reach over to another table', () => {
    expect(indents([at(5, 30), at(6, 36), at(12, 80), at(14, 78)])).toEqual([6, 0, 0, 2]);
  });

  it('are not pushed out of sight by rows that were read twice', () => {
    const hints = [at(5, 52), at(6, 50), at(7, 78), at(8, 78), at(9, 52)];
    expect(indents(hints)).toEqual([0, 2, 0, 0, 0]);
    expect(indents([at(5, 30), at(6, 130)])).toEqual([0, 0]);
  });

  it('have blanks before the first row that is far shorter, as many as it takes', () => {
    expect(indents([at(5, 20), at(6, 52), at(7, 52)])).toEqual([32, 0, 0]);
  });
});

test('what is past its limit differs by more than its colour', () => {
  const [outside, undecided, within] = ['outside', 'undecided', 'within'].map(lookOf);
  expect(new Set([outside, undecided, within].map(({ sign }) => sign)).size).toBe(3);
  expect(outside.weight).not.toBe(within.weight);
  expect(lookOf('nothing that is known')).toEqual(within);
});

/** WCAG 2.2, relative luminance and contrast ratio. */
const luminance = (colour: string): number => {
  const [r, g, b] = [1, 3, 5].map((start) => {
    const part = Number.parseInt(colour.slice(start, start + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: string, b: string): number => {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
};

/** `editor.background` of the themes that come with the editor (microsoft/vscode, extensions/theme-defaults/themes). */
const backgrounds = {
  dark: ['#1F1F1F', '#1E1E1E'],
  light: ['#FFFFFF'],
  highContrast: ['#000000'],
  highContrastLight: ['#FFFFFF'],
} as const;

test('the contrast is that of the standard: black on white 21, #767676 on white 4.54', () => {
  expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 6);
  expect(contrast('#767676', '#FFFFFF')).toBeCloseTo(4.54, 2);
});

describe.each(Object.entries(backgrounds))('in a %s theme', (kind, of) => {
  const { contributes } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  const colours: { id: string; defaults: Record<string, string> }[] = contributes.colors;
  it.each(['outside', 'undecided', 'within'])('a hint %s can be read, 4.5 to 1 at least', (verdict) => {
    const colour = colours.find(({ id }) => id === lookOf(verdict).colour)?.defaults[kind];
    if (colour === undefined) throw new Error(`no colour for ${verdict}`);
    for (const background of of) expect(contrast(colour, background)).toBeGreaterThanOrEqual(4.5);
  });
});
