import { mirroredId } from '../model/names';
import type { Inspection } from './inspect';
import { tramOnly } from './tram';
import { partIds, pulledPartIds } from './work';

/**
 * The points that the job must show within tolerance: those of the parts in `scope`; without one, those of the parts worked on
 * or ever read, and the points of no part that were read.
 */
export function pointsInScope(inspection: Inspection): string[] {
  const { job, chassis } = inspection;
  const parts = new Set(job.scope === null ? partsTouched(inspection) : partIds(job.scope, chassis));
  const read = readIds(inspection);
  return [...chassis.points.values()]
    .filter((point) => (point.part !== null ? parts.has(point.part) : job.scope === null && read.has(point.id)))
    .map((point) => point.id);
}

/** Every point that was read, or said to be unreachable, anywhere in the job. A distance reads a point only where there is nothing else. */
export function readIds({ job }: Inspection): Set<string> {
  const measures = job.timeline.filter((entry) => entry.kind === 'measure');
  const ids = tramOnly(job)
    ? measures.flatMap((measure) => measure.spans.flatMap((span) => [span.from, span.to]))
    : measures.flatMap((measure) => measure.readings.map((reading) => reading.id));
  return new Set(ids);
}

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
  const read = [...readIds(inspection)].flatMap((id) => chassis.points.get(id)?.part ?? []);
  return [...worked, ...read];
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
