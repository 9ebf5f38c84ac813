/** A cell as it is written: a number, a number in the digits in which it was typed, or text. Null: nothing. */
export type Written = string | number | { readonly digits: string } | null;

/** A sheet of cells, the heading first. */
export interface WrittenSheet {
  readonly name: string;
  readonly rows: readonly (readonly Written[])[];
}

/**
 * Comma-separated text (RFC 4180). Text that a spreadsheet would take for a formula gets an apostrophe before it, which makes it text there
 * (OWASP, CSV injection); a table that is read drops it.
 */
export const csvText = (rows: readonly (readonly Written[])[]): string =>
  rows.map((cells) => `${cells.map(csvCell).join(',')}\r\n`).join('');

function csvCell(cell: Written): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  if (typeof cell !== 'string') return cell.digits;
  const text = /^['=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n;\t|]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
