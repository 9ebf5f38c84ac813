import { unzipSync } from 'fflate';
import readSpreadsheet from 'read-excel-file/universal';
import writeSpreadsheet from 'write-excel-file/universal';
import type { SheetCells } from '../sheets-grid';
import { largestTable } from '../table-text';
import type { Written, WrittenSheet } from '../written-cells';

/**
 * Spreadsheets (Office Open XML, ECMA-376). Values alone are read: of a cell with a formula the value that was saved beside it. No formula is
 * run and no link followed, for nothing here can.
 */
type Spreadsheet =
  | { readonly kind: 'sheets'; readonly sheets: readonly SheetCells[] }
  | { readonly kind: 'refused'; readonly message: string };

/** The cells of all sheets as text. Never throws: what cannot be read is refused. */
export async function spreadsheetRead(bytes: Uint8Array): Promise<Spreadsheet> {
  try {
    if (inflatedSize(bytes) > largestTable)
      return { kind: 'refused', message: 'the table is larger than 50 MB' };
    const sheets = await readSpreadsheet(new Uint8Array(bytes).buffer);
    return {
      kind: 'sheets',
      sheets: sheets.map(({ sheet, data }) => ({
        name: sheet,
        rows: data.map((cells) => cells.map(textOfCell)),
      })),
    };
  } catch {
    return { kind: 'refused', message: 'it is no spreadsheet that can be read: save it as .xlsx or as CSV' };
  }
}

/** What its files say that they hold, bytes; nothing is unpacked. */
function inflatedSize(bytes: Uint8Array): number {
  let total = 0;
  unzipSync(bytes, {
    filter: ({ originalSize }) => {
      total += originalSize;
      return false;
    },
  });
  return total;
}

/** Numbers without the noise of a computation; a date as one writes it, so that it is told from a number. */
function textOfCell(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return String(Number(value.toPrecision(12)));
  if (value instanceof Date) return Number.isNaN(value.getTime()) ? '' : value.toISOString().slice(0, 10);
  return String(value);
}

/** One spreadsheet of all sheets: numbers as numbers, everything else as text, which no program runs. */
export async function spreadsheetWritten(sheets: readonly WrittenSheet[]): Promise<Uint8Array> {
  const file = await writeSpreadsheet(
    sheets.map(({ name, rows }) => ({ sheet: name, data: rows.map((cells) => cells.map(cellOf)) })),
  ).toBlob();
  return new Uint8Array(await file.arrayBuffer());
}

function cellOf(cell: Written) {
  if (cell === null || cell === '') return null;
  if (typeof cell === 'string') return { type: String, value: cell };
  return { type: Number, value: typeof cell === 'number' ? cell : Number(cell.digits) };
}
