import { CR, HASH, LF, SPACE, TAB } from '../characters';
import { lineEndBefore } from '../lines';
import { rowAt, type TripleRow } from './triple-row';

/**
 * The lines between two offsets as block structure sees them. The scanner moves `content` and `indent` of a line
 * past a list dash, so that what follows the dash reads like a line of its own.
 */
export interface StructureLines {
  readonly count: number;
  /** `start[count]` is the end of the stretch. */
  readonly start: number[];
  readonly end: number[];
  /** Offset of the first visible character; -1 on blank and comment lines. */
  readonly content: number[];
  /** Columns before the content; a tab counts as two, so that a file indented by tabs still has its shape. */
  readonly indent: number[];
  /** Lines that are indented with a tab. */
  readonly tabbed: ReadonlySet<number>;
  readonly comment: readonly boolean[];
  /**
   * Rows of three numbers below each other in one column count as one line, whose `end` is that of the first: as many lines of a job
   * are rows as are not. By the number of that line. The last of such rows is a line of its own: what follows may belong to it.
   */
  readonly rows: ReadonlyMap<number, readonly TripleRow[]>;
}

const TAB_COLUMNS = 2;

/** A \r stands before a \n only. */
export const structureLinesOf = (text: string, from: number, to: number): StructureLines => {
  const start: number[] = [];
  const end: number[] = [];
  const content: number[] = [];
  const indent: number[] = [];
  const comment: boolean[] = [];
  const tabbed = new Set<number>();
  const rows = new Map<number, TripleRow[]>();
  for (let at = from; ; ) {
    let offset = at;
    let columns = 0;
    let hasTab = false;
    for (; offset < to; offset++) {
      const code = text.charCodeAt(offset);
      if (code === SPACE) columns++;
      else if (code === TAB) {
        columns += TAB_COLUMNS;
        hasTab = true;
      } else break;
    }
    const run = hasTab ? null : rowsFrom(text, offset, columns, to);
    if (run !== null) {
      rows.set(start.length, run);
      start.push(at);
      content.push(offset);
      end.push(run[0].start + run[0].length);
      indent.push(columns);
      comment.push(false);
      const last = run[run.length - 1];
      at = lineAfter(text, last.start + last.length);
      continue;
    }
    const lineBreak = text.indexOf('\n', offset);
    const isLast = lineBreak < 0 || lineBreak >= to;
    const next = isLast ? to : lineBreak + 1;
    const lineEnd = lineEndBefore(text, at, next);
    const isComment = offset < lineEnd && text.charCodeAt(offset) === HASH;
    const hasContent = offset < lineEnd && !isComment;
    if (hasTab && hasContent) tabbed.add(start.length);
    start.push(at);
    end.push(lineEnd);
    comment.push(isComment);
    content.push(hasContent ? offset : -1);
    indent.push(columns);
    if (isLast) break;
    at = next;
  }
  const count = start.length;
  start.push(to);
  return { count, start, end, content, indent, tabbed, comment, rows };
};

/** The rows from an offset on, each alone on its line and in the column of the first, without the last of them; null where none is left. */
function rowsFrom(text: string, first: number, columns: number, to: number): TripleRow[] | null {
  let row = rowAt(text, first);
  if (row === null) return null;
  let run: TripleRow[] | null = null;
  for (;;) {
    const next = lineAfter(text, row.start + row.length);
    if (next < 0 || next + columns >= to) return run;
    let at = next;
    while (text.charCodeAt(at) === SPACE) at++;
    if (at - next !== columns) return run;
    const following = rowAt(text, at);
    if (following === null || at + following.length > to || lineAfter(text, at + following.length) < 0)
      return run;
    if (run === null) run = [row];
    else run.push(row);
    row = following;
  }
}

/** Offset of the line after a row that ends at an offset; −1 where something follows on its line. */
function lineAfter(text: string, rowEnd: number): number {
  const code = text.charCodeAt(rowEnd);
  if (code === LF) return rowEnd + 1;
  return code === CR && text.charCodeAt(rowEnd + 1) === LF ? rowEnd + 2 : -1;
}
