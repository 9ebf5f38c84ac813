import { type Seals, sealsOf } from '../../inspection/gate/seal';
import type { Chassis } from '../../model/chassis';
import { jobFrom } from '../../model/read/job-from-text';
import type { DecisionRule } from '../../model/read/settings';
import { newestJudging } from '../../model/resolve/judging';
import { applyEdits, entryInsertion, entryReplacement, type TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { entryOf, type MapNode, type Node, offsetsOf, type TextTree } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { scalarAt } from '../places';

/** The block of a sign-off as text, for the light bulb and the command line alike. */

/** What a signature says. Values are text as it shall stand in the file. */
interface Signature {
  readonly by: string;
  readonly date: string;
  /** Items of the list, as text; a comment stands on a line of its own. */
  readonly accepted: readonly string[];
  readonly earlier: readonly string[];
}

/** A signature that waits for its seals, below the last key of the file. Null where the file cannot take one. */
export function signatureEdit(tree: TextTree, { by, date, accepted, earlier }: Signature): TextEdit | null {
  if (tree.root?.kind !== 'map') return null;
  const listed = (key: string, items: readonly string[]): string[] =>
    items.length === 0
      ? []
      : [`${key}:`, ...items.map((item) => (item.startsWith('#') ? `  ${item}` : `  - ${item}`))];
  return entryInsertion(tree, tree.root, 'sign-off', [
    '',
    `by: ${by}`,
    `date: ${date}`,
    `judged-by: ${newestJudging}`,
    ...listed('accepted', accepted),
    ...listed('earlier', earlier),
  ]);
}

const noSeals: Seals = { readings: `seal1-${'0'.repeat(16)}`, chassis: `seal1-${'0'.repeat(16)}` };

/** Seals the sign-off of a file as it is now; null where there is none, or its block cannot take them. */
export function sealing(tree: TextTree, chassis: Chassis, rule: DecisionRule): TextEdit[] | null {
  // a block without its required keys would be read as another version's
  const blank = sealEdits(tree, noSeals);
  const job = blank && jobFrom('', parseText(applyEdits(tree.text, blank)));
  return job?.signOff ? sealEdits(tree, sealsOf(job, chassis, job.signOff, rule)) : null;
}

/** Writes the seals into the block of a sign-off that has none; in the place of a fingerprint where one stands there. */
function sealEdits(tree: TextTree, { readings, chassis }: Seals): TextEdit[] | null {
  const block = blockOf(tree);
  if (block === null) return null;
  const old = entryOf(block, 'chassis');
  if (old === undefined) {
    // one edit: two at one place would lean on their order
    const anchor = entryOf(block, 'date');
    const first = entryInsertion(tree, block, 'readings', [readings], anchor);
    const second = entryInsertion(tree, block, 'chassis', [chassis], anchor);
    return first && second && [{ ...first, text: first.text + second.text }];
  }
  const replaced = entryReplacement(tree, block, old, [chassis]);
  const added = entryInsertion(tree, block, 'readings', [readings], old);
  return replaced && added && [replaced, added];
}

const blockOf = ({ root }: TextTree): MapNode | null => {
  const block = entryOf(root, 'sign-off')?.value;
  return block?.kind === 'map' ? block : null;
};

/** Takes the sign-off out, with the lines on which it stands. Null where it shares a line with something else. */
export function removalEdit(tree: TextTree): TextEdit | null {
  const entry = entryOf(tree.root, 'sign-off');
  if (entry === undefined || tree.root?.kind !== 'map' || tree.root.flow) return null;
  const lines = linesOf(tree.text);
  const { start, end } = offsetsOf(entry.place);
  const first = lines.positionAt(start).line;
  // a blank line before it belongs to it
  const from = first > 0 && lines.lineText(first - 1).trim() === '' ? first - 1 : first;
  const last = lines.positionAt(Math.max(start, end - 1)).line;
  const stop = last + 1 < lines.lineCount ? lines.startOf(last + 1) : tree.text.length;
  return { start: lines.startOf(from), end: stop, text: '' };
}

/** The signatures of a file, each on one line as an item of `earlier`, the oldest first, its comments above it. */
export function signaturesIn(tree: TextTree): string[] {
  const block = blockOf(tree);
  if (block === null) return [];
  const earlier = entryOf(block, 'earlier');
  const before = earlier?.value?.kind === 'sequence' ? earlier.value.items : [];
  const own = { ...block, entries: block.entries.filter(({ key }) => key.value !== 'earlier') };
  const from = earlier === undefined ? null : offsetsOf(earlier.place).start;
  const lines = linesOf(tree.text);
  const lineEnds = before.map(({ place }) =>
    lines.endOf(lines.positionAt(Math.max(0, offsetsOf(place).end - 1)).line),
  );
  /** Which of the earlier ones a comment belongs to; -1: to the newest. */
  const ownerOf = (start: number): number =>
    from === null || start < from ? -1 : lineEnds.findIndex((end) => start < end);
  const comments = signOffComments(tree);
  const textsOf = (owner: number): string[] =>
    comments.filter(({ start }) => ownerOf(start) === owner).map(({ text }) => text);
  return [...before.flatMap((item, i) => [...textsOf(i), onOneLine(item)]), ...textsOf(-1), onOneLine(own)];
}

interface Comment {
  readonly start: number;
  readonly text: string;
}

/** The comments that go with the lines of a sign-off. One that silenced a line there has none to silence elsewhere: it is kept as words. */
export function signOffComments(tree: TextTree): Comment[] {
  const removal = removalEdit(tree);
  if (removal === null) return [];
  const { text, root } = tree;
  const lines = linesOf(text);
  const comments: Comment[] = [];
  for (let at = text.indexOf('#', removal.start); at >= 0 && at < removal.end; ) {
    const isComment = (at === 0 || /\s/.test(text[at - 1])) && !scalarAt(root, at);
    const end = isComment ? lines.endOf(lines.positionAt(at).line) : at + 1;
    if (isComment)
      comments.push({
        start: at,
        text: text
          .slice(at, end)
          .trim()
          .replace(/^#+\s*(?=framewright-ignore)/, '# was: '),
      });
    at = text.indexOf('#', end);
  }
  return comments;
}

/** The items of `accepted`, each on one line. */
export function acceptedIn(tree: TextTree): string[] {
  const list = entryOf(blockOf(tree), 'accepted')?.value;
  return list?.kind === 'sequence' ? list.items.map(onOneLine) : [];
}

/** A value in braces and brackets; its words stay as they were written, a text always in quotes. */
function onOneLine(node: Node): string {
  if (node.kind === 'scalar')
    return typeof node.value === 'string' ? JSON.stringify(node.value) : node.source.trim();
  if (node.kind === 'sequence') return `[${node.items.map(onOneLine).join(', ')}]`;
  const pairs = node.entries.map(
    ({ key, value }) => `${key.value}: ${value === null ? '' : onOneLine(value)}`,
  );
  return `{ ${pairs.join(', ')} }`;
}

/** A text that was signed, sealed and all; null where its block cannot take that. */
export function signedText(
  tree: TextTree,
  signature: Signature,
  chassis: Chassis,
  rule: DecisionRule,
): string | null {
  const edit = signatureEdit(tree, signature);
  if (edit === null) return null;
  const unsealed = parseText(applyEdits(tree.text, [edit]));
  const edits = sealing(unsealed, chassis, rule);
  return edits && applyEdits(unsealed.text, edits);
}
