import { BlockScanner } from './blocks';
import { Reading } from './reading';
import { structureLinesOf } from './structure';
import type { Block, MapEntry, Node, Place, TextProblem } from './tree';

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

const keyAtMargin = /^[A-Za-z_][\w-]*:(?=[ \t\r\n]|$)/gm;
const timelineHead = /^timeline:[ \t]*(?:#[^\r\n]*)?(?:\r?\n[ \t]*(?:#[^\r\n]*)?)*(?=\r?\n( *)-[ \t\r\n])/;

/**
 * How a text is cut; null where it cannot be cut safely and is read as a whole: anchors tie distant lines together, and something
 * stands before the first key.
 */
export function cutsOf(text: string): Cut[] | null {
  // a line separator is no line break to YAML, but is one to regular expressions
  if (/[\u2028\u2029]/.test(text)) return null;
  if (/(?:^|[\s[{,:-])[&*][^\s,[\]{}]/.test(text)) return null;
  const starts: number[] = [];
  keyAtMargin.lastIndex = 0;
  for (let found = keyAtMargin.exec(text); found; found = keyAtMargin.exec(text)) starts.push(found.index);
  if (starts.length === 0 || !/^(?:[ \t]*(?:#[^\r\n]*)?\r?\n)*$/.test(text.slice(0, starts[0]))) return null;
  return starts.flatMap((start, i) => {
    const end = starts[i + 1] ?? text.length;
    return (text.startsWith('timeline:', start) ? timelineCuts(text, start, end) : null) ?? [{ start, end, kind: 'key' as const }];
  });
}

/** The timeline cut into its entries; null where its lines are not that simple. */
function timelineCuts(text: string, start: number, end: number): Cut[] | null {
  const stretch = text.slice(start, end);
  const head = timelineHead.exec(stretch);
  if (head === null) return null;
  const indent = head[1].length;
  // every line at or left of the dashes is an entry, a comment or blank
  const stray = new RegExp(`^ {0,${indent}}(?! |#|\\r?$|-(?:[ \\t]|\\r?$))`, 'm');
  const from = head[0].length;
  if (stray.test(stretch.slice(from + 1))) return null;
  const shallow = indent === 0 ? null : new RegExp(`^ {0,${indent - 1}}-`, 'm');
  if (shallow?.test(stretch.slice(from))) return null;
  const item = new RegExp(`^ {${indent}}-(?=[ \\t]|\\r?$)`, 'gm');
  const starts: number[] = [];
  item.lastIndex = from;
  for (let found = item.exec(stretch); found; found = item.exec(stretch)) starts.push(start + found.index);
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

function collectEntry({ key, value, place }: MapEntry, blocks: Set<Block>): void {
  addBlocks(key.place, blocks);
  addBlocks(place, blocks);
  if (value) collectBlocks(value, blocks);
}

function addBlocks({ block, endBlock }: Place, blocks: Set<Block>): void {
  blocks.add(block);
  if (endBlock) blocks.add(endBlock);
}
