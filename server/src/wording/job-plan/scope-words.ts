import type { Inspection } from '../../inspection/job/inspect';
import { newestReleased } from '../../inspection/job/newest';
import { withoutSides } from '../../inspection/job/scope';
import { outOfScope } from '../../inspection/pulls/job-plan/out-of-scope';
import { mirroredId } from '../../model/names';
import { certaintyText, listPhrase, offPhrase } from '../wording';
import { worstPoint } from '../worst';

const toSettle = 'Damage that was not declared, or wrong references? Settle that first.';

/** Parts that get no step because the job's scope leaves them out, each pair with its worst figure; null for none. */
export function outOfScopeText(inspection: Inspection): string | null {
  const ids = outOfScope(inspection);
  if (ids.length === 0) return null;
  const texts = withoutSides(ids).map((name) => {
    const id = name.replace(/ \(both sides\)$/, '.L');
    return `${name}${worstText(inspection, id === name ? [id] : [id, mirroredId(id) ?? id])}`;
  });
  return `Not planned, outside the scope: ${listPhrase(texts)}. ${toSettle}`;
}

/** Beside the plan of one part that is asked for all the same; null where the scope has it. */
export const outsideScopeLine = (inspection: Inspection, partId: string): string | null =>
  outOfScope(inspection).includes(partId) ? `outside the scope of this job. ${toSettle}` : null;

/** ` (13.4 mm too far down ±1.4 at rear-rail-tip-lower.L)`. */
function worstText(inspection: Inspection, partIds: readonly string[]): string {
  const points = [...newestReleased(inspection).values()].flatMap(({ judged }) =>
    judged.verdict === 'outside' && partIds.includes(judged.point.part ?? '') ? [judged] : [],
  );
  const worst = worstPoint(points);
  if (worst === null) return '';
  const { judged, axis, deviation } = worst;
  const { unit } = inspection.job;
  const uncertaintyMm = judged.uncertainty[axis];
  const certainty = uncertaintyMm === null ? '' : ` ${certaintyText(uncertaintyMm, unit)}`;
  return ` (${offPhrase(axis, deviation, judged.point.side, unit)}${certainty} at ${judged.id})`;
}
