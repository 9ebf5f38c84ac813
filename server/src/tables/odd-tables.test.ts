import { describe, expect, it } from 'vitest';
import { meaning } from './testing/tabled';

/** Tables as they come. A case is the table, and what it means: rows of the language, or where it is not understood and why. */

interface Odd {
  readonly name: string;
  readonly table: string;
  readonly layout?: string;
  readonly means: readonly string[];
}

const tip = 'rail-tip-lower.L';

const understood: readonly Odd[] = [
  {
    name: 'repeats are rows of one point',
    table: `Name,X,Y,Z\n${tip},1,2,3\n${tip},1.1,2.1,3.1\n`,
    means: [`${tip} 1 2 3`, `${tip} 1.1 2.1 3.1`],
  },
  {
    name: 'a column of repeats decides the order',
    table: `Name;Repeat;X;Y;Z\n${tip};2;1,5;2;3\n${tip};1;4,5;5;6\n`,
    means: [`${tip} 4.5 5 6`, `${tip} 1.5 2 3`],
  },
  {
    name: 'title lines above the heading, totals and a mean below',
    table: `Pinefield Body Works\nW-2041;;;\n\nPunkt;X;Y;Z\n${tip};1,5;2,5;3,5\n;;;\nSumme;1,5;2,5;3,5\nMittelwert;1,5;2,5;3,5\n`,
    means: [`${tip} 1.5 2.5 3.5`, 'row 7 left out: a row of totals', 'row 8 left out: a row of totals'],
  },
  {
    name: 'a title over a group of rows',
    table: `Name,X,Y,Z\nLeft rail,,,\n${tip},1,2,3\n`,
    means: [`${tip} 1 2 3`, 'row 2 left out: no numbers: Left rail'],
  },
  {
    name: 'a known point that was not read',
    table: `Name,X,Y,Z\n${tip},,,\nlatch,1,2,3\n`,
    means: ['latch 1 2 3', `row 2 left out: no numbers: ${tip}`],
  },
  {
    name: 'the heading again on the next page',
    table: `Name,X,Y,Z\n${tip},1,2,3\nName,X,Y,Z\nlatch,4,5,6\n`,
    means: [`${tip} 1 2 3`, 'latch 4 5 6', 'row 3 left out: the heading again'],
  },
  {
    name: 'comments',
    table: `# bench arm 2\nName,X,Y,Z\n# left side\n${tip},1,2,3\n`,
    means: [`${tip} 1 2 3`, 'row 3 left out: a comment'],
  },
  {
    name: 'columns that say nothing of a point, in between and behind',
    table: `No.,Date,Name,X,Y,Z,Operator\n1,2026-03-05,${tip},1,2,3,jm\n`,
    means: [`${tip} 1 2 3`],
  },
  {
    name: 'rows counted in front, without a heading',
    table: `1;${tip};1,5;2;3\n2;latch;4;5;6\n3;strut-top R;7;8;9\n`,
    means: [`${tip} 1.5 2 3`, 'latch 4 5 6', 'strut-top.R 7 8 9'],
  },
  {
    name: 'a remark behind, with a delimiter in quotes',
    table: `${tip},1,2,3,"stud bent, took the root"\nlatch,4,5,6,\n`,
    means: [`${tip} 1 2 3 # stud bent, took the root`, 'latch 4 5 6'],
  },
  {
    name: 'a line break in a remark in quotes: later rows keep their lines',
    table: `Name,X,Y,Z,Remark\n${tip},1,2,3,"one\ntwo"\nlatch,4,x,6,\n`,
    means: [`${tip} 1 2 3 # one\ntwo`, 'row 4, column 3: x is not a number'],
  },
  {
    name: 'quotes within quotes',
    table: `Name,X,Y,Z,Remark\n${tip},1,2,3,"the ""good"" one"\n`,
    means: [`${tip} 1 2 3 # the "good" one`],
  },
  {
    name: 'everything in quotes',
    table: `"Name";"X";"Y";"Z"\n"${tip}";"1,5";"2,5";"3,5"\n`,
    means: [`${tip} 1.5 2.5 3.5`],
  },
  {
    name: 'blanks about cells, and a plus sign',
    table: `Name , X , Y , Z\n ${tip} , +1.5 , -2.5 ,  3\n`,
    means: [`${tip} 1.5 -2.5 3`],
  },
  {
    name: 'a minus sign out of a word processor',
    table: `Name\tX\tY\tZ\n${tip}\t1,5\t\u2212434,1\t3\n`,
    means: [`${tip} 1.5 -434.1 3`],
  },
  {
    name: 'a number with an exponent',
    table: `Name,X,Y,Z\n${tip},1.5e3,2,3\n`,
    means: [`${tip} 1.5e3 2 3`],
  },
  {
    name: 'a name of many words between blanks',
    table: `Point        X       Y       Z\nrail tip lower left  3380.9   435.5   856.8\n`,
    means: [`${tip} 3380.9 435.5 856.8`],
  },
  {
    name: 'single blanks, names of several words, no heading',
    table: 'rail tip lower L 3380.9 435.5 856.8\nlatch 1 2 3.5\n',
    means: [`${tip} 3380.9 435.5 856.8`, 'latch 1 2 3.5'],
  },
  {
    name: 'no line break at the end',
    table: `Name,X,Y,Z\n${tip},1,2,3`,
    means: [`${tip} 1 2 3`],
  },
  {
    name: 'a centre point in a column of sides',
    table: `Name,Side,X,Y,Z\nlatch,C,1,2,3\nlatch,,4,5,6\nrail-tip-lower,L,7,8,9\n`,
    means: ['latch 1 2 3', 'latch 4 5 6', `${tip} 7 8 9`],
  },
  {
    name: 'the side both in the name and in its column',
    table: `Name,Side,X,Y,Z\nrail-tip-lower.L,L,7,8,9\n`,
    means: [`${tip} 7 8 9`],
  },
  {
    name: 'words for out of reach',
    table: `Name,X,Y,Z\n${tip},unreachable,,\nlatch,blocked,blocked,blocked\n`,
    means: [`${tip} unreachable`, 'latch unreachable'],
  },
  {
    name: 'an apostrophe that keeps a spreadsheet from a formula',
    table: `Name,X,Y,Z,Remark\n'=cmd,1,2,3,\n${tip},1,2,3,'=1+1\n`,
    means: [`${tip} 1 2 3 # =1+1`, 'row 2: =cmd is no point of the body'],
  },
  {
    name: 'distances of an exported table',
    table: `id,to,reading-1,reading-2,reading-3\n${tip},strut-top.R,1369.5,,\n${tip},latch,unreachable,,\n`,
    means: [`${tip} strut-top.R 1369.5`, `${tip} latch unreachable`],
  },
  {
    name: 'columns by number, rows to skip, words and names of a layout',
    table: `Tuesday\nbench arm\n12;L;1,500;2;3\n12;R;-;-;-\nP9;;4;5;6\n`,
    layout:
      'columns: { point: 1, side: 2, length: 3, width: 4, height: 5 }\ndecimal: comma\nskip: 2\nunreachable: ["-"]\nnames: { "12 L": rail-tip-lower.L, "12": rail-tip-lower, P9: latch }',
    means: [`${tip} 1.500 2 3`, 'rail-tip-lower.R unreachable', 'latch 4 5 6'],
  },
  {
    name: 'columns by heading in another order',
    table: `Z;Y;X;Who;Label\n3;2;1;jm;${tip}\n`,
    layout: 'columns: { point: label, length: X, width: Y, height: Z, remark: Who }',
    means: [`${tip} 1 2 3 # jm`],
  },
];

