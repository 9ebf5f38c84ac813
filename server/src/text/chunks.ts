import { BlockScanner } from './blocks';
import { COLON, DASH, HASH, SPACE } from './characters';
import { beginsLikeMarker } from './document';
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
  /** All blocks that its nodes and problems are placed by. */
  readonly blocks: readonly Block[];
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
  // a line separator is no line break to YAML, but is one to regular expressions
  if (text.includes('\u2028') || text.includes('\u2029') || text.charCodeAt(0) === 0xfeff) return null;
  if (text.includes('\r') && /\r(?!\n)/.test(text)) return null;
  if ((text.includes('&') || text.includes('*')) && /(?:^|[\s[{,:-])[&*][^\s,[\]{}]/.test(text)) return null;
  const cuts: Cut[] = [];
  let start = -1;
  for (let at = 0; at < text.length; at = nextLine(text, at)) {
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
      if (code === 9) return null;
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

/** Reads one stretch by itself. */
export function readChunk(text: string, { start, end, kind }: Cut): Chunk {
  const own = text.slice(start, end);
  const reading = new Reading(own, []);
  const root = new BlockScanner(reading, structureLinesOf(own, 0, own.length)).root();
  const problems = reading.problems.list;
  const blocks = new Set<Block>();
  if (root) collectBlocks(root, blocks);
  for (const { place, related } of problems) {
    addBlocks(place, blocks);
    for (const each of related ?? []) addBlocks(each.place, blocks);
  }
  const chunk = { start: 0, text: own, kind, root, problems, blocks: [...blocks] };
  moveTo(chunk, start);
  return chunk;
}

/** The one thing about a chunk that changes: where it stands. */
export function moveTo(chunk: Chunk, start: number): void {
  const by = start - chunk.start;
  if (by === 0) return;
  for (const block of chunk.blocks) block.start += by;
  chunk.start = start;
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
