import { threeNumbersIn } from '../../model/read/triple';
import { linesOf } from '../../text/lines';
import { cursorContext } from '../complete/cursor-context';
import { lineHead } from '../complete/line-head';

/**
 * A row of readings, of distances or of the points of a body that somebody is typing. What is shown meanwhile is that of the text as it was before: a number that is half there
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
  const kind = rowKindAt(now, cursor);
  if (kind === null) return null;
  const isComplete = isCompleteAs[kind](text);
  // many lines at once were not typed, but beside a row that is begun the table may be aligned
  if (isComplete && end - first !== 1) return null;
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

type RowKind = 'reading' | 'distance' | 'point' | 'span';

/** Where a row on one line may stand. */
const rowPaths: Readonly<Record<string, RowKind | undefined>> = {
  'timeline/-/readings': 'reading',
  'timeline/-/spans/-': 'distance',
  points: 'point',
  'spans/-': 'span',
};

/** What begins on a line of its own, be it a whole row or the beginning of one; null for anything else. */
function rowKindAt(text: string, line: number): RowKind | null {
  const lines = linesOf(text);
  const written = lines.lineText(line);
  const { dashes, column, key } = lineHead(written);
  const head = written.slice(column).trim();
  if (head.startsWith('#') || (head === '' && dashes.length === 0)) return null;
  const { path, role, inFlow } = cursorContext(text, lines.startOf(line) + column);
  const kind = role === 'key' && !inFlow ? rowPaths[path.join('/')] : undefined;
  if (kind === undefined) return null;
  // an item with a line for each key is no row
  const isInPlace = path.at(-1) === '-' ? dashes.length > 0 && key === null : dashes.length === 0;
  return isInPlace ? kind : null;
}

/** A row with all that belongs to it. */
const isCompleteAs: Readonly<Record<RowKind, (text: string) => boolean>> = {
  reading: isCompleteReading,
  distance: isCompleteDistance,
  point: isCompletePoint,
  span: isCompleteSpan,
};

/** Three numbers in brackets, a list of such, or a word in place of them. */
function isCompleteReading(text: string): boolean {
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

const distance = /^\d+(\.\d+)?$/;

/** Two points and what was read between them: a number, a list of repeats, or a word in place of them. */
function isCompleteDistance(text: string): boolean {
  const value = withoutNote(text.slice(lineHead(text).column));
  const [, from, to, read] = /^\[\s*([^\s,]+)\s*,\s*([^\s,]+)\s*,(.*)\]$/.exec(value) ?? [];
  const repeats = /^\s*\[(.*)\]\s*$/.exec(read ?? '')?.[1] ?? read ?? '';
  if (!from || !to) return false;
  return repeats.trim() === 'unreachable' || repeats.split(',').every((each) => distance.test(each.trim()));
}

/** Two points of a body and the distance that the sheet has between them. */
function isCompleteSpan(text: string): boolean {
  const inner = /^\{(.*)\}$/.exec(withoutNote(text.slice(lineHead(text).column)))?.[1] ?? '';
  const stated = (key: string): string => new RegExp(`\\b${key}:\\s+([^\\s,]+)`).exec(inner)?.[1] ?? '';
  return stated('from') !== '' && stated('to') !== '' && distance.test(stated('distance'));
}

/** Three numbers for each side that it names, or `null` for a point that this body has not. */
function isCompletePoint(text: string): boolean {
  const { key, valueColumn } = lineHead(text);
  const value = withoutNote(text.slice(valueColumn));
  if (key === null || value === 'null') return key !== null;
  const inner = /^\{(.*)\}$/.exec(value)?.[1] ?? '';
  const sides = [...inner.matchAll(/\b(?:both|left|right|centre):(?:\s*\[([^[\]]*)\])?/g)];
  return sides.length > 0 && sides.every(([, numbers]) => numbers !== undefined && isThree(numbers));
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
