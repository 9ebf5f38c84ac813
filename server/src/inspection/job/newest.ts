import { derived } from '../../memory/derived';
import type { JudgedPoint } from '../alignment/points';
import type { JudgedSpan } from '../alignment/spans';
import type { Inspection } from './inspect';
import type { Stage } from './stage';

/** A point's newest reading that was not under load, and the stage that it stands in. */
export interface Newest {
  readonly stage: Stage;
  readonly judged: JudgedPoint;
}

/**
 * By point id: the newest released reading; a stage about which nothing is concluded (mirrored, out of scale) does not count.
 * The points of the newest stage first.
 */
export const newestReleased = derived(
  (inspection: Inspection): ReadonlyMap<string, Newest> =>
    newestOf(inspection, (stage) => !stage.underTension),
);

/** By point id: the newest reading of all, peaks too. */
export const newestOfAll = derived(
  (inspection: Inspection): ReadonlyMap<string, Newest> => newestOf(inspection, () => true),
);

/** From the newest stage back, until every point of the body was met: most jobs read most points last. */
function newestOf({ stages, chassis }: Inspection, counts: (stage: Stage) => boolean): Map<string, Newest> {
  const newest = new Map<string, Newest>();
  for (let i = stages.length - 1; i >= 0 && newest.size < chassis.points.size; i--) {
    const stage = stages[i];
    if (!counts(stage)) continue;
    for (const judged of stage.points) {
      // the sheet's own id: the same string in every stage is found faster than an equal one
      const { id } = judged.point;
      if (!newest.has(id)) newest.set(id, { stage, judged });
    }
  }
  return newest;
}

/** The two ends of a span in either order, as one key. */
export const spanKey = ({ from, to }: Pick<JudgedSpan, 'from' | 'to'>): string =>
  from < to ? `${from} ${to}` : `${to} ${from}`;

/** By span: the newest released reading of a distance. */
export const newestSpans = derived(
  (inspection: Inspection): ReadonlyMap<string, { stage: Stage; span: JudgedSpan }> => {
    const newest = new Map<string, { stage: Stage; span: JudgedSpan }>();
    for (const stage of inspection.stages) {
      if (stage.underTension) continue;
      for (const span of stage.spans) newest.set(spanKey(span), { stage, span });
    }
    return newest;
  },
);
