import type { TableFault, TableGrid, TableRow } from './table-grid';

/** One sheet of a spreadsheet: values as text, as a person sees them; no formula and no link is looked at. */
export interface SheetCells {
  readonly name: string;
  readonly rows: readonly (readonly string[])[];
}

/** The sheets that hold something as one table, where all have the same heading; a table of one is that. */
export function gridOfSheets(sheets: readonly SheetCells[]): TableGrid | TableFault {
  const filled = sheets.filter(({ rows }) => rows.some((cells) => cells.join('').trim() !== ''));
  const [first, ...others] = filled;
  if (first === undefined) return { row: null, column: null, message: 'the spreadsheet is empty' };
  const heading = headingText(first);
  const other = others.find((sheet) => headingText(sheet) !== heading);
  if (other !== undefined)
    return {
      row: null,
      column: null,
      message: `the spreadsheet has ${filled.length} sheets with different headings (${filled.map(({ name }) => name).join(', ')}): leave one in it`,
    };
  const rows = filled.flatMap(({ name, rows: cells }) =>
    cells.map(
      (each, i): TableRow => ({ row: i + 1, cells: each, ...(others.length > 0 ? { sheet: name } : {}) }),
    ),
  );
  return { delimiter: 'sheet', rows };
}

const headingText = ({ rows }: SheetCells): string =>
  rows.find((cells) => cells.join('').trim() !== '')?.join('\t') ?? '';
