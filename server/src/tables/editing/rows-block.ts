import type { LineTable } from '../../text/lines';

/** Where rows stand: the lines below `readings:` or `points:`, read off indents, for a text into which a table was pasted is broken. */
export interface RowsBlock {
  readonly of: 'readings' | 'points';
  /** Line of the key. */
  readonly head: number;
  /** Columns before its rows. */
  readonly indent: number;
  readonly rows: readonly BlockRow[];
}

interface BlockRow {
  readonly id: string;
  readonly line: number;
  /** It has its numbers already, or a word in their place. */
  readonly isFilled: boolean;
}

/** What a line is. A line that is no row of the language, no key and no comment is one of a table. */
type LineKind =
  | { readonly kind: 'blank' | 'comment' | 'item' | 'table' }
  | { readonly kind: 'key'; readonly key: string; readonly column: number; readonly value: string };

const waitingRow = /^\s*#\s*(?:"([^"]+)"|'([^']+)'|([^\s#:'"[\]{},]+))\s*:\s*(?:\[[\s,]*\])?\s*(?:#.*)?$/;

export function lineKind(text: string): LineKind {
  if (text.trim() === '') return { kind: 'blank' };
  if (/^\s*#/.test(text)) return { kind: 'comment' };
  const lead = /^ *(?:- +)*/.exec(text)?.[0].length ?? 0;
  const rest = text.slice(lead);
  const quoted = /^(["'])([^"'\\]+)\1(?=[ \t]*:(?:[ \t]|$))/.exec(rest);
  const end = rest.search(/:(?=[ \t]|$)/);
  const key = quoted?.[2] ?? rest.slice(0, Math.max(0, end)).trimEnd();
  // a cell may end in a colon, but no key of a row has what parts cells in it
  if (end >= 0 && (quoted !== null || /^[^\s#"'[\]{},&*!|>%@`;\t][^\t;|,#]*$/.test(key))) {
    const value = rest.slice(rest.indexOf(':', quoted === null ? end : quoted[0].length) + 1);
    return { kind: 'key', key, column: lead, value: value.replace(/(^|\s)#[\s\S]*$/, '').trim() };
  }
  return /^\s*-(\s|$)/.test(text) ? { kind: 'item' } : { kind: 'table' };
}

/** The block that a line stands in, or that begins on it; null where it is in none, or within one of its rows. */
export function rowsBlockAt(lines: LineTable, line: number): RowsBlock | null {
  const head = headAbove(lines, line);
  if (head === null) return null;
  const rows: BlockRow[] = [];
  let indent: number | null = null;
  for (let at = head.line + 1; at < lines.lineCount; at++) {
    const text = lines.lineText(at);
    const is = lineKind(text);
    if (is.kind === 'item' || (is.kind === 'key' && is.column <= head.column)) break;
    if (is.kind === 'comment') {
      const found = waitingRow.exec(text);
      const id = found?.[1] ?? found?.[2] ?? found?.[3];
      if (id !== undefined) rows.push({ id, line: at, isFilled: false });
    }
    if (is.kind !== 'key') continue;
    indent ??= is.column;
    if (is.column === indent) rows.push({ id: is.key, line: at, isFilled: is.value !== '' });
  }
  const below = nextLine(lines, line + 1);
  // a row that goes on below is not parted
  if (indent !== null && below !== null && below.column > indent) return null;
  return { of: head.of, head: head.line, indent: indent ?? head.column + 2, rows };
}

function headAbove(
  lines: LineTable,
  line: number,
): { readonly of: RowsBlock['of']; readonly line: number; readonly column: number } | null {
  let least = Number.POSITIVE_INFINITY;
  for (let at = line; at >= 0; at--) {
    const is = lineKind(lines.lineText(at));
    if (is.kind === 'item') return null;
    if (is.kind !== 'key') continue;
    const { key, column, value } = is;
    if ((key === 'readings' || key === 'points') && value === '')
      return column < least ? { of: key, line: at, column } : null;
    least = Math.min(least, column);
  }
  return null;
}

/** The next line that holds something of the language. */
function nextLine(lines: LineTable, from: number): { readonly column: number } | null {
  for (let at = from; at < lines.lineCount; at++) {
    const is = lineKind(lines.lineText(at));
    if (is.kind === 'key') return is;
    if (is.kind === 'item') return null;
  }
  return null;
}
