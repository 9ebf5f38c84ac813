import type { Side } from '../model/names';
import type { ColumnMeaning } from './headings';
import { headingOf } from './headings';
import { looksLikeNumber, numberCell } from './number-cells';
import { sideInCell } from './sides';
import type { TableFault, TableGrid, TableRow } from './table-grid';
import { numberColumns, type TableLayout } from './table-layout';

/** Three numbers in the digits of the language, in the order of the table. */
export type Digits = readonly [string, string, string];

/** A row that holds a point or a distance, its name as written. */
export interface ReadRow {
  readonly row: number;
  readonly sheet?: string;
  readonly name: string;
  /** Of a column of its own; undefined where there is none. */
  readonly side: Side | null | undefined;
  readonly value:
    | { readonly kind: 'numbers'; readonly digits: Digits }
    | { readonly kind: 'distance'; readonly to: string; readonly digits: string }
    | { readonly kind: 'unreachable'; readonly to: string | null };
  readonly remark: string | null;
  readonly stage: string | null;
  /** What else an exported table says: `part`, `base` and the like, by column. */
  readonly more: Readonly<Partial<Record<ColumnMeaning, string>>>;
  readonly cells: readonly string[];
}

/** A row that was not understood, and why; columns are counted from 1. */
export interface RefusedRow extends TableFault {
  readonly row: number;
  readonly cells: readonly string[];
  /** The point that lies there, where its name says none. */
  readonly byPlace?: string;
}

export interface TableContent {
  readonly rows: readonly ReadRow[];
  readonly refused: readonly RefusedRow[];
  /** Rows that hold no point, with the reason; blank ones are not told. */
  readonly leftOut: readonly { readonly row: number; readonly why: string }[];
}

const totals =
  /^(grand )?(total|totals|sum|mean|average|avg|min|minimum|max|maximum|std\.?( dev\.?)?|rms|count|summe|mittel|mittelwert|durchschnitt|moyenne|somme|media|promedio|suma|somma|gemiddelde|totaal|medel)\s*:?$/i;

/** Every row below the heading: what it holds, or why it is not understood. */
export function tableContent(grid: TableGrid, layout: TableLayout): TableContent {
  const rows: ReadRow[] = [];
  const refused: RefusedRow[] = [];
  const leftOut: { row: number; why: string }[] = [];
  const heading = grid.rows[layout.heading];
  const by = rowReader(layout);
  for (const each of grid.rows.slice(layout.from)) {
    const { row, cells, sheet } = each;
    if (isBlank(cells)) continue;
    const why = whyLeftOut(each, by, heading);
    if (why !== null) {
      leftOut.push({ row, why });
      continue;
    }
    const read = readRow(each, by);
    if ('message' in read) refused.push({ ...read, row, cells, sheet });
    else rows.push(read);
  }
  return { rows: inOrderOfRepeats(rows), refused, leftOut };
}

/** A layout with what is asked of every row worked out once: a table may have a hundred thousand. */
interface RowReader {
  readonly layout: TableLayout;
  /** The columns of the three numbers. */
  readonly three: readonly number[];
  /** In lower case. */
  readonly unreachable: ReadonlySet<string>;
  readonly more: readonly ColumnMeaning[];
}

const furtherColumns: readonly ColumnMeaning[] = [
  'part',
  'base',
  'fixing',
  'uncertainty',
  'tolerance',
  'level',
  'repeat',
];

const rowReader = (layout: TableLayout): RowReader => ({
  layout,
  three: numberColumns(layout.columns),
  unreachable: new Set(layout.unreachable.map((text) => text.trim().toLowerCase())),
  more: furtherColumns.filter((meaning) => layout.columns[meaning] !== undefined),
});

const nothingMore: ReadRow['more'] = {};

const isBlank = (cells: readonly string[]): boolean => cells.every((cell) => cell.trim() === '');

