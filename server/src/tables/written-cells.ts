/** A cell as it is written: a number, or text. */
export type Written = string | number;

const isNumber = /^[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?$/;

/**
 * Comma-separated text (RFC 4180). Text that a spreadsheet would take for a formula gets an apostrophe before it, which makes it text there
 * (OWASP, CSV injection); a table that is read drops it.
 */
export const csvText = (rows: readonly (readonly Written[])[]): string =>
  rows.map((cells) => `${cells.map(csvCell).join(',')}\r\n`).join('');

const csvCell = (cell: Written): string => {
  if (typeof cell === 'number' || isNumber.test(cell)) return String(cell);
  const text = /^['=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n;\t|]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
