import { BlockScanner } from './blocks';
import { COLON, DASH, HASH, LF, SPACE, TAB } from './characters';
import { beginsLikeMarker } from './document';
import { copyOf } from './memory';
import { Reading } from './reading';
import { structureLinesOf } from './structure';
import type { Block, MapEntry, Node, Place, TextProblem } from './tree';
import { TripleRow } from './triple-row';

/**
 * A stretch of the text that is read by itself and kept while its text stays the same: a top-level key with all below it, or
 * one entry of the timeline. What an edit leaves alone is moved, not read again.
 */
export interface Chunk {
  /** Where it stands now, UTF-16 units. */
  start: number;
  readonly text: string;
  readonly kind: ChunkKind;
  readonly root: Node | null;
  readonly problems: readonly TextProblem[];
  /** All blocks that its nodes and problems are placed by; null until it is moved for the first time. */
  blocks: readonly Block[] | null;
}

/** `timeline`: the key alone, its entries follow as chunks of their own. */
export type ChunkKind = 'key' | 'timeline' | 'item';

/** Where a chunk begins. */
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

/**
 * The cuts of a text that differs from the last one by a single entry of the timeline, which is still one: they are had without
 * looking at the other lines. Null for any other text.
 * @param old the chunks of the last text, in order
 */
export function cutsAfter(text: string, old: readonly Pick<Chunk, 'text' | 'kind'>[]): Cut[] | null {
  let lead = 0;
  while (lead < text.length && isRemark(text, lead) && !beginsLikeMarker(text, lead))
    lead = nextLine(text, lead);
  const cuts: Cut[] = [];
  let start = lead;
  let changed = 0;
  for (; changed < old.length; changed++) {
    const { text: own, kind } = old[changed];
    if (text.slice(start, start + own.length) !== own) break;
    cuts.push({ start, end: start + own.length, kind });
    start += own.length;
  }
  if (changed === 0 || old[changed]?.kind !== 'item') return null;
  let end = text.length;
  for (let i = old.length - 1; i > changed; i--) {
    const { text: own } = old[i];
    if (end - own.length < start || text.slice(end - own.length, end) !== own) return null;
    end -= own.length;
  }
  if (!isPlain(text.slice(0, lead)) || !isOneEntry(text, start, end, old[changed].text)) return null;
  cuts.push({ start, end, kind: 'item' });
  for (const { text: own, kind } of old.slice(changed + 1)) {
    cuts.push({ start: end, end: end + own.length, kind });
    end += own.length;
  }
  return cuts;
}

/** Whether a stretch is one entry of a timeline, in the column of another, with all that belongs to it. */
function isOneEntry(text: string, start: number, end: number, other: string): boolean {
  const indent = firstInk(other, 0);
  const dash = start + indent;
  if (dash >= end || firstInk(text, start) !== dash || text.charCodeAt(dash) !== DASH) return false;
  if (!isBreak(text.charCodeAt(dash + 1))) return false;
  const isWhole = end === text.length || text.charCodeAt(end - 1) === LF;
  if (!isWhole || !isPlain(text.slice(start, end))) return false;
  for (let at = nextLine(text, start); at < end; at = nextLine(text, at)) {
    const ink = firstInk(text, at);
    const code = text.charCodeAt(ink);
    if (code === TAB) return false;
    if (code !== HASH && !isBreak(code) && ink - at <= indent) return false;
  }
  return true;
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
  const starts: number[] = [];
  let indent = -1;
  for (let at = nextLine(text, start); at < end; at = nextLine(text, at)) {
    const ink = firstInk(text, at);
    const code = text.charCodeAt(ink);
    const column = ink - at;
    if (code === HASH || isBreak(code)) {
      if (code === TAB) return null;
      continue;
    }
    if (indent < 0) indent = column;
    if (column > indent) continue;
    if (column < indent || code !== DASH || !isBreak(text.charCodeAt(ink + 1))) return null;
    starts.push(at);
  }
  if (starts.length === 0) return null;
  return [
    { start, end: starts[0], kind: 'timeline' },
    ...starts.map((at, i): Cut => ({ start: at, end: starts[i + 1] ?? end, kind: 'item' })),
  ];
}

/** Reads one stretch by itself, in place: what is made of it keeps the whole text. */
export function readChunk(text: string, { start, end, kind }: Cut): Chunk {
  const reading = new Reading(text, [], start, end);
  const root = new BlockScanner(reading, structureLinesOf(text, start, end)).root();
  return { start, text: text.slice(start, end), kind, root, problems: reading.problems.list, blocks: null };
}

/** Reads one stretch from a copy: after an edit each chunk would keep the version of the file that it was read from. */
export function readChunkApart(text: string, { start, end, kind }: Cut): Chunk {
  const own = copyOf(text.slice(start, end));
  const chunk = readChunk(own, { start: 0, end: own.length, kind });
  moveTo(chunk, start);
  return chunk;
}

/** The one thing about a chunk that changes: where it stands. */
export function moveTo(chunk: Chunk, start: number): void {
  const by = start - chunk.start;
  if (by === 0) return;
  chunk.blocks ??= blocksOf(chunk);
  for (const block of chunk.blocks) block.start += by;
  chunk.start = start;
}

function blocksOf({ root, problems }: Chunk): Block[] {
  const blocks = new Set<Block>();
  if (root) collectBlocks(root, blocks);
  for (const { place, related } of problems) {
    addBlocks(place, blocks);
    for (const each of related ?? []) addBlocks(each.place, blocks);
  }
  return [...blocks];
}

function collectBlocks(node: Node, blocks: Set<Block>): void {
  addBlocks(node.place, blocks);
  if (node.kind === 'sequence') for (const item of node.items) collectBlocks(item, blocks);
  if (node.kind === 'map') for (const entry of node.entries) collectEntry(entry, blocks);
}

function collectEntry(entry: MapEntry, blocks: Set<Block>): void {
  if (entry instanceof TripleRow) {
    blocks.add(entry);
    return;
  }
  const { key, value, place } = entry;
  addBlocks(key.place, blocks);
  addBlocks(place, blocks);
  if (value) collectBlocks(value, blocks);
}

function addBlocks({ block, endBlock }: Place, blocks: Set<Block>): void {
  blocks.add(block);
  if (endBlock) blocks.add(endBlock);
}
