import { derived } from '../../memory/derived';
import type { Measure } from '../../model/job';
import { mirroredId } from '../../model/names';
import { partsOfEntry, resolvedJob } from '../../model/resolve/resolved-job';
import type { Inspection } from './inspect';
import { newestReleased } from './newest';
import { readingsById, reads } from './readings-by-id';
import { tramOnly } from './tram';

/**
 * The points that the job must show within tolerance: those of the parts in `scope`; without one, those of the parts worked on
 * or ever read, and the points of no part that were read.
 */
export const pointsInScope = derived((inspection: Inspection): readonly string[] => {
  const { job, chassis } = inspection;
  const parts = resolvedJob(job, chassis).scope ?? partsTouched(inspection);
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

function partsTouched(inspection: Inspection): Set<string> {
  const { job, chassis, work } = inspection;
  const worked = job.timeline.flatMap((entry) =>
    entry.kind === 'section' || entry.kind === 'replace' || entry.kind === 'heat'
      ? partsOfEntry(entry, chassis)
      : [],
  );
  const touched = new Set([...worked, ...work.pulls.flatMap((pull) => pull.partIds)]);
  const isMentioned = isMentionedIn(inspection);
  for (const { id, part } of chassis.points.values())
    if (part !== null && !touched.has(part) && isMentioned(id)) touched.add(part);
  return touched;
}

/** For a message: both sides of a name as one. */
export function withoutSides(ids: readonly string[]): string[] {
  const all = new Set(ids);
  return ids.flatMap((id) => {
    const other = mirroredId(id);
    if (other === null || !all.has(other)) return [id];
    return id.endsWith('.L') ? [`${id.slice(0, -2)} (both sides)`] : [];
  });
}
