/**
 * The tree that YAML text becomes: values, each with the place where it stands.
 *
 * Text is cut into blocks (a top-level key, a timeline entry, a row of readings) that are parsed one by one.
 * A place is relative to the start of its block, so that a block whose own text did not change keeps its
 * parsed value when the text above it grows or shrinks: only `block.start` moves.
 */

/** A piece of the document that is parsed on its own. `start`: offset of its first character in the document, UTF-16 units. */
export interface Block {
  start: number;
}

/** A half-open stretch of text; `start` relative to `block.start`, `end` to `endBlock.start` (absent: the same block). */
export interface Place {
  readonly block: Block;
  readonly start: number;
  readonly end: number;
  readonly endBlock?: Block;
}

export interface ScalarNode {
  readonly kind: 'scalar';
  /** The value by YAML 1.2's core schema. */
  readonly value: string | number | boolean | null;
  /** The text as written, without quotes' meaning applied: `1,250.5`, `0x1F`. */
  readonly source: string;
  /** False where quoted or a block scalar: then it is text, whatever it looks like. */
  readonly plain: boolean;
  /** An alias stands here: what it stands for is written elsewhere. */
  readonly alias?: true;
  readonly place: Place;
}

export interface MapEntry {
  readonly key: ScalarNode;
  /** Null where nothing stands after the colon. */
  readonly value: Node | null;
  /** From the key to the end of the value, without trailing comments and blank lines. */
  readonly place: Place;
}

export interface MapNode {
  readonly kind: 'map';
  /** In text order, the first of duplicates only. */
  readonly entries: readonly MapEntry[];
  readonly flow: boolean;
  readonly alias?: true;
  readonly place: Place;
}

export interface SequenceNode {
  readonly kind: 'sequence';
  readonly items: readonly Node[];
  readonly flow: boolean;
  /** Columns before the dashes; absent where it stands in brackets. */
  readonly indent?: number;
  readonly alias?: true;
  readonly place: Place;
}

export type Node = ScalarNode | MapNode | SequenceNode;

export type TextRule = 'text/syntax' | 'text/duplicate-key' | 'text/too-large';

/** Something wrong with the text itself. */
export interface TextProblem {
  readonly rule: TextRule;
  readonly message: string;
  readonly place: Place;
  readonly related?: readonly { readonly message: string; readonly place: Place }[];
}

export interface TextTree {
  readonly text: string;
  /** Null where the text holds nothing but comments and blanks. */
  readonly root: Node | null;
  readonly problems: readonly TextProblem[];
}

/** A scalar as text: quotes and escapes resolved; a plain one as it was written (`0012` stays `0012`). */
export const textOf = (scalar: ScalarNode): string =>
  typeof scalar.value === 'string' ? scalar.value : scalar.source;

/** Nothing stands here, or a written null (`~`). */
export const isNothing = (
  node: Node | null | undefined,
): node is null | undefined | (ScalarNode & { value: null }) =>
  !node || (node.kind === 'scalar' && node.value === null);

/** Absolute offsets [start, end) of a place, as the blocks stand now. */
export const offsetsOf = (place: Place): { start: number; end: number } => ({
  start: place.block.start + place.start,
  end: (place.endBlock ?? place.block).start + place.end,
});

/** The absolute offset at which a place begins. */
export const startOf = ({ block, start }: Place): number => block.start + start;

/** The place from the start of one to the end of another. */
export const placeBetween = (first: Place, last: Place): Place => ({
  block: first.block,
  start: first.start,
  end: last.end,
  endBlock: last.endBlock ?? last.block,
});

/** The entry of a map under a key, or undefined. */
export const entryOf = (node: Node | null | undefined, key: string): MapEntry | undefined =>
  node?.kind === 'map'
    ? node.entries.find((entry) => entry.key.source === key || entry.key.value === key)
    : undefined;
