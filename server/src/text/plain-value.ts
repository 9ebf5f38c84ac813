import { type MapEntry, type Node, textOf } from './tree';

/**
 * Plain values for a schema: maps become objects without a prototype (so that a key `__proto__` is a key like
 * any other), sequences arrays, an empty value null.
 */
export const plainValueOf = (node: Node | null): unknown => {
  if (node === null) return null;
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'sequence') return node.items.map(plainValueOf);
  const value: Record<string, unknown> = Object.create(null);
  for (const entry of node.entries) value[textOf(entry.key)] = plainValueOf(entry.value);
  return value;
};

export interface NodeAtPath {
  /** The deepest node on the path that exists; null where the last entry found has no value. */
  readonly node: Node | null;
  /** The deepest map entry passed on the way, if any. */
  readonly entry: MapEntry | null;
  /** How many elements of the path were found. */
  readonly found: number;
  /** The whole path was found. */
  readonly complete: boolean;
}

/** Follows a path of keys and indices as far as it leads. */
export const nodeAtPath = (root: Node | null, path: readonly (string | number)[]): NodeAtPath => {
  let node = root;
  let entry: MapEntry | null = null;
  let found = 0;
  for (const step of path) {
    if (node?.kind === 'map') {
      const next: MapEntry | undefined = node.entries.find(
        (candidate) => textOf(candidate.key) === String(step),
      );
      if (!next) break;
      entry = next;
      node = next.value;
    } else if (
      node?.kind === 'sequence' &&
      typeof step === 'number' &&
      step >= 0 &&
      step < node.items.length
    ) {
      node = node.items[step];
    } else break;
    found++;
  }
  return { node, entry, found, complete: found === path.length };
};
