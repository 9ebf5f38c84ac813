/** Lines of a text and the way between offsets and positions. */

import { CR, LF } from './characters';

/** Zero-based line, and character in UTF-16 units, as the Language Server Protocol counts. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface LineTable {
  readonly lineCount: number;
  /** Offset of the first character of a line; lines outside the text are clamped. */
  startOf(line: number): number;
  /** Offset after the last character of a line, its line break not included. */
  endOf(line: number): number;
  /** Offsets outside the text are clamped; one inside a line break is the end of its line. */
  positionAt(offset: number): Position;
  /** A character beyond the end of its line is the end of the line. */
  offsetAt(line: number, character: number): number;
  /** A line without its line break; '' outside the text. */
  lineText(line: number): string;
}

/** About what a row of readings has, UTF-16 units. */
const usualLine = 48;

/** Offsets at which lines start, the first one 0. A line ends at \n, \r\n or a lone \r. */
export const lineStartsOf = (text: string): number[] => {
  if (!text.includes('\r')) {
    // a list that grows to ten thousand is copied a dozen times
    const starts = new Array<number>(1 + Math.ceil(text.length / usualLine));
    starts[0] = 0;
    let count = 1;
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts[count++] = at + 1;
    starts.length = count;
    return starts;
  }
  const starts = [0];
  for (let offset = 0; offset < text.length; offset++) {
    const code = text.charCodeAt(offset);
    if (code === LF || (code === CR && text.charCodeAt(offset + 1) !== LF)) starts.push(offset + 1);
  }
  return starts;
};

/** Offset before the line break that ends just before `nextStart`. */
export const lineEndBefore = (text: string, start: number, nextStart: number): number => {
  let end = nextStart;
  if (end > start && text.charCodeAt(end - 1) === LF) end--;
  if (end > start && text.charCodeAt(end - 1) === CR) end--;
  return end;
};

/** The tables made last: one text is asked about several times in a row. */
const recent: { readonly text: string; readonly table: LineTable }[] = [];
const mostRecent = 4;

export const linesOf = (text: string): LineTable => {
  const known = recent.find((each) => each.text === text);
  if (known) return known.table;
  const table = tableOf(text);
  recent.unshift({ text, table });
  recent.length = Math.min(recent.length, mostRecent);
  return table;
};

const tableOf = (text: string): LineTable => {
  const starts = lineStartsOf(text);
  const lineCount = starts.length;
  const startOf = (line: number): number => (line < 0 ? 0 : line < lineCount ? starts[line] : text.length);
  const endOf = (line: number): number => {
    if (line < 0) return 0;
    if (line >= lineCount - 1) return text.length;
    return lineEndBefore(text, starts[line], starts[line + 1]);
  };
  const positionAt = (offset: number): Position => {
    const within = Math.max(0, Math.min(offset, text.length));
    let low = 0;
    let high = lineCount - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle] <= within) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: Math.min(within, endOf(low)) - starts[low] };
  };
  return {
    lineCount,
    startOf,
    endOf,
    positionAt,
    offsetAt: (line, character) =>
      line < 0 ? 0 : Math.min(startOf(line) + Math.max(0, character), endOf(line)),
    lineText: (line) => (line < 0 || line >= lineCount ? '' : text.slice(starts[line], endOf(line))),
  };
};
