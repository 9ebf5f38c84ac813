import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import type { TimelineEntry } from '../../model/job';
import { partIds, partsOfEntry } from '../../model/resolve/resolved-job';
import { unusable } from '../frame/alignment';
import type { Inspection } from '../job/inspect';
import type { Newest } from '../job/newest';
import type { Dated } from '../job/part-history';
import { readingsById, reads } from '../job/readings-by-id';
import { pointsInScope } from '../job/scope';
import type { Stage } from '../job/stage';
import { partsMovedBy } from '../timeline/worked-parts';

/** A point of the scope of which no reading tells how it stands after the work. */
export interface Unmeasured {
  readonly id: string;
  readonly why: 'never' | 'unreachable' | 'only-under-load' | 'outdated' | 'unusable';
  /** The stage that last read it, whatever that reading is worth. */
  readonly stage: Stage | null;
  /** Its newest released reading, though it counts no longer, was outside. */
  readonly wasOutside: boolean;
  /** The work that its last released reading is older than. */
  readonly work: Dated<TimelineEntry> | null;
}

/** Null where a released reading is newer than the last work on the point's part. */
export function unmeasuredWhy(
  inspection: Inspection,
  id: string,
  newest: Newest | undefined,
): Unmeasured | null {
  const { stages } = inspection;
  const work = lastWork(inspection, id);
  const isOutdated = newest !== undefined && work !== null && work.index > newest.stage.index;
  // the usual case: nothing can be newer than a reading of the last stage
  if (newest !== undefined && newest.stage === stages.at(-1) && !isOutdated) return null;
  const wasOutside = newest?.judged.verdict === 'outside';
  const lastRead = stages.findLast(({ measure }) => reads(measure, id));
  const mentioned = lastRead ?? stages.findLast(({ measure }) => readingsById(measure).get(id)?.unreachable);
  const stage = lastRead ?? newest?.stage ?? mentioned ?? null;
  // a stage measured in a mirror or out of scale is the newest word on its points, and it cannot be understood
  const misread = lastRead?.underTension
    ? stages.findLast(({ measure, underTension }) => !underTension && reads(measure, id))
    : lastRead;
  if (misread !== undefined && unusable(misread.alignment))
    return { id, why: 'unusable', stage: misread, wasOutside, work };
  if (newest !== undefined) return isOutdated ? { id, why: 'outdated', stage, wasOutside, work } : null;
  if (lastRead !== undefined) return { id, why: 'only-under-load', stage, wasOutside, work };
  return { id, why: mentioned === undefined ? 'never' : 'unreachable', stage, wasOutside, work };
}

/** The newest entry that worked on a point's part, or hooked on the point itself. */
export function lastWork(inspection: Inspection, id: string): Dated<TimelineEntry> | null {
  const { byPart, byHook } = lastWorks(inspection);
  if (byPart.size + byHook.size === 0) return null;
  const part = inspection.chassis.points.get(id)?.part ?? null;
  const onPart = part === null ? undefined : byPart.get(part);
  const onPoint = byHook.get(id);
  if (onPart === undefined || onPoint === undefined) return onPart ?? onPoint ?? null;
  return onPart.index > onPoint.index ? onPart : onPoint;
}

/** The newest entry that worked on each part, by its id, and the newest pull by each point that it hooks on. */
const lastWorks = derived(({ job, chassis, work }: Inspection) => {
  const byPart = new Map<string, Dated<TimelineEntry>>();
  const byHook = new Map<string, Dated<TimelineEntry>>();
  for (const { pull: entry, index, loadedPartIds } of work.pulls) {
    for (const id of loadedPartIds) byPart.set(id, { entry, index });
    for (const { hook } of entry.chains) byHook.set(hook.id, { entry, index });
  }
  job.timeline.forEach((entry, index) => {
    for (const id of partsOf(entry, chassis))
      if ((byPart.get(id)?.index ?? -1) < index) byPart.set(id, { entry, index });
  });
  return { byPart, byHook };
});

/** Of an entry that is no pull. `relieve: all` means what is under tension: that is counted as its pull. */
const partsOf = (entry: TimelineEntry, chassis: Chassis): readonly string[] =>
  entry.kind === 'relieve' ? partsOfEntry(entry, chassis) : partsMovedBy(entry, chassis);

/** Parts that the scope names without the sheet having a point on them; '' where nothing at all is to be judged. */
export function withoutPoints(inspection: Inspection): string[] {
  const { job, chassis } = inspection;
  const empty = (job.scope ?? [])
    .filter((mention) => !partIds([mention], chassis).some((id) => partsWithPoints(chassis).has(id)))
    .map(({ id }) => id);
  return empty.length === 0 && pointsInScope(inspection).length === 0 ? [''] : empty;
}

const partsWithPoints = derived(
  ({ points }: Chassis) => new Set([...points.values()].flatMap(({ part }) => part ?? [])),
);
