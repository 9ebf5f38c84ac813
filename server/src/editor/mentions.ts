import { jobMentions, type NamedPlace } from '../model/job-mentions';
import { entryOf } from '../text/tree';
import type { Analysis } from '../workspace/workspace';

/** Every place where a file names a point or a part: the question behind hover, definition, references and rename. */
export function mentionsOf(analysis: Analysis): NamedPlace[] {
  if (analysis.kind === 'readings') return jobMentions(analysis.job);
  if (analysis.kind === 'settings') return [];
  const { tree } = analysis;
  const mentions: NamedPlace[] = [];
  for (const kind of ['part', 'point'] as const) {
    const map = entryOf(tree.root, `${kind}s`)?.value;
    if (map?.kind !== 'map') continue;
    for (const { key, value } of map.entries) {
      mentions.push({ kind, id: String(key.value), place: key.place, bothSides: true });
      const part = kind === 'point' ? entryOf(value, 'part')?.value : undefined;
      if (part?.kind === 'scalar')
        mentions.push({ kind: 'part', id: String(part.value), place: part.place, bothSides: true });
    }
  }
  const spans = entryOf(tree.root, 'spans')?.value;
  for (const span of spans?.kind === 'sequence' ? spans.items : []) {
    for (const end of ['from', 'to']) {
      const id = entryOf(span, end)?.value;
      if (id?.kind === 'scalar')
        mentions.push({ kind: 'point', id: String(id.value), place: id.place, bothSides: true });
    }
  }
  return mentions;
}
