import type { PlanLink } from '@framewright/schemas/wire';
import type { Inspection } from '../../inspection/job/inspect';
import { hasNumbers } from '../../model/job';
import { linesOf } from '../../text/lines';
import { offsetsOf } from '../../text/tree';

/** The names of points in the text of a plan, each with its newest row in the job. */
export function planLinks(plan: string, inspection: Inspection, jobText: string): PlanLink[] {
  const table = linesOf(jobText);
  const rows = new Map<string, PlanLink['row']>();
  for (const { measure } of inspection.stages)
    for (const reading of measure.readings)
      if (hasNumbers(reading)) rows.set(reading.id, table.positionAt(offsetsOf(reading.key).start));
  return plan.split('\n').flatMap((text, line) =>
    [...text.matchAll(/(?<![\w-])[a-z0-9]+(?:-[a-z0-9]+)*(?:\.[LR])?(?![\w-])/g)].flatMap(
      (match): PlanLink[] => {
        const [id] = match;
        const row = rows.get(id);
        return row === undefined ? [] : [{ line, start: match.index, end: match.index + id.length, row }];
      },
    ),
  );
}
