import { COLON, DASH, HASH, LF, SPACE, TAB } from '../characters';
import { beginsLikeMarker } from '../document';

/** `timeline`: the key alone, its entries follow as chunks of their own. */
export type ChunkKind = 'key' | 'timeline' | 'item';

/** A piece of a text that is read by itself. */
interface Stretch {
  readonly text: string;
  readonly kind: ChunkKind;
}

/** Where one begins. */
export interface Cut {
  readonly start: number;
  readonly end: number;
  readonly kind: ChunkKind;
}

/**
 * How a text is cut; null where it cannot be cut safely and is read as a whole: anchors tie distant lines together, and something
 * stands before the first key, or between documents.
 */
export function cutsOf(text: string): Cut[] | null {
  if (text.charCodeAt(0) === 0xfeff || !isPlain(text)) return null;
  const cuts: Cut[] = [];
  let start = -1;
  for (let at = 0; at < text.length; at = nextLine(text, at)) {
    // neither a marker nor a key: as nearly all lines are
    if (start >= 0 && text.charCodeAt(at) === SPACE) continue;
    if (beginsLikeMarker(text, at)) return null;
    if (isKeyAtMargin(text, at)) {
      if (start >= 0) for (const cut of cutsWithin(text, start, at)) cuts.push(cut);
      start = at;
    } else if (start < 0 && !isRemark(text, at)) return null;
  }
  if (start < 0) return null;
  for (const cut of cutsWithin(text, start, text.length)) cuts.push(cut);
  return cuts;
}

