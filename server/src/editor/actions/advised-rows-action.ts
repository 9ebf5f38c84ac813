import type { TextRange } from '../../findings/rule/finding';
import type { MeasuringAdvice } from '../../inspection/advice/answer';
import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import type { Stage } from '../../inspection/job/stage';
import { commentInsertion, entryInsertion, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, offsetsOf } from '../../text/tree';
import { readingsPhrase } from '../../wording/advice-words';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine } from '../places';
import { entryNode } from '../timeline-node';
import type { Action } from './code-action';

/**
 * *Insert rows*: of the points that would let every point of the scope be decided, into the newest measure, while nothing was done to the car
 * since. They are comments until they are typed, as the rows of a next measure are.
 */
export function advisedRowsActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { inspection, tree, job, text } = analysis;
  const stage = inspection && stageToExtend(inspection);
  if (!stage || job.signOff) return [];
  const scope = entryOf(tree.root, 'scope')?.key.place;
  const isAsked =
    onFirstLine(stage.measure.keyPlace, text, range) ||
    (scope !== undefined && onFirstLine(scope, text, range));
  const advice = isAsked ? adviceInStage(stage, inspection) : null;
  if (advice === null || typeof advice === 'string') return [];
  const steps = advice.steps.filter(({ ids }) => !ids.every((id) => hasCommentedRow(analysis, stage, id)));
  const edit = steps.length === 0 ? null : rowsInsertion(analysis, stage, steps);
  if (edit === null) return [];
  return [
    {
      title: `Insert rows to read: ${readingsPhrase(steps)}`,
      kind: 'refactor.rewrite',
      edits: [edit],
      preferred: false,
      mends: null,
      reveals: true as const,
    },
  ];
}

/** Below the measure, up to the next entry: comments at its end belong to no entry. */
function hasCommentedRow({ text, job }: JobAnalysis, { measure, index }: Stage, id: string): boolean {
  const next = job.timeline[index + 1];
  const part = text.slice(offsetsOf(measure.place).start, next && offsetsOf(next.place).start);
  return part.split(/\r\n|\n|\r/).some((line) => line.trimStart().startsWith(`# ${plainOrQuoted(id)}:`));
}

function rowsInsertion(
  { tree }: JobAnalysis,
  { measure }: Stage,
  steps: MeasuringAdvice['steps'],
): TextEdit | null {
  const node = entryNode(tree.root, measure);
  if (node === null) return null;
  const names = steps.flatMap(({ ids }) => ids.map((id) => `${plainOrQuoted(id)}:`));
  const width = Math.max(...names.map((name) => name.length));
  const rows = names.map((name) => `# ${name.padEnd(width)} [ , , ]`);
  const readings = entryOf(node, 'readings');
  if (readings === undefined) return entryInsertion(tree, node, 'readings', ['', ...rows]);
  return commentInsertion(tree, node, readings, rows);
}
