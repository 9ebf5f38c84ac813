import type { Finding, TextRange } from '../../findings/rule/finding';
import type { Replacement } from '../../model/problem';
import { entryOf, type MapEntry, type Node, offsetsOf, textOf } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { contains } from '../places';
import type { Action } from './code-action';

/** The fixes of the findings at a range. One that would write a name where it stands already mends nothing and is not offered. */
export function fixActions({ findings, tree }: Analysis, range: TextRange): Action[] {
  return findings
    .filter(
      (finding) =>
        finding.ignored === null && finding.range.start <= range.end && finding.range.end >= range.start,
    )
    .flatMap((finding) =>
      finding.replacements
        .filter((replacement) => !repeatsName(tree.root, replacement))
        .map((replacement) => fixOf(finding, replacement)),
    );
}

const fixOf = (finding: Finding, { title, place, text, also }: Replacement): Action => ({
  title,
  kind: 'quickfix',
  edits: [{ place, text }, ...(also ?? [])].map((each) => ({
    ...offsetsOf(each.place),
    text: each.text,
  })),
  preferred: finding.replacements.length === 1,
  mends: finding,
});

/** Whether the text is a key of the same map already, or the other end of the same span. */
function repeatsName(root: Node | null, { place, text, also }: Replacement): boolean {
  // names that change places, or rows together
  if (also) return false;
  const { start } = offsetsOf(place);
  let node = root;
  while (node?.kind === 'map' || node?.kind === 'sequence') {
    if (node.kind === 'sequence') {
      const item: Node | undefined = node.items.find((each) => contains(each.place, start));
      if (isEnd(item, start) && node.items.slice(0, 2).some((each) => each !== item && says(each, text)))
        return true;
      node = item ?? null;
    } else {
      const entry: MapEntry | undefined = node.entries.find((each) => contains(each.place, start));
      if (entry === undefined) return false;
      if (offsetsOf(entry.key.place).start === start) return node.entries.some(({ key }) => says(key, text));
      const other = otherEnd.get(entry.key.value);
      if (other !== undefined && says(entryOf(node, other)?.value, text)) return true;
      node = entry.value;
    }
  }
  return false;
}

const otherEnd: ReadonlyMap<unknown, string> = new Map([
  ['from', 'to'],
  ['to', 'from'],
]);

const isEnd = (node: Node | undefined, start: number): boolean =>
  node?.kind === 'scalar' && offsetsOf(node.place).start === start;

const says = (node: Node | null | undefined, text: string): boolean =>
  node?.kind === 'scalar' && textOf(node) === text;
