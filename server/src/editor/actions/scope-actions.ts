import { offGroups, witnessOff } from '../../findings/base/witness-off';
import type { TextRange } from '../../findings/rule/finding';
import { entryReplacement, itemInsertion, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf } from '../../text/tree';
import { shortList } from '../../wording/wording';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine } from '../places';
import type { Action } from './code-action';

/** *Add to the scope*: where a part that stands off is not judged. */
export function scopeActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { inspection, job, text, findings } = analysis;
  if (!inspection || job.signOff || job.scope === null) return [];
  const stage = inspection.stages.find(({ measure }) => onFirstLine(measure.keyPlace, text, range));
  if (stage === undefined) return [];
  const { start, block } = stage.measure.keyPlace;
  return offGroups(stage).flatMap((group) => {
    const names = partNames(analysis, group.ids);
    const edits = names.length === 0 ? [] : scopeEdits(analysis, names);
    if (edits.length === 0) return [];
    const mends = findings.find(
      ({ rule, range: at, related }) =>
        rule === witnessOff.name &&
        at.start === block.start + start &&
        related.some(({ message }) => message.startsWith(`${group.ids[0]} `)),
    );
    return [
      {
        title: `Add to the scope: ${shortList(names)}`,
        kind: 'quickfix',
        edits,
        preferred: false,
        mends: mends ?? null,
      },
    ];
  });
}

/** Both sides of a part have one name. */
function partNames({ inspection }: JobAnalysis, ids: readonly string[]): string[] {
  const names = ids.flatMap((id) => {
    const part = inspection?.chassis.points.get(id)?.part;
    return part ? [inspection?.chassis.parts.get(part)?.name ?? part] : [];
  });
  return [...new Set(names)];
}

function scopeEdits({ tree, job }: JobAnalysis, names: readonly string[]): TextEdit[] {
  const { root } = tree;
  const written = root?.kind === 'map' ? entryOf(root, 'scope') : undefined;
  const list = written?.value;
  if (root?.kind !== 'map' || !written || list?.kind !== 'sequence' || job.scope === null) return [];
  const all = [...job.scope.map(({ id }) => id), ...names].map((name) => plainOrQuoted(name, 'flow'));
  // a list with dashes may have comments, which stay
  const edits = list.flow
    ? [entryReplacement(tree, root, written, [`[${all.join(', ')}]`])]
    : names.map((name) => itemInsertion(tree, list, [plainOrQuoted(name)]));
  return edits.filter((edit) => edit !== null);
}
