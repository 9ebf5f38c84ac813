import type { TextEdit } from '../../text/edits';
import type { LineTable } from '../../text/lines';

/** A row of readings that waits as a comment for its figures. */
export interface WaitingRow {
  readonly id: string;
  readonly line: number;
  /** Takes it out, where it is begun elsewhere; a note behind it stays. */
  readonly removal: TextEdit;
}

/** `# latch:   [ , , ]`, perhaps with a note; with a figure in it, it is no longer one that waits. */
const waiting = /^(\s*)#\s*(?:"([^"]+)"|'([^']+)'|([^\s#:'"[\]{},]+))\s*:\s*(?:\[[\s,]*\])?\s*(#.*)?$/;

/** The rows that wait around a line, in their order; rows and comments of the same readings only. */
export function waitingRows(lines: LineTable, line: number, indent: number): WaitingRow[] {
  const isPart = (at: number): boolean => {
    const text = lines.lineText(at);
    return text.trim() === '' || /^\s*#/.test(text) || text.search(/\S/) >= indent;
  };
  let first = line;
  while (first > 0 && isPart(first - 1)) first--;
  let last = line;
  while (last + 1 < lines.lineCount && isPart(last + 1)) last++;
  const rows: WaitingRow[] = [];
  for (let at = first; at <= last; at++) {
    const found = waiting.exec(lines.lineText(at));
    const id = found?.[2] ?? found?.[3] ?? found?.[4];
    if (found && id !== undefined)
      rows.push({ id, line: at, removal: removalOf(lines, at, found[1], found[5]) });
  }
  return rows;
}

/** With the line break behind it: the one before it would touch what is begun on the line above. */
function removalOf(lines: LineTable, at: number, lead: string, note: string | undefined): TextEdit {
  const [start, end] = [lines.startOf(at), lines.endOf(at)];
  return note === undefined
    ? { start, end: at + 1 < lines.lineCount ? lines.startOf(at + 1) : end, text: '' }
    : { start, end, text: `${lead}${note}` };
}