/** Rows that say nothing of a point; null where a row may. */
function whyLeftOut(
  { cells }: TableRow,
  { layout: { columns, heading: at }, three }: RowReader,
  heading: TableRow | undefined,
): string | null {
  const first = cells.find((cell) => cell.trim() !== '')?.trim() ?? '';
  if (/^(#|\/\/)/.test(first)) return 'a comment';
  if (at >= 0 && heading !== undefined && sameCells(cells, heading.cells)) return 'the heading again';
  const name = cells[columns.point ?? 0]?.trim() ?? '';
  if (totals.test(name) || (name === '' && totals.test(first))) return 'a row of totals';
  const isFilled = (column: number): boolean => (cells[column] ?? '').trim() !== '';
  if (three.some(isFilled) || isFilled(columns.distance ?? -1)) return null;
  return !cells.some((cell) => /\d/.test(cell) && cell.trim() !== name)
    ? `no numbers: ${name === '' ? first : name}`
    : null;
}

const sameCells = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((cell, i) => cell.trim() === b[i].trim());

type Refusal = Pick<TableFault, 'column' | 'message'>;
const refusal = (column: number | null, message: string): Refusal => ({
  column: column === null ? null : column + 1,
  message,
});

function readRow({ row, cells, sheet }: TableRow, by: RowReader): ReadRow | Refusal {
  const { layout } = by;
  const { columns } = layout;
  if (isSecondHeading(cells)) return refusal(null, 'a second heading: two tables in one file');
  const at = (meaning: ColumnMeaning): string => unguarded(cells[columns[meaning] ?? -1] ?? '');
  const name = at('point');
  if (name === '') return refusal(columns.point ?? 0, 'the name of the point is missing');
  const side = columns.side === undefined ? undefined : sideInCell(at('side'));
  if (columns.side !== undefined && side === undefined)
    return refusal(columns.side, `${at('side')} is no side: L, R, left, right or nothing is`);
  const value = measured(cells, by);
  if ('message' in value) return value;
  const stray = strayCell(cells, layout);
  if (stray !== null) return stray;
  return {
    row,
    sheet,
    name,
    side,
    value,
    remark: at('remark') || null,
    stage: stageOf(at('entry'), at('stage')),
    more:
      by.more.length === 0
        ? nothingMore
        : Object.fromEntries(by.more.map((meaning) => [meaning, at(meaning)])),
    cells,
  };
}

/** Entries of one name are told apart by their number. */
const stageOf = (entry: string, stage: string): string | null =>
  entry === '' && stage === '' ? null : `${entry}\n${stage}`;

/** The name of the measure that rows of one stage belong to; null where the table names none. */
export const stageName = (stage: string | null): string | null => stage?.split('\n')[1] || null;

/** A text that a spreadsheet would take for a formula is written with an apostrophe before it (`written-cells.ts`). */
const unguarded = (cell: string): string => cell.trim().replace(/^'(?=[=+\-@\t\r'])/, '');

// a row of numbers is none: most rows are told at once
const isSecondHeading = (cells: readonly string[]): boolean =>
  !cells.some(looksLikeNumber) &&
  cells.filter((cell) =>
    ['first', 'second', 'third', 'length', 'width', 'height'].includes(headingOf(cell).meaning ?? ''),
  ).length >= 3;

function measured(
  cells: readonly string[],
  { layout, three: at, unreachable }: RowReader,
): ReadRow['value'] | Refusal {
  const { columns } = layout;
  const says = (cell: string): boolean => unreachable.has(cell.trim().toLowerCase());
  const to = columns.to === undefined ? '' : unguarded(cells[columns.to] ?? '');
  if (to !== '') {
    const column = columns.distance ?? columns.first ?? 0;
    const cell = cells[column] ?? '';
    if (says(cell)) return { kind: 'unreachable', to };
    const distance = numberCell(cell, layout.decimal);
    return 'message' in distance
      ? refusal(column, distance.message)
      : { kind: 'distance', to, digits: distance.digits };
  }
  const written = at.map((column) => (cells[column] ?? '').trim());
  const filled = written.filter((cell) => cell !== '');
  if (filled.length > 0 && filled.every(says)) return { kind: 'unreachable', to: null };
  const digits: string[] = [];
  for (const [i, cell] of written.entries()) {
    const number = numberCell(cell, layout.decimal);
    if ('message' in number) return refusal(at[i], number.message);
    digits.push(number.digits);
  }
  const [a, b, c] = digits;
  return { kind: 'numbers', digits: [a, b, c] };
}

/** Something behind the last column that is known: a comma too many has moved the numbers. */
function strayCell(cells: readonly string[], { columns, heading }: TableLayout): Refusal | null {
  if (heading >= 0) return null;
  const last = Math.max(...Object.values(columns));
  const stray = cells.findIndex((cell, column) => column > last && /^\s*[-+]?\d/.test(cell));
  return stray < 0 ? null : refusal(stray, 'a number more than the other rows have');
}

/** Rows with a column of repeats come in its order, at the places of the rows of their point. */
function inOrderOfRepeats(rows: readonly ReadRow[]): readonly ReadRow[] {
  if (!rows.some(({ more }) => more.repeat)) return rows;
  const byPoint = new Map<string, ReadRow[]>();
  for (const row of rows) {
    const same = byPoint.get(pointKey(row));
    if (same === undefined) byPoint.set(pointKey(row), [row]);
    else same.push(row);
  }
  const next = new Map(
    [...byPoint].map(([key, each]) => [
      key,
      [...each].sort((a, b) => Number(a.more.repeat) - Number(b.more.repeat) || 0).values(),
    ]),
  );
  return rows.map((row) => next.get(pointKey(row))?.next().value ?? row);
}

const pointKey = ({ name, side, stage, value }: ReadRow): string =>
  JSON.stringify([name, side, stage, value.kind === 'numbers' ? null : value.to]);
