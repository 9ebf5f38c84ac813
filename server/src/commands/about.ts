import type { Finding, TextRange } from '../findings/rule/finding';
import { ruleNamed } from '../findings/rule-list';
import { type MapEntry, type Node, offsetsOf, type TextTree, textOf } from '../text/tree';

/**
 * Whether a baseline may hold a finding: no rule that guards work or sign-off, nothing that stands against a signature, and nothing for
 * which the text is broken: behind that, new faults would not be found.
 */
export const mayBeKnown = (
  { rule, severity, ignored }: Finding,
  { problems }: Pick<TextTree, 'problems'>,
  isClosed: boolean,
): boolean =>
  ignored === null &&
  severity !== 'information' &&
  ruleNamed(rule)?.unchangeable !== true &&
  !(isClosed && severity === 'error') &&
  !problems.some((problem) => problem.rule === rule);

/**
 * What a finding is said of, by the names on the way to it: the same wherever it stands in the file. Null where these are too long to tell
 * it from another.
 */
export function aboutAt({ root }: TextTree, { start }: TextRange): string | null {
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
  const about = names.join(' > ');
  return about.length > longest ? null : about;
}

const longest = 300;

const holds = ({ place }: Pick<Node, 'place'>, offset: number): boolean => {
  const { start, end } = offsetsOf(place);
  return start <= offset && offset < Math.max(end, start + 1);
};

/**
 * An entry of a timeline by its first line, be its name a number; a distance by its ends; null for what has no name. A figure in a list is
 * none: it may be mended.
 */
function itemName(item: Node): string | null {
  if (item.kind === 'scalar') return wordsIn([item])[0] ?? null;
  if (item.kind === 'map') {
    const first = item.entries[0]?.value;
    return first?.kind === 'scalar' ? textOf(first) : null;
  }
  const words = wordsIn(item.items);
  return words.length === 0 ? null : words.join(' ');
}

const wordsIn = (nodes: readonly (Node | null)[]): string[] =>
  nodes.flatMap((each) => (each?.kind === 'scalar' && typeof each.value === 'string' ? [textOf(each)] : []));
