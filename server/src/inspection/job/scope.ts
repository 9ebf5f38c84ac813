import { derived } from '../../memory/derived';
import type { Measure } from '../../model/job';
import { mirroredId } from '../../model/names';
import { isHeldTo } from '../../model/resolve/judging';
import { resolvedJob } from '../../model/resolve/resolved-job';
import { partsWorkedOn } from '../timeline/worked-parts';
import type { Inspection } from './inspect';
import { newestReleased } from './newest';
import { openDamage } from './open-damage';
import { readingsById, reads } from './readings-by-id';
import { tramOnly } from './tram';

/**
 * The points that the job must show within tolerance: those of the parts in `scope`; without one, those of the parts ever read, and the
 * points of no part that were read; in any case those of parts worked on or with open damage.
 */
export const pointsInScope = derived((inspection: Inspection): readonly string[] => {
  const { job, chassis } = inspection;
  const stated = resolvedJob(job, chassis).scope;
  const parts =
    stated === null
      ? partsTouched(inspection)
      : new Set([...stated, ...partsAddedToScope(inspection).keys()]);
  const isMentioned = isMentionedIn(inspection);
  const ids: string[] = [];
  for (const { id, part } of chassis.points.values()) {
    const isMeant = part !== null ? parts.has(part) : job.scope === null && isMentioned(id);
    if (isMeant) ids.push(id);
  }
  return ids;
});

/** The ends of the distances of a measure: all that it names, and those of a distance with a number. */
const spanEnds = derived(({ spans }: Measure) => {
  const named = new Set<string>();
  const measured = new Set<string>();
  for (const { from, to, unreachable } of spans)
    for (const id of [from, to]) {
      named.add(id);
      if (!unreachable) measured.add(id);
    }
  return { named, measured };
});

/**
 * Whether a point was read, or said to be unreachable, anywhere in the job. A distance reads a point only where there is nothing else.
 * Most points were judged: then there is no need to look through the rows.
 */
export function isMentionedIn(inspection: Inspection): (id: string) => boolean {
  const { job, stages } = inspection;
  const judged = newestReleased(inspection);
  const names = isTramOnly(job) ? (measure: Measure) => spanEnds(measure).named : readingsById;
  return (id) => judged.has(id) || stages.some(({ measure }) => names(measure).has(id));
}

/** Whether a point was read with numbers, be it as the end of a distance. */
export function isMeasuredIn(inspection: Inspection): (id: string) => boolean {
  const { stages } = inspection;
  const judged = newestReleased(inspection);
  return (id) =>
    judged.has(id) || stages.some(({ measure }) => reads(measure, id) || spanEnds(measure).measured.has(id));
}

const isTramOnly = derived(tramOnly);

/** Why a part belongs to the scope though the file does not name it there. */
export type AddedBecause = 'worked on' | 'damaged';

/** Parts that a stated scope leaves out and that are judged all the same, by id: what was worked on may have moved, and open damage is in the car. */
export const partsAddedToScope = derived((inspection: Inspection): ReadonlyMap<string, AddedBecause> => {
  const { job, chassis } = inspection;
  const { scope } = resolvedJob(job, chassis);
  return new Map(
    scope === null || !isHeldTo('0.2', job)
      ? []
      : [...partsConcerned(inspection)].filter(([id]) => !scope.has(id)),
  );
});

const partsConcerned = derived((inspection: Inspection): ReadonlyMap<string, AddedBecause> => {
  const { job, chassis, work } = inspection;
  const damaged = openDamage(inspection).map(({ part }): [string, AddedBecause] => [part.id, 'damaged']);
  const worked = [
    ...job.timeline.flatMap((entry) => partsWorkedOn(entry, chassis)),
    // relief and release are of parts that were pulled
    ...work.pulls.flatMap(({ loadedPartIds }) => loadedPartIds),
  ].map((id): [string, AddedBecause] => [id, 'worked on']);
  return new Map([...damaged, ...worked].filter(([id]) => chassis.parts.has(id)));
});

function partsTouched(inspection: Inspection): Set<string> {
  const { job, chassis, work } = inspection;
  const worked = job.timeline.flatMap((entry) => partsWorkedOn(entry, chassis));
  const touched = new Set([...worked, ...work.pulls.flatMap((pull) => pull.partIds)]);
  if (isHeldTo('0.2', job)) for (const id of partsConcerned(inspection).keys()) touched.add(id);
  const isMentioned = isMentionedIn(inspection);
  for (const { id, part } of chassis.points.values())
    if (part !== null && !touched.has(part) && isMentioned(id)) touched.add(part);
  return touched;
}

/** Whether the sheet has a point on a part. */
export const hasPoints = ({ chassis }: Inspection, partId: string): boolean =>
  [...chassis.points.values()].some(({ part }) => part === partId);

/** For a message: both sides of a name as one. */
export function withoutSides(ids: readonly string[]): string[] {
  const all = new Set(ids);
  return ids.flatMap((id) => {
    const other = mirroredId(id);
    if (other === null || !all.has(other)) return [id];
    return id.endsWith('.L') ? [`${id.slice(0, -2)} (both sides)`] : [];
  });
}
