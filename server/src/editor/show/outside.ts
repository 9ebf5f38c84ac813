import type * as wire from '@framewright/schemas/wire';
import type { TextRange } from '../../findings/rule/finding';
import { newestReleased, newestSpans } from '../../inspection/job/newest';
import { offsetsOf } from '../../text/tree';
import { offPhrase } from '../../wording/wording';
import { worstPoint } from '../../wording/worst';
import type { Analysis } from '../../workspace/workspace';

/** A row that is outside tolerance, and what a person is told on coming to it. */
interface OutsidePlace extends Omit<wire.OutsidePlace, 'range'> {
  readonly range: TextRange;
}

/** What is still to be moved: the newest released readings and distances outside tolerance, in the order of the text. */
export function outsidePlaces(analysis: Analysis): OutsidePlace[] {
  if (analysis.kind !== 'readings' || !analysis.inspection) return [];
  const { inspection, job } = analysis;
  const points = [...newestReleased(inspection).values()].flatMap(({ judged }) => {
    const worst = judged.verdict === 'outside' ? worstPoint([judged]) : null;
    if (worst === null) return [];
    const words = offPhrase(worst.axis, worst.deviation, judged.point.side, job.unit);
    return [{ range: offsetsOf(judged.reading.key), words: `${judged.id}: ${words}` }];
  });
  const spans = [...newestSpans(inspection).values()].flatMap(({ span }) =>
    span.verdict === 'outside'
      ? [{ range: offsetsOf(span.reading.place), words: `${span.from} to ${span.to}: distance outside` }]
      : [],
  );
  return [...points, ...spans].sort((a, b) => a.range.start - b.range.start);
}
