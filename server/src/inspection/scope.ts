import type { Point } from '../model/chassis';
import type { Measure } from '../model/job';
import { mirroredId } from '../model/names';
import type { Inspection } from './inspect';
import { oncePer } from './once';
import { tramOnly } from './tram';
import { partIds, pulledPartIds } from './work';

/**
 * The points that the job must show within tolerance: those of the parts in `scope`; without one, those of the parts worked on
 * or ever read, and the points of no part that were read.
 */
export const pointsInScope = oncePer((inspection: Inspection): readonly string[] => {
  const { job, chassis } = inspection;
  const parts = new Set(job.scope === null ? partsTouched(inspection) : partIds(job.scope, chassis));
  const isMeant = ({ id, part }: Point): boolean =>
    part !== null ? parts.has(part) : job.scope === null && isMentioned(inspection, id);
  return [...chassis.points.values()].filter(isMeant).map(({ id }) => id);
});

/** What one measure says of points: those with numbers, and all that it names. A distance counts only in a job of distances. */
const namedIn = oncePer((measure: Measure) => {
  const spanEnds = (spans: Measure['spans']) => spans.flatMap(({ from, to }) => [from, to]);
  return {
    read: new Set(measure.readings.map(({ id }) => id)),
    withNumbers: new Set([
      ...measure.readings.filter(({ unreachable }) => !unreachable).map(({ id }) => id),
      ...spanEnds(measure.spans.filter(({ unreachable }) => !unreachable)),
    ]),
    spanned: new Set(spanEnds(measure.spans)),
  };
});

/** A point was read, or said to be unreachable, anywhere in the job. A distance reads a point only where there is nothing else. */
export function isMentioned({ job, stages }: Inspection, id: string): boolean {
  const bySpans = isTramOnly(job);
  return stages.some(({ measure }) => (bySpans ? namedIn(measure).spanned : namedIn(measure).read).has(id));
}

/** A point was read with numbers, be it as the end of a distance. */
export const isMeasured = ({ stages }: Inspection, id: string): boolean =>
  stages.some(({ measure }) => namedIn(measure).withNumbers.has(id));

const isTramOnly = oncePer(tramOnly);

function partsTouched(inspection: Inspection): string[] {
  const { job, chassis } = inspection;
  const worked = job.timeline.flatMap((entry) => {
    switch (entry.kind) {
      case 'pull':
        return pulledPartIds(entry, chassis);
      case 'section':
      case 'replace':
      case 'heat':
        return partIds([entry.part], chassis);
      default:
        return [];
    }
  });
  const read = [...chassis.points.values()].filter(
    ({ id, part }) => part !== null && isMentioned(inspection, id),
  );
  return [...worked, ...read.map(({ part }) => part!)];
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
