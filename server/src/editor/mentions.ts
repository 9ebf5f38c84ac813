import type { Job } from '../model/job';
import { type Place, entryOf } from '../text/tree';
import type { Analysis } from '../workspace/workspace';

/** Where a file names a point or a part. The question behind hover, definition, references and rename. */
export interface NamedPlace {
  readonly kind: 'point' | 'part';
  /** As written: with its side, or bare where both are meant. */
  readonly id: string;
  readonly place: Place;
}

export function mentionsOf(analysis: Analysis): NamedPlace[] {
  if (analysis.kind === 'readings') return ofJob(analysis.job);
  if (analysis.kind === 'settings') return [];
  const { tree } = analysis;
  const mentions: NamedPlace[] = [];
  for (const kind of ['part', 'point'] as const) {
    const map = entryOf(tree.root, `${kind}s`)?.value;
    if (map?.kind !== 'map') continue;
    for (const { key, value } of map.entries) {
      mentions.push({ kind, id: String(key.value), place: key.place });
      const part = kind === 'point' ? entryOf(value, 'part')?.value : undefined;
      if (part?.kind === 'scalar') mentions.push({ kind: 'part', id: String(part.value), place: part.place });
    }
  }
  const spans = entryOf(tree.root, 'spans')?.value;
  for (const span of spans?.kind === 'sequence' ? spans.items : []) {
    for (const end of ['from', 'to']) {
      const id = entryOf(span, end)?.value;
      if (id?.kind === 'scalar') mentions.push({ kind: 'point', id: String(id.value), place: id.place });
    }
  }
  return mentions;
}

function ofJob(job: Job): NamedPlace[] {
  const mentions: NamedPlace[] = [];
  const add = (kind: 'point' | 'part', mention: { id: string; place: Place } | null) => {
    if (mention) mentions.push({ kind, id: mention.id, place: mention.place });
  };
  if (job.base.kind === 'ids') for (const mention of job.base.ids) add('point', mention);
  for (const mention of job.anchors) add('point', mention);
  for (const mention of job.scope ?? []) add('part', mention);
  for (const entry of job.timeline) {
    switch (entry.kind) {
      case 'measure':
        for (const reading of entry.readings) add('point', { id: reading.id, place: reading.key });
        for (const span of entry.spans) {
          add('point', { id: span.from, place: span.fromPlace });
          add('point', { id: span.to, place: span.toPlace });
        }
        break;
      case 'pull':
        add('part', entry.part);
        for (const chain of entry.chains) add('point', chain.hook);
        for (const hold of entry.holds) hold.kind === 'part' ? add('part', hold.part) : add('point', hold.point);
        break;
      case 'relieve':
      case 'release':
        if (entry.parts !== 'all') for (const mention of entry.parts) add('part', mention);
        break;
      case 'observe':
      case 'section':
      case 'replace':
      case 'heat':
        add('part', entry.part);
        break;
    }
  }
  for (const accepted of job.signOff?.accepted ?? []) add('point', accepted.point);
  return mentions;
}
