import type { TableLayoutEntry } from '@framewright/schemas';
import type { SheetAxes } from '../model/sheet-axes';
import type { Unit } from '../model/units';
import { type ColumnMeaning, headingOf } from './headings';
import { type DecimalMark, decimalOf, looksLikeNumber } from './number-cells';
import { sideInCell } from './sides';
import type { TableFault, TableGrid, TableRow } from './table-grid';

/** How a table is read: columns are counted from 0 here, and from 1 wherever a person is told of them. */
export interface TableLayout {
  readonly columns: Readonly<Partial<Record<ColumnMeaning, number>>>;
  readonly decimal: DecimalMark;
  /** Null: the unit of the file that it goes into. */
  readonly unit: Unit | null;
  /** Null: as the file counts that it goes into. */
  readonly axes: SheetAxes | null;
  /** Position in the rows of the heading; −1 where there is none. */
  readonly heading: number;
  /** Position of the first row that may hold a point. */
  readonly from: number;
  readonly unreachable: readonly string[];
  readonly names: ReadonlyMap<string, string>;
  /** The settings do not say so: it was found in headings and numbers. */
  readonly isGuessed: boolean;
}

const usuallyUnreachable = [
  'unreachable',
  'not reachable',
  'blocked',
  'nicht erreichbar',
  'inaccessible',
  'inaccesible',
  'onbereikbaar',
];
/** The heading of a table stands in its first rows. */
const mostAbove = 50;

const fault = (message: string, row: number | null = null): TableFault => ({ row, column: null, message });

/** The layout that the settings describe, found in a table. */
export function layoutIn(grid: TableGrid, entry: TableLayoutEntry): TableLayout | TableFault {
  const { columns: wanted, skip = 0 } = entry;
  const named = Object.values(wanted).some((column) => numberOf(column) === null);
  const heading = named
    ? grid.rows.findIndex(({ cells }, i) => i >= skip && cells.join('').trim() !== '')
    : -1;
  if (named && heading < 0) return fault('the table has no heading where the layout looks for it');
  const cells = (grid.rows[heading]?.cells ?? []).map((cell) => cell.trim());
  const columns: Partial<Record<ColumnMeaning, number>> = {};
  for (const [meaning, column] of Object.entries(wanted)) {
    const at = numberOf(column) ?? headingAt(cells, String(column));
    if (typeof at === 'string') return fault(at, grid.rows[heading]?.row ?? null);
    columns[meaningOf(meaning, entry)] = at;
  }
  const from = named ? heading + 1 : skip;
  const decimal = entry.decimal ?? decimalIn(grid.rows.slice(from), columns);
  if (decimal === null) return fault(undecided);
  return {
    columns,
    decimal,
    unit: entry.units ?? null,
    axes: entry.axes ?? null,
    heading,
    from,
    unreachable: entry.unreachable ?? usuallyUnreachable,
    names: new Map(Object.entries(entry.names ?? {})),
    isGuessed: false,
  };
}

const undecided =
  'whether its marks stand before decimals or between thousands cannot be told: say `decimal: point` or `decimal: comma` in a layout';

/** Without `axes` the three numbers are those of the file that they go into, in its order. */
function meaningOf(column: string, { axes }: TableLayoutEntry): ColumnMeaning {
  switch (column) {
    case 'length':
      return axes === undefined ? 'first' : 'length';
    case 'width':
      return axes === undefined ? 'second' : 'width';
    case 'height':
      return axes === undefined ? 'third' : 'height';
    case 'side':
    case 'remark':
    case 'repeat':
    case 'stage':
      return column;
    default:
      return 'point';
  }
}

/** A column that is named by its number, counted from 0; settings have numbers where a text may stand as text. */
const numberOf = (column: string | number): number | null =>
  /^\d+$/.test(String(column)) ? Number(column) - 1 : null;

function headingAt(cells: readonly string[], wanted: string): number | string {
  const plain = wanted.trim().toLowerCase();
  const found = cells.flatMap((cell, i) => (cell.toLowerCase() === plain ? [i] : []));
  if (found.length === 1) return found[0];
  return found.length === 0
    ? `no column is headed ${wanted}; there are ${cells.filter((cell) => cell !== '').join(', ')}`
    : `${found.length} columns are headed ${wanted}: name them by number in the layout`;
}

/** A layout from headings and numbers; where they leave a doubt, which one. */
export function guessedLayout(grid: TableGrid): TableLayout | TableFault {
  const heading = grid.rows.findIndex(({ cells }, i) => i < mostAbove && isHeading(cells));
  const found = heading < 0 ? columnsByNumbers(grid) : columnsByHeading(grid.rows[heading]);
  if ('message' in found) return found;
  const from = heading < 0 ? firstData(grid) : heading + 1;
  const decimal = decimalIn(grid.rows.slice(from), found.columns);
  if (decimal === null) return fault(undecided);
  return {
    ...found,
    decimal,
    axes: null,
    heading,
    from,
    unreachable: usuallyUnreachable,
    names: new Map(),
    isGuessed: true,
  };
}

