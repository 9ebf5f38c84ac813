import type { Finding, TextRange } from '../../findings/rule/finding';
import type { JudgedPoint } from '../../inspection/alignment/points';
import { partsToWork } from '../../inspection/pulls/plan';
import { offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { overlaps } from '../places';
import type { Action, Moment, ShowingCommand } from './code-action';

/**
 * What helps first where a reading is off: to see it, to see how to pull it, to see what it is measured against. They go with the finding,
 * so that an editor lists them before everything that would only hide it.
 */
export function showActions(analysis: JobAnalysis, range: TextRange, { shows }: Moment): Action[] {
  const judged = offAt(analysis, range);
  if (judged === null || analysis.inspection === null) return [];
  const { id, point } = judged;
  const mends = findingOf(analysis, judged);
  const offered = (title: string, command: ShowingCommand, ...given: (string | number)[]): Action[] =>
    shows.has(command)
      ? [{ title, kind: 'quickfix', edits: [], preferred: false, mends, shows: { command, with: given } }]
      : [];
  const part = point.part;
  const isPulled = part !== null && partsToWork(analysis.inspection).includes(part);
  return [
    ...offered(`Show ${id} in the drawing`, 'framewright.showDrawing', id),
    ...(isPulled ? offered(`Pull plan for ${part}`, 'framewright.showPlan', part) : []),
    ...offered(`Go to the reference of ${id}`, 'framewright.goToReference', id),
  ];
}

/** The reading at a range that is not where it belongs, or may not be. */
function offAt({ inspection }: JobAnalysis, range: TextRange): JudgedPoint | null {
  for (const { points } of inspection?.stages ?? [])
    for (const judged of points)
      if (
        judged.verdict !== 'within' &&
        (overlaps(judged.reading.key, range) || overlaps(judged.reading.value, range))
      )
        return judged;
  return null;
}

function findingOf({ findings }: JobAnalysis, { reading }: JudgedPoint): Finding | null {
  const [key, value] = [offsetsOf(reading.key), offsetsOf(reading.value)];
  const onRow = findings.filter(
    (finding) =>
      finding.ignored === null && finding.range.start <= value.end && finding.range.end >= key.start,
  );
  return (
    onRow.find(({ rule }) => rule === 'reading/outside' || rule === 'reading/undecided') ?? onRow[0] ?? null
  );
}
