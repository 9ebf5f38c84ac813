import { threeNumbersIn } from '../../model/read/triple';
import { linesOf } from '../../text/lines';
import { cursorContext } from '../complete/cursor-context';
import { lineHead } from '../complete/line-head';

/**
 * A row of readings that somebody is typing. What is shown meanwhile is that of the text as it was before: a number that is half there
 * is judged by nobody.
 */
export interface TypedRow {
  /** From 0, in the text as it stands. */
  readonly line: number;
  /** What stood there before it was typed in; empty where it is a new line. */
  readonly before: string;
  /** `finished`: typed to behind its bracket; `filled`: all numbers stand, the cursor is still among them; `begun`: something is missing. */
  readonly state: 'finished' | 'filled' | 'begun';
}

/**
 * The row that is being typed after an edit; null where none is.
 * @param was the one before the edit
 * @param cursor line of the cursor after the edit, as far as it is known
 */
export function rowAfterEdit(
  was: TypedRow | null,
  old: string,
  now: string,
  cursor: number | null,
): TypedRow | null {
  const [oldLines, lines] = [textLines(old), textLines(now)];
  const added = lines.length - oldLines.length;
  const { first, end } = changedLines(oldLines, lines);
  const moved = movedWith(was, first, end, added);
  if (cursor === null || cursor < first || cursor >= end) return moved;
  const text = lines[cursor];
  const isRow = isReadingsRow(now, cursor);
  const isComplete = isCompleteRow(text);
  // many lines at once were not typed, but beside a row that is begun the table may be aligned
  if (!isRow || (isComplete && end - first !== 1)) return null;
  const [before, last] = [added === 0 ? oldLines[cursor] : '', added === 0 ? oldLines[cursor] : text];
  const state = !isComplete ? 'begun' : isTypedToEnd(last, text) ? 'finished' : 'filled';
  return { line: cursor, before: was?.line === cursor ? was.before : before, state };
}

/** The text in which a row stands as before it was typed in. Lines stay where they are. */
export function textBefore(text: string, { line, before }: TypedRow): string {
  const lines = linesOf(text);
  return text.slice(0, lines.startOf(line)) + before + text.slice(lines.endOf(line));
}

const textLines = (text: string): string[] => text.split(/\r\n|\r|\n/);

/** Lines of the new text, up to `end`, that are not as they were. */
function changedLines(old: readonly string[], now: readonly string[]): { first: number; end: number } {
  const least = Math.min(old.length, now.length);
  let first = 0;
  while (first < least && old[first] === now[first]) first++;
  let same = 0;
  while (same < least - first && old[old.length - 1 - same] === now[now.length - 1 - same]) same++;
  return { first, end: now.length - same };
}

/** A row that an edit elsewhere left alone; null where it was part of it. */
function movedWith(was: TypedRow | null, first: number, end: number, added: number): TypedRow | null {
  if (was === null || was.line < first) return was;
  if (was.line < end - added) return null;
  return added === 0 ? was : { ...was, line: was.line + added };
}

/** Whether a line of its own below `readings:` begins here, be it a row or the beginning of one. */
function isReadingsRow(text: string, line: number): boolean {
  const lines = linesOf(text);
  const written = lines.lineText(line);
  const indent = written.search(/\S/);
  if (indent < 0 || written[indent] === '#' || written[indent] === '-') return false;
  const { path, role, inFlow } = cursorContext(text, lines.startOf(line) + indent);
  return role === 'key' && !inFlow && path.join('/') === 'timeline/-/readings';
}

/** A row with all that belongs to it: three numbers in brackets, a list of such, or a word in place of them. */
function isCompleteRow(text: string): boolean {
  const { key, valueColumn } = lineHead(text);
  if (key === null) return false;
  const value = withoutNote(text.slice(valueColumn));
  if (/^(unreachable|as-before)$/.test(value)) return true;
  const inner = /^\[([\s\S]*)\]$/.exec(value)?.[1];
  if (inner === undefined) return false;
  const repeats = [...inner.matchAll(/\[([^[\]]*)\]/g)].map(([, each]) => each);
  const isList = /^\s*\[[^[\]]*\](\s*,\s*\[[^[\]]*\])*\s*$/.test(inner);
  return isList ? repeats.every(isThree) : isThree(inner);
}

const isThree = (inner: string): boolean => threeNumbersIn(inner) !== null;

const withoutNote = (value: string): string => value.replace(/(^|\s)#[\s\S]*$/, '').trim();

/** Whether the edit that made a line from another ended behind its bracket, or at the end of its word. */
function isTypedToEnd(last: string, text: string): boolean {
  const most = Math.min(last.length, text.length);
  let same = 0;
  while (same < most && last[last.length - 1 - same] === text[text.length - 1 - same]) same++;
  return withoutNote(text.slice(text.length - same)) === '';
}
