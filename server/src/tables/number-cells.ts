import { writtenFrom } from '../model/read/numbers-as-written';

/** What stands before the decimals of a table. */
export type DecimalMark = 'point' | 'comma';

/** A number in the digits of the language, or why it is none. */
type NumberCell = { readonly digits: string } | { readonly message: string };

const point = /^[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?$/;
const comma = /^[-+]?(\d+(,\d*)?|,\d+)([eE][-+]?\d+)?$/;

/** @param text of a cell. A minus sign out of a word processor is one; marks between thousands are refused, never taken off. */
export function numberCell(text: string, decimal: DecimalMark): NumberCell {
  const plain = text.trim().replace(/^[\u2212\u2013](?=[\d.,])/, '-');
  const usual = /^(-?\d{1,6})(?:([.,])(\d{1,6}))?$/.exec(plain);
  // most cells of most tables; the rest is looked at closely
  if (usual !== null && (usual[2] === undefined || (usual[2] === '.') === (decimal === 'point')))
    return { digits: usual[2] === undefined ? usual[1] : `${usual[1]}.${usual[3]}` };
  if (decimal === 'point') return digitsOf(plain, point.test(plain));
  if (comma.test(plain)) return digitsOf(plain.replace(',', '.'), true);
  if (point.test(plain)) return { message: `${shown(plain)} has a point, and this table has decimal commas` };
  return digitsOf(plain, false);
}

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);

function digitsOf(text: string, isNumber: boolean): NumberCell {
  const written = writtenFrom(text);
  if (isNumber && written.value !== null) return { digits: text.replace(/^\+/, '') };
  return { message: written.value === null ? written.message : `${shown(text)} is not a number` };
}

export const looksLikeNumber = (text: string): boolean =>
  /^\s*[-+\u2212\u2013]?[.,]?\d[\d.,]*\s*$/.test(text);

/** The decimal mark of some cells; null where they cannot tell: then one of the two must be said. */
export function decimalOf(cells: Iterable<string>): DecimalMark | null {
  const found = { point: 0, comma: 0 };
  let bare = 0;
  for (const cell of cells) {
    const plain = cell.trim();
    const marks = plain.replace(/[^.,]/g, '');
    if (marks.length > 1) continue;
    if (marks === '') {
      if (/[1-9]/.test(plain)) bare += 1;
      continue;
    }
    const mark = marks === '.' ? 'point' : 'comma';
    found[mark] += 1;
    // three digits behind a mark and one to three before it may be thousands
    if (!/^[-+\u2212\u2013]?[1-9]\d{0,2}[.,]\d{3}$/.test(plain)) return mark;
  }
  if (found.point === 0 && found.comma === 0) return 'point';
  // with thousands, numbers below a thousand have no mark: where every number has one, they are decimals
  if (bare > 0 || (found.point > 0 && found.comma > 0)) return null;
  return found.point > 0 ? 'point' : 'comma';
}
