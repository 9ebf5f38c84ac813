import { describe, expect, it } from 'vitest';
import { meaning } from './testing/tabled';

/** The same three rows in many writings: each must mean the same. */

const rows = [
  { stem: 'rail tip lower', side: 'L', numbers: [3380.9, 435.5, 856.8] },
  { stem: 'rail tip lower', side: 'R', numbers: [3437.5, -434.1, 843.5] },
  { stem: 'strut top', side: 'L', numbers: [2624, 539.6, 1464.25] },
] as const;

const means = [
  'rail-tip-lower.L 3380.9 435.5 856.8',
  'rail-tip-lower.R 3437.5 -434.1 843.5',
  'strut-top.L 2624 539.6 1464.25',
];

const words = { L: { word: 'left', short: 'L' }, R: { word: 'right', short: 'R' } } as const;
type Row = (typeof rows)[number];

/** Ways to write name and side in one cell. */
const namings: Record<string, (row: Row) => string> = {
  id: ({ stem, side }) => `${stem.replaceAll(' ', '-')}.${side}`,
  'small letters': ({ stem, side }) => `${stem.replaceAll(' ', '-')}.${side.toLowerCase()}`,
  'blank and letter': ({ stem, side }) => `${stem} ${side}`,
  underscores: ({ stem, side }) => `${stem.replaceAll(' ', '_')}_${side}`,
  'word behind': ({ stem, side }) => `${stem.replaceAll(' ', '-')} ${words[side].word}`,
  'word before': ({ stem, side }) => `${words[side].word.toUpperCase()} ${stem}`,
  'letter before': ({ stem, side }) => `${side}-${stem.replaceAll(' ', '-')}`,
  'in brackets': ({ stem, side }) => `${stem} (${words[side].word})`,
  German: ({ stem, side }) => `${stem} ${side === 'L' ? 'links' : 'rechts'}`,
  French: ({ stem, side }) => `${stem} ${side === 'L' ? 'gauche' : 'droite'}`,
  'LH and RH': ({ stem, side }) => `${stem} ${side}H`,
};

const delimiters = { commas: ',', semicolons: ';', tabs: '\t', bars: '|', blanks: '   ' };
const decimals = { point: '.', comma: ',' };
const breaks = { LF: '\n', CRLF: '\r\n', CR: '\r' };

const quotedFor = (delimiter: string) => (cell: string) =>
  cell.includes(delimiter) && delimiter !== '   ' ? `"${cell}"` : cell;

const numbersOf = (row: Row, mark: string) => row.numbers.map((each) => String(each).replace('.', mark));

const written = (cells: readonly (readonly string[])[], delimiter: string, lineBreak = '\n') =>
  cells.map((line) => line.map(quotedFor(delimiter)).join(delimiter)).join(lineBreak) + lineBreak;

describe('delimiters, decimals, line breaks, headings', () => {
  for (const [delimiterName, delimiter] of Object.entries(delimiters))
    for (const [markName, mark] of Object.entries(decimals))
      for (const [breakName, lineBreak] of Object.entries(breaks))
        for (const heading of [null, ['Name', 'X', 'Y', 'Z']])
          it(`${delimiterName}, decimal ${markName}, ${breakName}, ${heading === null ? 'no heading' : 'a heading'}`, () => {
            const cells = rows.map((row) => [namings.id(row), ...numbersOf(row, mark)]);
            const table = written(heading === null ? cells : [heading, ...cells], delimiter, lineBreak);
            expect(meaning(table)).toEqual(means);
          });
});

describe('ways of writing sides', () => {
  for (const [name, naming] of Object.entries(namings))
    for (const [delimiterName, delimiter] of Object.entries(delimiters))
      it(`${name}, parted by ${delimiterName}`, () => {
        const table = written(
          rows.map((row) => [naming(row), ...numbersOf(row, '.')]),
          delimiter,
        );
        expect(meaning(table)).toEqual(means);
      });

  for (const [left, right] of [
    ['L', 'R'],
    ['left', 'right'],
    ['Links', 'Rechts'],
    ['gauche', 'droite'],
    ['izquierda', 'derecha'],
    ['sx', 'dx'],
    ['LH', 'RH'],
    ['vänster', 'höger'],
  ])
    it(`in a column of its own: ${left}, ${right}`, () => {
      const cells = rows.map((row) => [row.stem, row.side === 'L' ? left : right, ...numbersOf(row, ',')]);
      expect(meaning(written(cells, ';'))).toEqual(means);
      expect(meaning(written([['Point', 'Side', 'X', 'Y', 'Z'], ...cells], '\t'))).toEqual(means);
    });
});

describe('headings in several languages', () => {
  for (const heading of [
    ['Point', 'Length', 'Width', 'Height'],
    ['Punkt', 'Länge [mm]', 'Breite [mm]', 'Höhe [mm]'],
    ['Point de mesure', 'Longueur', 'Largeur', 'Hauteur'],
    ['Punto', 'Longitud (mm)', 'Anchura (mm)', 'Altura (mm)'],
    ['Punto', 'Lunghezza', 'Larghezza', 'Altezza'],
    ['Meetpunt', 'Lengte', 'Breedte', 'Hoogte'],
    ['Mätpunkt', 'Längd', 'Bredd', 'Höjd'],
    ['ID', 'X (mm)', 'Y (mm)', 'Z (mm)'],
    ['', 'x', 'y', 'z'],
    ['Name', 'X in mm', 'Y in mm', 'Z in mm'],
  ])
    it(heading.join(', '), () => {
      const cells = rows.map((row) => [namings.id(row), ...numbersOf(row, ',')]);
      expect(meaning(written([heading, ...cells], ';'))).toEqual(means);
    });
});

describe('encodings', () => {
  const text = written(
    [
      ['Name', 'X', 'Y', 'Z', 'Bemerkung'],
      ['strut-top.L', '1,5', '2,5', '3,5', 'Bolzen schräg'],
    ],
    ';',
  );
  const meant = ['strut-top.L 1.5 2.5 3.5 # Bolzen schräg'];
  const utf16 = (bigEndian: boolean, mark: boolean) => {
    const codes = [...(mark ? '\uFEFF' : ''), ...text].map((each) => each.charCodeAt(0));
    return Uint8Array.from(
      codes.flatMap((code) => (bigEndian ? [code >> 8, code & 255] : [code & 255, code >> 8])),
    );
  };
  const encoded: Record<string, Uint8Array> = {
    'UTF-8': new TextEncoder().encode(text),
    'UTF-8 with a mark': new TextEncoder().encode(`\uFEFF${text}`),
    'UTF-16, little end first': utf16(false, true),
    'UTF-16, big end first': utf16(true, true),
    'UTF-16 without a mark': utf16(false, false),
    'Windows-1252': Uint8Array.from([...text].map((each) => each.charCodeAt(0))),
  };
  for (const [name, bytes] of Object.entries(encoded)) it(name, () => expect(meaning(bytes)).toEqual(meant));
});
