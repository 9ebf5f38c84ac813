import { ambiguous } from '../../findings/base/ambiguous';
import type { TextRange } from '../../findings/rule/finding';
import { entryInsertion, entryReplacement, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf } from '../../text/tree';
import { shortList } from '../../wording/wording';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine } from '../places';
import type { Action } from './code-action';

/**
 * *Take these control points as the base*: on a measure's title or on `base:`, the base that was found or, where the control points
 * tell more than one story, each of them. Which is true only a person knows: none is preferred.
 */
export function baseActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { inspection, job, text, findings } = analysis;
  if (!inspection || job.signOff) return [];
  const onBase = job.basePlace !== null && onFirstLine(job.basePlace, text, range);
  const stage = onBase
    ? inspection.stages.findLast(({ alignment }) => alignment?.inherited === null)
    : inspection.stages.find(({ measure }) => onFirstLine(measure.keyPlace, text, range));
  const alignment = stage?.alignment;
  if (!stage || !alignment || alignment.inherited !== null) return [];
  const bases = [alignment.baseIds, ...alignment.alternatives.map(({ base }) => base)];
  const isAmbiguous = bases.length > 1;
  const mends = isAmbiguous
    ? (findings.find(
        ({ rule, range: at }) => rule === ambiguous.name && at.start === stageStart(stage.measure.keyPlace),
      ) ?? null)
    : null;
  return bases.flatMap((ids) => {
    const edit = ids.length < 3 || isGiven(analysis, ids) ? null : baseEdit(analysis, ids);
    if (edit === null) return [];
    return [
      {
        title: `Take these control points as the base: ${shortList(ids)}`,
        kind: isAmbiguous ? ('quickfix' as const) : ('refactor.rewrite' as const),
        edits: [edit],
        preferred: false,
        mends,
      },
    ];
  });
}

const stageStart = ({ block, start }: { block: { start: number }; start: number }): number =>
  block.start + start;

function isGiven({ job: { base } }: JobAnalysis, ids: readonly string[]): boolean {
  if (base.kind !== 'ids') return false;
  const given = new Set(base.ids.map(({ id }) => id));
  return given.size === ids.length && ids.every((id) => given.has(id));
}

function baseEdit({ tree }: JobAnalysis, ids: readonly string[]): TextEdit | null {
  const { root } = tree;
  if (root?.kind !== 'map') return null;
  const value = [`[${ids.map((id) => plainOrQuoted(id, 'flow')).join(', ')}]`];
  const written = entryOf(root, 'base');
  if (written) return entryReplacement(tree, root, written, value);
  const above = ['axes', 'instrument', 'technician', 'order', 'chassis'].map((key) => entryOf(root, key));
  return entryInsertion(
    tree,
    root,
    'base',
    value,
    above.find((entry) => entry !== undefined),
  );
}
