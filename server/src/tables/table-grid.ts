import Papa from 'papaparse';

/** One row of a table as it stands there, numbered as a person counts: of a text its lines, of a spreadsheet its rows. */
export interface TableRow {
  readonly row: number;
  readonly cells: readonly string[];
  /** Of a spreadsheet with several. */
  readonly sheet?: string;
}

/** What parts the cells: a character, runs of blanks, or the cells of a spreadsheet. */
export type Delimiter = ',' | ';' | '\t' | '|' | 'blanks' | 'sheet';

export interface TableGrid {
  readonly delimiter: Delimiter;
  readonly rows: readonly TableRow[];
}

/** What is wrong with a table; null where it is not of one row or one column. Columns are numbered from 1. */
export interface TableFault {
  readonly row: number | null;
  readonly column: number | null;
  readonly message: string;
  readonly sheet?: string;
}

const delimiters = ['\t', ';', '|', ','] as const;
/** So many characters decide what parts the cells. */
const looked = 20_000;

/** A text that holds a table, in cells. Nothing is known yet of what they mean. */
export function gridFrom(text: string): TableGrid | TableFault {
  const plain = text.replace(/^\uFEFF/, '');
  const delimiter = delimiterOf(plain.slice(0, looked));
  return delimiter === 'blanks' ? { delimiter, rows: blankedRows(plain) } : delimitedRows(plain, delimiter);
}

/** The one that makes the most rows with three numbers, and of these the most cells; blanks only where no character does. */
function delimiterOf(text: string): Exclude<Delimiter, 'sheet'> {
  let best: Exclude<Delimiter, 'sheet'> = 'blanks';
  let most = 0;
  for (const delimiter of delimiters) {
    if (!text.includes(delimiter)) continue;
    const found = delimitedRows(text, delimiter);
    const counted = 'rows' in found ? numbered(found.rows) : 0;
    if (counted > most) {
      best = delimiter;
      most = counted;
    }
  }
  return most === 0 || numbered(blankedRows(text)) > most ? blanksOr(text) : best;
}

/** Blanks part the cells where that makes rows with numbers; else the character that is there at all. */
function blanksOr(text: string): Exclude<Delimiter, 'sheet'> {
  if (numbered(blankedRows(text)) > 0) return 'blanks';
  return delimiters.find((delimiter) => text.includes(delimiter)) ?? 'blanks';
}

const numberLike = /^\s*[-+\u2212]?\d+([.,]\d+)?\s*$/;

/** How many rows hold three numbers at least. */
const numbered = (rows: readonly TableRow[]): number =>
  rows.filter(({ cells }) => cells.filter((cell) => numberLike.test(cell)).length >= 3).length;

function delimitedRows(text: string, delimiter: (typeof delimiters)[number]): TableGrid | TableFault {
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, newline: newlineOf(text) });
  const rows: TableRow[] = [];
  const isQuoted = text.includes('"');
  let line = 1;
  for (const cells of data) {
    rows.push({ row: line, cells });
    line += 1;
    // a cell in quotes may hold line breaks
    if (!isQuoted) continue;
    for (const cell of cells) if (cell.includes('\n')) line += cell.split('\n').length - 1;
  }
  const quotes = errors.find(({ type }) => type === 'Quotes');
  if (quotes === undefined) return { delimiter, rows };
  const row = rows[quotes.row ?? 0]?.row ?? null;
  return {
    row,
    column: null,
    message: 'a quotation mark is opened in this row and not closed as it should be',
  };
}

/** Told, not guessed: the guess of the parser looks at the start alone. */
const newlineOf = (text: string): '\r\n' | '\n' | '\r' =>
  text.includes('\n') ? (/[^\r]\n|^\n/.test(text) ? '\n' : '\r\n') : text.includes('\r') ? '\r' : '\n';

/** Cells parted by two blanks or more where every row of numbers then has four cells, else by any. */
function blankedRows(text: string): TableRow[] {
  const lines = text.split(/\r\n|\n|\r/);
  const wide = lines.map((line) => cellsIn(line, / {2,}|\t+/));
  const withNumbers = wide.filter((cells) => cells.filter((cell) => /\d/.test(cell)).length >= 3);
  if (withNumbers.length > 0 && withNumbers.every((cells) => cells.length >= 4))
    return wide.map((cells, i) => ({ row: i + 1, cells }));
  return joinedNames(lines.map((line) => cellsIn(line, /[ \t]+/)));
}

const cellsIn = (line: string, by: RegExp): string[] => {
  const trimmed = line.trim();
  return trimmed === '' ? [''] : trimmed.split(by);
};

/** A name of several words is one cell: a row of one cell too many has them in front. */
function joinedNames(lines: readonly (readonly string[])[]): TableRow[] {
  const heading = lines.findIndex(
    (cells) => cells.length > 3 && !cells.some((cell) => numberLike.test(cell)),
  );
  const width = heading < 0 ? null : lines[heading].length;
  return lines.map((cells, i) => {
    const words = cells.findIndex((cell, at) => at > 0 && numberLike.test(cell));
    const first = width === null ? words : Math.min(words, cells.length - width + 1);
    if (i === heading || first <= 1) return { row: i + 1, cells };
    return { row: i + 1, cells: [cells.slice(0, first).join(' '), ...cells.slice(first)] };
  });
}
