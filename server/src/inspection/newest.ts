import type { Inspection } from './inspect';
import type { JudgedPoint } from './points';
import type { JudgedSpan } from './spans';
import type { Stage } from './stage';

/** A point's newest reading that was not under load, and the stage that it stands in. */
export interface Newest {
  readonly stage: Stage;
  readonly judged: JudgedPoint;
}

/** By point id: the newest released reading; a stage about which nothing is concluded (mirrored, out of scale) does not count. */
export function newestReleased(inspection: Inspection): Map<string, Newest> {
  const newest = new Map<string, Newest>();
  for (const stage of inspection.stages) {
    if (stage.underTension) continue;
    for (const judged of stage.points) newest.set(judged.id, { stage, judged });
  }
  return newest;
}

/** By point id: the newest reading of all, peaks too. */
export function newestOfAll(inspection: Inspection): Map<string, Newest> {
  const newest = new Map<string, Newest>();
  for (const stage of inspection.stages) for (const judged of stage.points) newest.set(judged.id, { stage, judged });
  return newest;
}

/** The two ends of a span in either order, as one key. */
export const spanKey = (span: Pick<JudgedSpan, 'from' | 'to'>): string => [span.from, span.to].sort().join(' ');

/** By span: the newest released reading of a distance. */
export function newestSpans(inspection: Inspection): Map<string, { stage: Stage; span: JudgedSpan }> {
  const newest = new Map<string, { stage: Stage; span: JudgedSpan }>();
  for (const stage of inspection.stages) {
    if (stage.underTension) continue;
    for (const span of stage.spans) newest.set(spanKey(span), { stage, span });
  }
  return newest;
}
