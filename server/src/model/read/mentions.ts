import { type Node, type Place, textOf } from '../../text/tree';
import type { Mention, SummaryLine } from '../job';

/** A map of free words with the place of each. */
export function wordsOf(node: Node | null | undefined): Map<string, { text: string; place: Place }> {
  const words = new Map<string, { text: string; place: Place }>();
  if (node?.kind !== 'map') return words;
  for (const { key, value } of node.entries) {
    if (value?.kind === 'scalar') words.set(textOf(key), { text: textOf(value), place: value.place });
  }
  return words;
}

export function linesIn(node: Node | null | undefined): SummaryLine[] {
  if (node?.kind !== 'map') return [];
  return node.entries.flatMap(({ key, value }) =>
    value?.kind === 'scalar'
      ? [{ key: textOf(key), text: textOf(value), keyPlace: key.place, valuePlace: value.place }]
      : [],
  );
}

/** The ids of a list, or the one that stands alone. */
export function mentionsIn(node: Node | null | undefined): Mention[] {
  const nodes = node?.kind === 'sequence' ? node.items : node ? [node] : [];
  return nodes.flatMap((item) =>
    item.kind === 'scalar' && typeof item.value === 'string' ? [{ id: item.value, place: item.place }] : [],
  );
}
