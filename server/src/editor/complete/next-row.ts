import { threeNumbersIn } from '../../model/read/triple';
import { applyEdits, plainOrQuoted, type TextEdit } from '../../text/edits';
import { type LineTable, linesOf } from '../../text/lines';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import { tableEditsAt } from '../format/formatting';
import { cursorContext } from './cursor-context';
import { lineHead } from './line-head';
import { pointsToRead } from './points-to-read';
import { type WaitingRow, waitingRows } from './waiting-rows';

/**
 * After Enter at an offset: the table above is aligned, and behind a finished row of `readings:` the next one is begun, with the
 * point that comes next; a row that waits for it as a comment becomes it. Three bare numbers become a row. Behind a row that is not
 * finished, and where something follows on the line, nothing is begun.
 */
export function editsAfterEnter(analysis: Analysis, offset: number): TextEdit[] {
  const lines = linesOf(analysis.text);
  const { line } = lines.positionAt(offset);
  if (line === 0) return [];
  const above = lines.lineText(line - 1);
  const begun = analysis.kind === 'readings' ? nextRow(analysis, line, offset) : [];
  const aligned = tableEditsAt(analysis, lines.startOf(line - 1) + lineHead(above).column);
  return [
    ...aligned.filter((edit) => begun.every(({ start, end }) => edit.end < start || edit.start > end)),
    ...begun,
  ].sort((a, b) => a.start - b.start);
}

/** What stands above the new line, as far as it ends a row: what mends it, and what is left of the new line. */
interface Finished {
  readonly isHead: boolean;
  readonly key: string;
  readonly column: number;
  readonly mend: TextEdit | null;
}

function nextRow(analysis: JobAnalysis, line: number, offset: number): TextEdit[] {
  const { text, chassis } = analysis;
  const lines = linesOf(text);
  const finished = finishedRow(lines, line);
  if (finished === null) return [];
  const { isHead, key, column, mend } = finished;
  const indent = ' '.repeat(isHead ? column + 2 : column);
  const { start, end, bracket } = newLine(lines, line, offset);
  const mended = mend === null ? [] : [mend];
  const blank = [{ start, end, text: indent }, ...bracket];
  // as it will be: a row that is mended is one of those that the measure has
  const [after, shift] = [
    applyEdits(text, [...mended, ...blank]),
    mend ? mend.text.length - (mend.end - mend.start) : 0,
  ];
  const context = cursorContext(after, start + shift + indent.length);
  if (context.path.join('/') !== 'timeline/-/readings' || context.item === null) return [];
  const last = isHead ? null : key;
  const wanted =
    chassis === null
      ? []
      : pointsToRead(analysis, chassis, context.item.start, last, context.siblings).map(({ id }) => id);
  const next = nextOf(wanted, waitingRows(lines, line, indent.length), line);
  // what is left of a bracket that was parted from its row goes
  if (next === null) return mend === null ? [] : [mend, ...blank];
  const begun = { start, end, text: `${indent}${plainOrQuoted(next.id)}: ` };
  return [...mended, begun, ...bracket, ...(next.removal === null ? [] : [next.removal])];
}

/**
 * What of the new line makes way: up to the cursor, and a parted bracket by itself. An editor joins edits that touch and keeps the
 * characters that old and new text share: the cursor would stay before such a character behind it, and typing go on in front of it.
 */
function newLine(lines: LineTable, line: number, offset: number) {
  const [start, end] = [lines.startOf(line), lines.endOf(line)];
  const at = lines.lineText(line).indexOf(']');
  const bracketAt = at < 0 ? end : start + at;
  const bracket: readonly TextEdit[] = at < 0 ? [] : [{ start: bracketAt, end, text: '' }];
  return { start, end: Math.min(offset, bracketAt), bracket };
}

/** The other side first, then what waits right below, then what waits at all; else what comes next in the order. */
function nextOf(
  wanted: readonly string[],
  waiting: readonly WaitingRow[],
  line: number,
): (Pick<WaitingRow, 'id'> & { readonly removal: TextEdit | null }) | null {
  const open = waiting.filter(({ id }) => wanted.includes(id));
  const below = open.find((row) => row.line > line);
  return (
    open.find(({ id }) => id === wanted[0]) ??
    below ??
    open[0] ??
    (wanted.length === 0 ? null : { id: wanted[0], removal: null })
  );
}

function finishedRow(lines: LineTable, line: number): Finished | null {
  const above = lines.lineText(line - 1);
  const here = lines.lineText(line).trim();
  const { key, column, valueColumn } = lineHead(above);
  if (key === null) return null;
  const written = above.slice(valueColumn);
  const value = written.replace(/(^|\s)#[\s\S]*$/, '').trim();
  const row = { isHead: false, key, column, mend: null };
  // Enter inside the brackets, behind the last number
  if (here === ']' || here === ' ]') {
    const end = lines.endOf(line - 1);
    return threeNumbersIn(value.replace(/^\[/, '')) !== null && value.startsWith('[')
      ? { ...row, mend: { start: end, end, text: ']' } }
      : null;
  }
  if (here !== '') return null;
  if (key === 'readings' && value === '') return { ...row, isHead: true };
  if (/^(unreachable|as-before)$|\]$/.test(value)) return row;
  const bare = threeNumbersIn(value);
  if (bare === null || value.startsWith('[') || mayBeTwo(value)) return null;
  const start = lines.startOf(line - 1) + valueColumn + written.indexOf(value);
  return { ...row, mend: { start, end: start + value.length, text: bare } };
}

/** `3012,1, 448` is two numbers with a decimal comma or three without: nobody asks on Enter, so nothing is made of it. */
const mayBeTwo = (text: string): boolean =>
  /,(?=\S)/.test(text) && !text.includes(';') && text.trim().split(/\s+/).length !== 3;
