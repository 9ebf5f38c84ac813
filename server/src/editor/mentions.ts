import type { Job, SummaryLine } from '../model/job';
import { mentionsIn } from '../model/read/mentions';
import { jobMentions, type NamedPlace } from '../model/resolve/job-mentions';
import { entryOf, type Node, type TextTree, textOf } from '../text/tree';

/** A file, judged or not. */
export type NamingFile =
  | { readonly kind: 'readings'; readonly job: Job }
  | { readonly kind: 'chassis'; readonly tree: TextTree }
  | { readonly kind: 'settings' };

/** Every place where a file names a point or a part: the question behind hover, definition, references and rename. */
export function mentionsOf(file: NamingFile): NamedPlace[] {
  if (file.kind === 'readings') return [...jobMentions(file.job), ...summaryMentions(file.job)];
  if (file.kind === 'settings') return [];
  const { tree } = file;
  const mentions: NamedPlace[] = [];
  for (const kind of ['part', 'point'] as const) {
    const map = entryOf(tree.root, `${kind}s`)?.value;
    if (map?.kind !== 'map') continue;
    for (const { key, value } of map.entries) {
      mentions.push({ kind, id: textOf(key), place: key.place, bothSides: true });
      const part = kind === 'point' ? entryOf(value, 'part')?.value : undefined;
      if (part?.kind === 'scalar')
        mentions.push({ kind: 'part', id: textOf(part), place: part.place, bothSides: true });
      if (kind === 'part') mentions.push(...listed('part', entryOf(value, 'joined')?.value));
    }
  }
  const members = entryOf(tree.root, 'members')?.value;
  for (const { value } of members?.kind === 'map' ? members.entries : [])
    mentions.push(...listed('point', entryOf(value, 'mounts')?.value));
  const spans = entryOf(tree.root, 'spans')?.value;
  for (const span of spans?.kind === 'sequence' ? spans.items : []) {
    for (const end of ['from', 'to']) {
      const id = entryOf(span, end)?.value;
      if (id?.kind === 'scalar')
        mentions.push({ kind: 'point', id: textOf(id), place: id.place, bothSides: true });
    }
  }
  return mentions;
}

const listed = (kind: NamedPlace['kind'], list: Node | null | undefined): NamedPlace[] =>
  mentionsIn(list).map(({ id, place }) => ({ kind, id, place, bothSides: true }));

/** The parts that lines of a summary begin with: `front-rail.L twist`. */
const summaryMentions = (job: Job): NamedPlace[] =>
  job.timeline.flatMap((entry) => (entry.kind === 'measure' ? entry.summary.flatMap(partOfLine) : []));

function partOfLine({ key, keyPlace }: SummaryLine): NamedPlace[] {
  const id = /^(\S+)\s+\S+$/.exec(key)?.[1];
  // plain, or in quotes without escapes: otherwise what stands there is not what is meant
  const before = (keyPlace.end - keyPlace.start - key.length) / 2;
  if (id === undefined || (before !== 0 && before !== 1)) return [];
  const start = keyPlace.start + before;
  return [
    { kind: 'part', id, place: { block: keyPlace.block, start, end: start + id.length }, bothSides: false },
  ];
}
