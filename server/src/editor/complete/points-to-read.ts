import { distance } from '../../geometry/vector';
import type { Chassis, Point } from '../../model/chassis';
import type { Measure } from '../../model/job';
import { offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';

/** The points of a body that a measure lacks, those nearest to a point first; in the order of the sheet where that is none. */
export function pointsLacking(chassis: Chassis, have: ReadonlySet<string>, nearTo: string | null): Point[] {
  const lacking = [...chassis.points.values()].filter(({ id }) => !have.has(id));
  const from = nearTo === null ? undefined : chassis.points.get(nearTo);
  if (from === undefined) return lacking;
  const way = new Map(lacking.map((point) => [point, distance(point.reference, from.reference)]));
  return lacking.sort((a, b) => way.get(a)! - way.get(b)!);
}

/** What was read, and of which body. */
type Read = Pick<JobAnalysis, 'job' | 'inspection' | 'chassis'>;

/** The newest measure above an offset whose readings are no peaks. */
function releasedMeasureAbove({ job, inspection }: Read, offset: number): Measure | null {
  const peaks = new Set(
    inspection?.stages.filter(({ underTension }) => underTension).map(({ measure }) => measure),
  );
  const above = job.timeline.filter(
    (entry): entry is Measure =>
      entry.kind === 'measure' &&
      entry.readings.length > 0 &&
      !peaks.has(entry) &&
      offsetsOf(entry.place).start < offset,
  );
  return above.at(-1) ?? null;
}

/**
 * The point that is read next in a measure: the one that came next in the stage before, else the nearest. Null where none is left.
 * @param measureStart where the measure begins @param last the point read last @param have points that the measure has
 */
export function nextPoint(
  analysis: Read,
  measureStart: number,
  last: string | null,
  have: readonly string[],
): string | null {
  const { chassis } = analysis;
  if (chassis === null) return null;
  const had = new Set(have);
  if (last !== null) had.add(last);
  const order = (releasedMeasureAbove(analysis, measureStart)?.readings ?? []).map(({ id }) => id);
  const at = last === null ? -1 : order.indexOf(last);
  const lacks = (id: string): boolean => !had.has(id) && chassis.points.has(id);
  return (
    order.slice(at + 1).find(lacks) ?? order.find(lacks) ?? pointsLacking(chassis, had, last)[0]?.id ?? null
  );
}

/** All points of a body in the order in which a new measure at the end of a job asks for them, row by row. */
export function askedInOrder(read: Read): string[] {
  const asked: string[] = [];
  for (;;) {
    const next = nextPoint(read, Number.POSITIVE_INFINITY, asked.at(-1) ?? null, asked);
    if (next === null) return asked;
    asked.push(next);
  }
}
