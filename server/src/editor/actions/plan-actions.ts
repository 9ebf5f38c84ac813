import type { TextRange } from '../../findings/rule/finding';
import { partsToWork } from '../../inspection/pulls/plan';
import { idsNamed } from '../../model/names';
import { itemInsertion } from '../../text/edits';
import { planEntryLines } from '../../wording/job-plan/plan-lines';
import type { JobAnalysis } from '../../workspace/workspace';
import { mentionsOf } from '../mentions';
import { onFirstLine, overlaps } from '../places';
import { timelineNode } from '../timeline-node';
import type { Action } from './code-action';

/** *Insert pull plan*: on a reading or a name, for its part; on a measure's first key, for every part that needs work. The entry goes to the end of the timeline. */
export function planActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { inspection, tree } = analysis;
  const timeline = timelineNode(tree.root);
  if (!inspection || !timeline || inspection.job.signOff) return [];
  const asked = partsAt(analysis, range);
  if (asked.size === 0) return [];
  return partsToWork(inspection)
    .filter((id) => asked.has(id))
    .flatMap((id) => {
      const [first, ...rest] = planEntryLines(inspection, id);
      if (first === undefined) return [];
      // the entry comes with its dash and its indent, as it is printed
      const lines = [first.slice(2), ...rest.map((line) => line.slice(2))];
      const edit = itemInsertion(tree, timeline, lines);
      if (edit === null) return [];
      return [
        {
          title: `Insert pull plan for ${id}`,
          kind: 'refactor.rewrite' as const,
          edits: [edit],
          preferred: false,
          mends: null,
          reveals: true as const,
        },
      ];
    });
}

function partsAt(analysis: JobAnalysis, range: TextRange): Set<string> {
  const { inspection, chassis } = analysis;
  const ids = new Set<string>();
  for (const mention of mentionsOf(analysis)) {
    if (!overlaps(mention.place, range)) continue;
    if (mention.kind === 'point') ids.add(chassis?.points.get(mention.id)?.part ?? '');
    else for (const id of chassis ? idsNamed(mention.id, chassis.parts) : []) ids.add(id);
  }
  for (const { measure } of inspection?.stages ?? []) {
    for (const reading of measure.readings) {
      if (overlaps(reading.value, range)) ids.add(chassis?.points.get(reading.id)?.part ?? '');
    }
    if (onFirstLine(measure.keyPlace, analysis.text, range))
      for (const id of chassis?.parts.keys() ?? []) ids.add(id);
  }
  return ids;
}
