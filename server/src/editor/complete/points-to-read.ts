import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import { readingOrder } from '../../inspection/job/reading-order';
import type { Chassis, Point } from '../../model/chassis';
import type { Measure } from '../../model/job';
import { mirroredId } from '../../model/names';
import { offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';

/** What was read, and of which body. */
type Read = Pick<JobAnalysis, 'job' | 'inspection'>;

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

/** What helps the newest measure most, where it is the one that begins at an offset: both sides of each in turn. */
function advisedIn({ inspection }: Read, measureStart: number): readonly string[] {
  const stage = inspection && stageToExtend(inspection);
  if (!inspection || !stage || offsetsOf(stage.measure.place).start !== measureStart) return [];
  const advice = adviceInStage(stage, inspection);
  return typeof advice === 'string' ? [] : advice.steps.flatMap(({ ids }) => ids);
}

/**
 * The points that a measure lacks, in the order in which they are read: the other side of the last one; what came next in the stage before;
 * control points; what the measuring advice names; the rest of the sheet.
 * @param measureStart where the measure begins; null where it is none of the file's @param last the point read last
 * @param have points that the measure has
 */
export function pointsToRead(
  analysis: Read,
  chassis: Chassis,
  measureStart: number | null,
  last: string | null,
  have: Iterable<string>,
): Point[] {
  const had = new Set(have);
  if (last !== null) had.add(last);
  const before =
    (measureStart === null ? null : releasedMeasureAbove(analysis, measureStart))?.readings ?? [];
  const order = before.map(({ id }) => id);
  const mirrored = last === null ? null : mirroredId(last);
  // of a pair of which one side was read before, that one tells where it comes
  const at = Math.max(...[last, mirrored].map((id) => (id === null ? -1 : order.indexOf(id))));
  const sheet = readingOrder(chassis);
  const isControl = (id: string): boolean => chassis.points.get(id)?.base === true;
  const ids = new Set([
    ...(mirrored === null ? [] : [mirrored]),
    ...order.slice(at + 1),
    ...order,
    ...sheet.filter(isControl),
    ...(measureStart === null ? [] : advisedIn(analysis, measureStart)),
    ...sheet,
  ]);
  return [...ids].flatMap((id) => (had.has(id) ? [] : (chassis.points.get(id) ?? [])));
}

/** All points of a body in the order in which a new measure at the end of a job asks for them, row by row. */
export function askedInOrder(read: Read, chassis: Chassis): string[] {
  const asked: string[] = [];
  for (;;) {
    const [next] = pointsToRead(read, chassis, Number.POSITIVE_INFINITY, asked.at(-1) ?? null, asked);
    if (next === undefined) return asked;
    asked.push(next.id);
  }
}