/** Nothing in a stretch of whole lines forbids that it is cut. */
function isPlain(stretch: string): boolean {
  // a line separator is no line break to YAML, but is one to regular expressions
  if (stretch.includes('\u2028') || stretch.includes('\u2029')) return false;
  if (stretch.includes('\r') && /\r(?!\n)/.test(stretch)) return false;
  return !(
    (stretch.includes('&') || stretch.includes('*')) &&
    /(?:^|[\s[{,:-])[&*][^\s,[\]{}]/.test(stretch)
  );
}

/** Cuts of a text, of which the first and the last ones are those of the last text. */
export interface CutsAfter {
  readonly cuts: readonly Cut[];
  /** How many of the first, and of the last, have the same text as the chunks of the last parse. */
  readonly front: number;
  readonly back: number;
}

/**
 * The cuts of a text that differs from the last one by entries of the timeline, or by keys beside it: they are had without looking at
 * the lines of the others. Null for any other text.
 * @param old the chunks of the last text, in order
 */
export function cutsAfter(text: string, old: readonly Stretch[]): CutsAfter | null {
  let start = leadOf(text);
  if (old.length === 0 || !isPlain(text.slice(0, start))) return null;
  const cuts: Cut[] = [];
  let front = 0;
  // one at least counts as changed: text may have been added to it, and what stands there now must be of its kind
  for (; front < old.length - 1; front++) {
    const { text: own, kind } = old[front];
    const end = start + own.length;
    if (text.slice(start, end) !== own) break;
    cuts.push({ start, end, kind });
    start = end;
  }
  let end = text.length;
  let back = 0;
  for (; back < old.length - front - 1; back++) {
    const { text: own } = old[old.length - 1 - back];
    if (end - own.length < start || text.slice(end - own.length, end) !== own) break;
    end -= own.length;
  }
  const changed = cutsBetween(text, start, end, old.slice(front, old.length - back));
  if (changed === null) return null;
  for (const cut of changed) cuts.push(cut);
  for (const { text: own, kind } of old.slice(old.length - back)) {
    cuts.push({ start: end, end: end + own.length, kind });
    end += own.length;
  }
  return { cuts, front, back };
}

/** Where the first line stands that is neither blank nor a comment. */
function leadOf(text: string): number {
  let at = 0;
  while (at < text.length && isRemark(text, at) && !beginsLikeMarker(text, at)) at = nextLine(text, at);
  return at;
}

/** The cuts of a stretch that stands where some chunks stood, if it is of the same kind; null where more than it must be looked at. */
function cutsBetween(text: string, start: number, end: number, old: readonly Stretch[]): Cut[] | null {
  const [{ kind, text: first }] = old;
  if (kind === 'timeline' || old.some((each) => each.kind !== kind)) return null;
  const isWhole = end === text.length || text.charCodeAt(end - 1) === LF;
  if (start >= end || !isWhole || !isPlain(text.slice(start, end))) return null;
  const starts =
    kind === 'item' ? entryStarts(text, start, end, firstInk(first, 0)) : keyStarts(text, start, end);
  if (starts?.[0] !== start) return null;
  return cutsAt(starts, end, kind);
}

const cutsAt = (starts: readonly number[], end: number, kind: ChunkKind): Cut[] =>
  starts.map((start, i) => ({ start, end: starts[i + 1] ?? end, kind }));

/** Where keys stand in the first column; null where a line is no content, or the timeline is among them. */
function keyStarts(text: string, start: number, end: number): number[] | null {
  const starts: number[] = [];
  for (let at = start; at < end; at = nextLine(text, at)) {
    if (beginsLikeMarker(text, at) || text.startsWith('timeline:', at)) return null;
    if (isKeyAtMargin(text, at)) starts.push(at);
  }
  return starts;
}

/** Offset of the line after the one that begins at an offset. */
function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

/** White space, or the end of the text. */
const isBreak = (code: number): boolean => !(code > SPACE);

/** `name:` in the first column. */
function isKeyAtMargin(text: string, start: number): boolean {
  let at = start;
  for (let code = text.charCodeAt(at); ; code = text.charCodeAt(++at)) {
    const isLetter = (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || code === 95;
    const isLater = at > start && (code === DASH || (code >= 48 && code <= 57));
    if (!isLetter && !isLater) return at > start && code === COLON && isBreak(text.charCodeAt(at + 1));
  }
}

/** Blank, or a comment alone. */
function isRemark(text: string, start: number): boolean {
  const at = firstInk(text, start);
  const code = text.charCodeAt(at);
  return code === HASH || isBreak(code);
}

function firstInk(text: string, start: number): number {
  let at = start;
  while (text.charCodeAt(at) === SPACE) at++;
  return at;
}

const cutsWithin = (text: string, start: number, end: number): Cut[] =>
  (text.startsWith('timeline:', start) ? timelineCuts(text, start, end) : null) ?? [
    { start, end, kind: 'key' },
  ];

/** The timeline cut into its entries; null where a line at or left of the dashes is no entry, comment or blank. */
function timelineCuts(text: string, start: number, end: number): Cut[] | null {
  if (
    !/^[ \t]*(?:#[^\r\n]*)?\r?$/.test(
      text.slice(start + 'timeline:'.length, nextLine(text, start)).replace(/\n$/, ''),
    )
  )
    return null;
  const starts = entryStarts(text, nextLine(text, start), end, null);
  if (starts === null || starts.length === 0) return null;
  return [{ start, end: starts[0], kind: 'timeline' }, ...cutsAt(starts, end, 'item')];
}

/**
 * Where the entries of a list begin; null where a line at or left of the dashes is no entry, comment or blank.
 * @param column of the dashes; null: that of the first line
 */
function entryStarts(text: string, start: number, end: number, column: number | null): number[] | null {
  const starts: number[] = [];
  let indent = column ?? -1;
  for (let at = start; at < end; at = nextLine(text, at)) {
    const ink = firstInk(text, at);
    const code = text.charCodeAt(ink);
    const own = ink - at;
    if (code === HASH || isBreak(code)) {
      if (code === TAB) return null;
      continue;
    }
    if (indent < 0) indent = own;
    if (own > indent) continue;
    if (own < indent || code !== DASH || !isBreak(text.charCodeAt(ink + 1))) return null;
    starts.push(at);
  }
  return starts;
}
