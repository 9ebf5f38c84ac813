import type { MapEntry, MapNode, TextTree } from './tree';

/** Absolute offsets, half-open. */
export interface TextEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export const applyEdits = (_text: string, _edits: readonly TextEdit[]): string => {
  throw new Error('being written');
};

/** Adds `key:` with a value after `after` (or after the last entry). One value line stands after the colon, more are indented below it. */
export const entryInsertion = (
  _tree: TextTree,
  _map: MapNode,
  _key: string,
  _valueLines: readonly string[],
  _after?: MapEntry,
): TextEdit => {
  throw new Error('being written');
};

/** Writes an entry anew under its key. */
export const entryReplacement = (
  _tree: TextTree,
  _map: MapNode,
  _entry: MapEntry,
  _valueLines: readonly string[],
): TextEdit => {
  throw new Error('being written');
};

/** A scalar that YAML reads back as the same string: plain where it can be, else double-quoted. */
export const plainOrQuoted = (_text: string): string => {
  throw new Error('being written');
};
