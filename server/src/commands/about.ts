import type { Finding, TextRange } from '../findings/rule/finding';
import { ruleNamed } from '../findings/rule-list';
import { type MapEntry, type Node, offsetsOf, type TextTree, textOf } from '../text/tree';

/**
 * Whether a baseline may hold a finding: no rule that guards work or sign-off, and nothing that stands against a signature.
 */
export const mayBeKnown = ({ rule, severity, ignored }: Finding, isClosed: boolean): boolean =>
  ignored === null &&
  severity !== 'information' &&
  ruleNamed(rule)?.unchangeable !== true &&
  !(isClosed && severity === 'error');

/** What a finding is said of, by the names on the way to it: the same wherever it stands in the file. */
export function aboutAt({ root }: TextTree, { start }: TextRange): string {
  const names: string[] = [];
  let node: Node | null | undefined = root;
  while (node && node.kind !== 'scalar') {
    if (node.kind === 'sequence') {
      const item: Node | undefined = node.items.find((each) => holds(each, start));
      const name = item === undefined ? null : itemName(item);
      if (name !== null) names.push(name);
      node = item;
    } else {
      const entry: MapEntry | undefined = node.entries.find((each) => holds(each, start));
      if (entry !== undefined) names.push(textOf(entry.key));
      node = entry?.value;
    }
  }
  return names.join(' > ').slice(0, longest);
}

const longest = 300;

const holds = ({ place }: Pick<Node, 'place'>, offset: number): boolean => {
  const { start, end } = offsetsOf(place);
  return start <= offset && offset < Math.max(end, start + 1);
};

/** An entry of a timeline by its first line, a distance by its ends; null for what has no name. A figure is none: it may be mended. */
function itemName(item: Node): string | null {
  if (item.kind === 'scalar') return wordsIn([item])[0] ?? null;
  if (item.kind === 'map') return wordsIn([item.entries[0]?.value ?? null])[0] ?? null;
  const words = wordsIn(item.items);
  return words.length === 0 ? null : words.join(' ');
}

const wordsIn = (nodes: readonly (Node | null)[]): string[] =>
  nodes.flatMap((each) => (each?.kind === 'scalar' && typeof each.value === 'string' ? [textOf(each)] : []));
