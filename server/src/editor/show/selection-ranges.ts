import type { TextRange } from '../../findings/rule/finding';
import { nameOf, sideOf } from '../../model/names';
import { linesOf } from '../../text/lines';
import { type Node, offsetsOf, textOf } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { contains } from '../places';

/**
 * What "expand selection" selects at an offset, innermost first, each inside the next: the name, the id with its side, the number, the
 * triple, the row, the block, the entry, the file.
 */
export function selectionsAt({ text, tree }: Analysis, offset: number): TextRange[] {
  const outermost: TextRange[] = [{ start: 0, end: text.length }];
  let node = tree.root;
  while (node) {
    outermost.push(offsetsOf(node.place));
    node = childAt(node, offset, outermost);
  }
  const lines = linesOf(text);
  const { line } = lines.positionAt(offset);
  const comment = /(?:^|\s)(#[\s\S]*)$/.exec(lines.lineText(line));
  const start = lines.endOf(line) - (comment?.[1].length ?? 0);
  if (comment && offset >= start) outermost.push({ start, end: lines.endOf(line) });
  return nested(outermost, offset).reverse();
}

/** The node inside that holds the offset; the ranges between are added on the way. */
function childAt(node: Node, offset: number, ranges: TextRange[]): Node | null {
  if (node.kind === 'sequence') return node.items.find((item) => contains(item.place, offset)) ?? null;
  if (node.kind === 'scalar') {
    const { start, end } = offsetsOf(node.place);
    const id = textOf(node);
    // an id's name without its side
    if (sideOf(id) !== null && end - start === id.length && offset <= start + nameOf(id).length)
      ranges.push({ start, end: start + nameOf(id).length });
    return null;
  }
  const entry = node.entries.find(({ place }) => contains(place, offset));
  if (!entry) return null;
  ranges.push(offsetsOf(entry.place));
  return contains(entry.key.place, offset)
    ? entry.key
    : entry.value && contains(entry.value.place, offset)
      ? entry.value
      : null;
}

/** Those that hold the offset, each strictly inside the one before it: what an alias repeats stands elsewhere. */
function nested(ranges: readonly TextRange[], offset: number): TextRange[] {
  const kept: TextRange[] = [];
  for (const range of ranges) {
    const outer = kept.at(-1);
    const isInside =
      !outer ||
      (range.start >= outer.start &&
        range.end <= outer.end &&
        range.end - range.start < outer.end - outer.start);
    if (isInside && range.start <= offset && range.end >= offset) kept.push(range);
  }
  return kept;
}
