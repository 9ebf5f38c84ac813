import { derived } from '../../memory/derived';
import type { Place } from '../../text/tree';
import type { Job, Mention, TimelineEntry } from '../job';

/** Where a job names a point or a part. */
export interface NamedPlace {
  readonly kind: 'point' | 'part';
  /** As written: with its side, or bare where both are meant. */
  readonly id: string;
  readonly place: Place;
  /** A bare sided name stands for both sides here. */
  readonly bothSides: boolean;
}

const point = ({ id, place }: Mention): NamedPlace => ({ kind: 'point', id, place, bothSides: false });
const part = ({ id, place }: Mention): NamedPlace => ({ kind: 'part', id, place, bothSides: false });
const either = (named: NamedPlace): NamedPlace => ({ ...named, bothSides: true });

/** Every name in a job, in text order within each block. */
export const jobMentions = (job: Job): NamedPlace[] => [
  ...headMentions(job),
  ...job.timeline.flatMap(entryMentions),
  ...closingMentions(job),
];

/** Those above the timeline. */
export const headMentions = ({ base, anchors, scope }: Job): NamedPlace[] => [
  ...(base.kind === 'ids' ? base.ids.map(point) : []),
  ...anchors.map(point).map(either),
  ...(scope ?? []).map(part).map(either),
];

/** Those of the sign-off. */
export const closingMentions = ({ signOff }: Job): NamedPlace[] =>
  (signOff?.accepted ?? []).map((accepted) => point(accepted.point));

/** The names in one entry. */
export const entryMentions = derived((entry: TimelineEntry): readonly NamedPlace[] => mentionsIn(entry));

function mentionsIn(entry: TimelineEntry): NamedPlace[] {
  switch (entry.kind) {
    case 'measure':
      return [
        ...entry.readings.map(({ id, key }) => point({ id, place: key })),
        ...entry.spans.flatMap(({ from, to, fromPlace, toPlace }) => [
          point({ id: from, place: fromPlace }),
          point({ id: to, place: toPlace }),
        ]),
      ];
    case 'pull':
      return [
        ...(entry.part ? [part(entry.part)] : []),
        ...entry.chains.map(({ hook }) => point(hook)),
        ...entry.holds.map((hold) => either(hold.kind === 'part' ? part(hold.part) : point(hold.point))),
      ];
    case 'relieve':
    case 'release':
      return entry.parts === 'all' ? [] : entry.parts.map(part).map(either);
    case 'join':
      return [...entry.parts, ...(entry.to ?? [])].map(part).map(either);
    case 'observe':
    case 'section':
    case 'replace':
    case 'heat':
      return entry.part ? [part(entry.part)] : [];
    case 'note':
      return [];
  }
}
