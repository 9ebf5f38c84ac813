import { derived } from '../../memory/derived';
import type { Chassis, Point } from '../chassis';
import type { BaseSetting, Job, Mention, TimelineEntry } from '../job';
import { idsNamed } from '../names';

/** What the head of a job means on its chassis: names as ids, settled once for all who ask. */
interface ResolvedJob {
  /** Parts of the `scope`; null where none is stated. */
  readonly scope: ReadonlySet<string> | null;
  /** Where the car is anchored: the points that are known. */
  readonly anchors: readonly Point[];
  /** Points that may serve as control points here, under the job's `base`. */
  readonly controlIds: ReadonlySet<string>;
}

export const resolvedJob = derived(
  (job: Job, chassis: Chassis): ResolvedJob => ({
    scope: job.scope && new Set(partIds(job.scope, chassis)),
    anchors: job.anchors.flatMap(({ id }) =>
      idsNamed(id, chassis.points).map((each) => chassis.points.get(each)!),
    ),
    controlIds: controlIdsOf(job.base, chassis),
  }),
);

/** The parts that mentions name; a bare sided name stands for both sides, an unknown one for itself. */
export const partIds = (mentions: readonly Mention[], chassis: Chassis): string[] =>
  mentions.flatMap(({ id }) => {
    const ids = idsNamed(id, chassis.parts);
    return ids.length > 0 ? ids : [id];
  });

/** The ids of the parts that an entry is about; of those that `all` means none: what is under tension tells. */
export const partsOfEntry = derived((entry: TimelineEntry, chassis: Chassis): readonly string[] => {
  switch (entry.kind) {
    case 'observe':
    case 'pull':
      return entry.part === null ? [] : partIds([entry.part], chassis);
    case 'section':
    case 'replace':
    case 'heat':
      return partIds([entry.part], chassis);
    case 'relieve':
    case 'release':
      return entry.parts === 'all' ? [] : partIds(entry.parts, chassis);
    case 'join':
      return partIds(entry.parts, chassis);
    case 'measure':
    case 'note':
      return [];
  }
});

/** Whether a point stands in the zone that a `base` gives; everywhere where it gives none. */
export const inZoneOf = (base: BaseSetting, { reference: [x] }: Point): boolean =>
  base.kind !== 'between' || (x >= base.fromMm && x <= base.toMm);

/** The control points that a chassis marks. */
export const markedPoints = derived((chassis: Chassis): readonly Point[] =>
  [...chassis.points.values()].filter(({ base }) => base),
);

/** The ids of the marked points: in most jobs those that count. */
const markedIds = derived((chassis: Chassis) => idsIn(markedPoints(chassis)));

function controlIdsOf(base: BaseSetting, chassis: Chassis): ReadonlySet<string> {
  if (base.kind === 'ids') return idsIn(base.ids);
  if (base.kind === 'auto') return markedIds(chassis);
  return idsIn(markedPoints(chassis).filter((point) => inZoneOf(base, point)));
}

const idsIn = (named: readonly { readonly id: string }[]): ReadonlySet<string> =>
  new Set(named.map(({ id }) => id));