const refused: readonly Odd[] = [
  {
    name: 'thousands marks of either kind',
    table: `Name;X;Y;Z\n${tip};1.234,5;2,5;3\nlatch;1 234,5;2;3\n`,
    means: [
      'row 2, column 2: 1.234,5 has a decimal comma and points between thousands: write 1234.5',
      'row 3, column 2: 1 234,5 is not a number',
    ],
  },
  {
    name: 'commas between thousands',
    table: `Name\tX\tY\tZ\n${tip}\t1,234.5\t2.5\t3\n`,
    means: ['row 2, column 2: 1,234.5 has commas between thousands: write 1234.5'],
  },
  {
    name: 'decimals or thousands, which nobody can tell',
    table: `Name;X;Y;Z\n${tip};1.250;430;92\nlatch;3.012;10;782\n`,
    means: [
      'whether its marks stand before decimals or between thousands cannot be told: say `decimal: point` or `decimal: comma` in a layout',
    ],
  },
  {
    name: 'both marks in one column',
    table: `Name;X;Y;Z\n${tip};1,5;2;3\nlatch;4.5;5;6\n`,
    means: [`${tip} 1.5 2 3`, 'row 3, column 2: 4.5 has a point, and this table has decimal commas'],
  },
  {
    name: 'a date where a number belongs',
    table: `Name,X,Y,Z\n${tip},1,2026-03-05,3\nlatch,1,2,3\n`,
    means: ['latch 1 2 3', 'row 2, column 3: 2026-03-05 is a date where a number belongs'],
  },
  {
    name: 'a unit behind a number',
    table: `Name,X,Y,Z\n${tip},1 mm,2,3\n`,
    means: ["row 2, column 2: 1 mm has a unit: lengths are plain numbers in the file's unit"],
  },
  {
    name: 'a letter for a digit',
    table: `Name,X,Y,Z\n${tip},1O5.5,2,3\n`,
    means: ['row 2, column 2: 1O5.5 has a letter among its digits: write 105.5'],
  },
  {
    name: 'a number that is missing',
    table: `Name,X,Y,Z\n${tip},1,,3\n`,
    means: ['row 2, column 3: a number is missing here'],
  },
  {
    name: 'a half-written last line',
    table: `Name,X,Y,Z\nlatch,1,2,3\n${tip},1,2`,
    means: ['latch 1 2 3', 'row 3, column 4: a number is missing here'],
  },
  {
    name: 'columns that swap half-way',
    table: `Name,X,Y,Z\n${tip},1,2,3\n4,latch,5,6\n`,
    means: [`${tip} 1 2 3`, 'row 3, column 2: latch is not a number'],
  },
  {
    name: 'a comma too many',
    table: `${tip},1,2,3\nlatch,4,5,6,7\n`,
    means: [`${tip} 1 2 3`, 'row 2, column 5: a number more than the other rows have'],
  },
  {
    name: 'two tables in one file',
    table: `Name,X,Y,Z\n${tip},1,2,3\n\nName,Length,Width,Height\nlatch,4,5,6\n`,
    means: [`${tip} 1 2 3`, 'latch 4 5 6', 'row 4: a second heading: two tables in one file'],
  },
  {
    name: 'the same heading twice',
    table: `Name,X,X,Y,Z\n${tip},1,1,2,3\n`,
    means: ['row 1, column 3: two columns may hold the first: say in a layout which one counts'],
  },
  {
    name: 'X, Y, Z beside length, width, height',
    table: `Name,X,Y,Z,Length,Width,Height\n${tip},1,2,3,4,5,6\n`,
    means: [
      'row 1: its headings name both X, Y, Z and length, width, height: say in a layout which ones count',
    ],
  },
  {
    name: 'centimetres',
    table: `Name,X [cm],Y [cm],Z [cm]\n${tip},1,2,3\n`,
    means: ['row 1, column 2: X [cm]: lengths are read in mm or inch'],
  },
  {
    name: 'two units in one table',
    table: `Name,X (mm),Y (mm),Z (inch)\n${tip},1,2,3\n`,
    means: ['row 1: its columns are in different units'],
  },
  {
    name: 'six columns of numbers without a heading',
    table: `${tip},1,2,3,4,5,6.5\n`,
    means: [
      'row 1: without headings a table has a name and three numbers in each row; this one has 6 columns of numbers: say in a layout which ones count',
    ],
  },
  {
    name: 'an unknown name, with those that are near',
    table: `Name,X,Y,Z\nrail-tip-lowr.L,1,2,3\nP77,1,2,3\n`,
    means: [
      'row 2: rail-tip-lowr.L is no point of the body; is it rail-tip-lower.L?',
      'row 3: P77 is no point of the body',
    ],
  },
  {
    name: 'a name without its side',
    table: 'Name,X,Y,Z\nrail-tip-lower,1,2,3\n',
    means: ['row 2: rail-tip-lower is on both sides, and the row says neither'],
  },
  {
    name: 'a name that says the other side than its column',
    table: 'Name,Side,X,Y,Z\nrail-tip-lower.L,R,1,2,3\n',
    means: ['row 2: rail-tip-lower.L R is no point of the body; is it rail-tip-lower.R?'],
  },
  {
    name: 'a column of sides with something else in it',
    table: 'Name,Side,X,Y,Z\nrail-tip-lower,up,1,2,3\n',
    means: ['row 2, column 2: up is no side: L, R, left, right or nothing is'],
  },
  {
    name: 'a row without a name',
    table: `Name,X,Y,Z\n,1,2,3\n`,
    means: ['row 2, column 1: the name of the point is missing'],
  },
  {
    name: 'a dash that no layout explains',
    table: `Name,X,Y,Z\n${tip},-,-,-\nlatch,1,2,3\n`,
    means: ['latch 1 2 3', 'row 2, column 2: - is not a number'],
  },
  {
    name: 'a quotation mark that nothing closes',
    table: `Name,X,Y,Z\n${tip},1,2,"3\nlatch,4,5,6\n`,
    means: ['row 2: a quotation mark is opened in this row and not closed as it should be'],
  },
  { name: 'an empty table', table: '\n\n', means: ['the table is empty'] },
  { name: 'a heading alone', table: 'Name,X,Y,Z\n', means: ['the table has no row with a point'] },
  {
    name: 'a letter',
    table: 'Dear all,\nthe car is ready, please come.\n',
    means: ['no row holds a name and three numbers: is it a table of measurements?'],
  },
  {
    name: 'a heading that the layout names and the table lacks',
    table: `Name,X,Y,Z\n${tip},1,2,3\n`,
    layout: 'columns: { point: Name, length: X, width: Y, height: H }',
    means: ['row 1: no column is headed H; there are Name, X, Y, Z'],
  },
  {
    name: 'a formula in a cell is text that is no number',
    table: `Name,X,Y,Z\n${tip},=1+1,2,3\n`,
    means: ['row 2, column 2: =1+1 is not a number'],
  },
  {
    name: 'a number past every car',
    table: `Name,X,Y,Z\n${tip},123456789,2,3\n`,
    means: ['row 2, column 2: 123456789 is too large a number'],
  },
];

const files: readonly { name: string; bytes: Uint8Array; means: string }[] = [
  {
    name: 'a picture named .csv',
    bytes: Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]),
    means: 'it is no table: it holds no text',
  },
  {
    name: 'a spreadsheet of the old kind',
    bytes: Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1]),
    means: 'it is a spreadsheet of the old kind, or one with a password: save it as .xlsx or as CSV',
  },
  { name: 'nothing', bytes: new Uint8Array(0), means: 'the file is empty' },
  {
    name: 'more than 50 MB',
    bytes: new Uint8Array(50 * 1024 * 1024 + 1).fill(0x20),
    means: 'the table is larger than 50 MB',
  },
];

describe('tables that are understood', () => {
  it.each(understood)('$name', ({ table, layout, means }) => {
    expect(meaning(table, layout ?? null)).toEqual(means);
  });
});

describe('tables that are not, and why', () => {
  it.each(refused)('$name', ({ table, layout, means }) => {
    expect(meaning(table, layout ?? null)).toEqual(means);
  });
  it.each(files)('$name', ({ bytes, means }) => {
    expect(meaning(bytes)).toEqual([means]);
  });
});
