import { copyOf } from '../../memory/copy';
import { ParseState } from '../parse-state';
import type { Block, MapEntry, Node, Place, TextProblem } from '../tree';
import { BlockScanner } from './blocks';
import type { ChunkKind, Cut } from './cuts';
import { structureLinesOf } from './structure';
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

/** Reads one stretch by itself, in place: what is made of it keeps the whole text. */
export function readChunk(text: string, { start, end, kind }: Cut): Chunk {
  const state = new ParseState(text, [], start, end);
  const root = new BlockScanner(state, structureLinesOf(text, start, end)).root();
  return { start, text: text.slice(start, end), kind, root, problems: state.problems.list, blocks: null };
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