/** Three columns of numbers are named in it. */
const isHeading = (cells: readonly string[]): boolean => {
  const found = new Set(cells.map((cell) => headingOf(cell).meaning));
  return (
    (['first', 'second', 'third'] as const).every((meaning) => found.has(meaning)) ||
    (['length', 'width', 'height'] as const).every((meaning) => found.has(meaning))
  );
};

type Columns = Pick<TableLayout, 'columns' | 'unit'>;

function columnsByHeading({ row, cells }: TableRow): Columns | TableFault {
  const columns: Partial<Record<ColumnMeaning, number>> = {};
  const units = new Set<Unit>();
  for (const [column, cell] of cells.entries()) {
    const { meaning, unit } = headingOf(cell);
    if (meaning === null) continue;
    if (unit === 'other')
      return { row, column: column + 1, message: `${cell.trim()}: lengths are read in mm or inch` };
    if (columns[meaning] !== undefined)
      return {
        row,
        column: column + 1,
        message: `two columns may hold the ${meaning}: say in a layout which one counts`,
      };
    columns[meaning] = column;
    if (unit !== null) units.add(unit);
  }
  if (units.size > 1) return fault('its columns are in different units', row);
  if (columns.first !== undefined && columns.length !== undefined)
    return fault(
      'its headings name both X, Y, Z and length, width, height: say in a layout which ones count',
      row,
    );
  if (columns.point === undefined) {
    // the column without a heading in front of all is the names'
    if (cells[0]?.trim() !== '') return fault('no heading names the column of the points', row);
    columns.point = 0;
  }
  const [unit = null] = units;
  return { columns, unit };
}

/** Without a heading: one column of names, perhaps one of sides, and three of numbers. */
function columnsByNumbers(grid: TableGrid): Columns | TableFault {
  const rows = grid.rows.filter(({ cells }) => cells.filter(looksLikeNumber).length >= 3).slice(0, 200);
  if (rows.length === 0)
    return fault('no row holds a name and three numbers: is it a table of measurements?');
  const width = Math.max(...rows.map(({ cells }) => cells.length));
  const kinds = Array.from({ length: width }, (_, column) =>
    kindOf(rows.map(({ cells }) => cells[column] ?? '')),
  );
  const numbers = kinds.flatMap((kind, column) => (kind === 'numbers' ? [column] : []));
  const point = kinds.indexOf('text');
  const side = kinds.indexOf('sides');
  // what counts the rows stands before the name, or is the name
  const counts = numbers.length === 4 && (point < 0 || numbers[0] < point) && isCount(rows, numbers[0]);
  const counted = counts ? numbers.slice(1) : numbers;
  const isNumbered = point < 0 && counts;
  if (counted.length !== 3 || (point < 0 && !isNumbered))
    return fault(
      `without headings a table has a name and three numbers in each row; this one has ${numbers.length} columns of numbers: say in a layout which ones count`,
      rows[0].row,
    );
  const [length, width3, height] = counted;
  const columns: Partial<Record<ColumnMeaning, number>> = {
    point: isNumbered ? numbers[0] : point,
    first: length,
    second: width3,
    third: height,
  };
  if (side >= 0) columns.side = side;
  const remark = kinds.findIndex((kind, column) => kind === 'text' && column > height);
  if (remark >= 0 && remark !== point) columns.remark = remark;
  return { columns, unit: null };
}

function kindOf(cells: readonly string[]): 'numbers' | 'sides' | 'text' | 'nothing' {
  const filled = cells.filter((cell) => cell.trim() !== '');
  if (filled.length === 0) return 'nothing';
  // a number too many in a few rows makes no column
  if (filled.length <= cells.length / 2 && filled.every(looksLikeNumber)) return 'nothing';
  // a slip in one row does not make a column of words of a column of numbers
  if (filled.filter(looksLikeNumber).length > filled.length / 2) return 'numbers';
  return filled.every((cell) => sideInCell(cell) !== undefined) ? 'sides' : 'text';
}

/** A column that counts the rows: 1, 2, 3 … */
const isCount = (rows: readonly TableRow[], column: number): boolean => {
  const numbers = rows.map(({ cells }) => Number(cells[column]));
  return numbers.every((number, i) => Number.isInteger(number) && (i === 0 || number >= numbers[i - 1]));
};

const firstData = ({ rows }: TableGrid): number =>
  Math.max(
    0,
    rows.findIndex(({ cells }) => cells.filter(looksLikeNumber).length >= 3),
  );

function decimalIn(
  rows: readonly TableRow[],
  columns: Partial<Record<ColumnMeaning, number>>,
): DecimalMark | null {
  return decimalOf(numbersIn(rows, numberColumns(columns)));
}

/** One by one: the first ones tell of most tables. */
function* numbersIn(rows: readonly TableRow[], columns: readonly number[]): Generator<string> {
  for (const { cells } of rows)
    for (const column of columns) {
      const cell = cells[column] ?? '';
      if (looksLikeNumber(cell)) yield cell;
    }
}

/** The columns of the three numbers, in the table's order. */
export const numberColumns = ({
  first,
  second,
  third,
  length,
  width,
  height,
}: TableLayout['columns']): readonly number[] =>
  [first ?? length, second ?? width, third ?? height].filter((column) => column !== undefined);
