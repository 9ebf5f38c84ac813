import type { TextRange } from '../findings/rule/finding';
import { type Node, offsetsOf, type Place } from '../text/tree';

export const contains = (place: Place, offset: number): boolean => {
  const { start, end } = offsetsOf(place);
  return offset >= start && offset <= end;
};

export const overlaps = (place: Place, range: TextRange): boolean => {
  const { start, end } = offsetsOf(place);
  return range.start <= end && range.end >= start;
};

/** The keys and indices that lead to what stands at an offset, and the key's own place where the offset is on a key. */
export function pathAt(root: Node | null, offset: number): { path: (string | number)[]; key: Place | null } {
  const path: (string | number)[] = [];
  let node = root;
  for (;;) {
    if (node?.kind === 'map') {
      const entry: (typeof node.entries)[number] | undefined = node.entries.find((each) =>
        contains(each.place, offset),
      );
      if (!entry) return { path, key: null };
      path.push(String(entry.key.value));
      if (contains(entry.key.place, offset)) return { path, key: entry.key.place };
      node = entry.value;
    } else if (node?.kind === 'sequence') {
      const index: number = node.items.findIndex((item) => contains(item.place, offset));
      if (index < 0) return { path, key: null };
      path.push(index);
      node = node.items[index];
    } else return { path, key: null };
  }
}

/** Whether a range touches the line on which a place begins, from there on: the title of an entry beside its key. */
export function onFirstLine(place: Place, text: string, range: TextRange): boolean {
  const { start } = offsetsOf(place);
  const rest = text.slice(start).search(/[\r\n]/);
  const end = rest < 0 ? text.length : start + rest;
  return range.start <= end && range.end >= start;
}

/** Whether an offset lies inside a scalar, with some of it before and behind: a comment there would be a part of it. */
export function scalarAt(root: Node | null, offset: number): boolean {
  let node = root;
  for (;;) {
    const inner: Node | null | undefined =
      node?.kind === 'map'
        ? node.entries
            .flatMap(({ key, value }) => (value ? [key, value] : [key]))
            .find((each) => holds(each.place, offset))
        : node?.kind === 'sequence'
          ? node.items.find((item) => holds(item.place, offset))
          : null;
    if (node?.kind === 'scalar') return holds(node.place, offset);
    if (!inner) return false;
    node = inner;
  }
}

const holds = (place: Place, offset: number): boolean => {
  const { start, end } = offsetsOf(place);
  return offset > start && offset < end;
};
