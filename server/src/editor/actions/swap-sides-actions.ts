import type { TextRange } from '../../findings/rule/finding';
import { mirroredId } from '../../model/names';
import { plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, isNothing, type MapNode, offsetsOf, type ScalarNode, textOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { measureAt } from '../measure-at';
import { onFirstLine, overlaps } from '../places';
import { entryNode, timelineNode } from '../timeline-node';
import type { Action } from './code-action';

/** *Swap sides*: on a row, its id and that of its mirrored row; on a measure's title, every sided id of the measure. Figures stay. */
export function swapSidesActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const measure = measureAt(analysis, range);
  const node = measure && entryNode(analysis.tree.root, measure);
  if (!node) return [];
  if (hasRowTwice(analysis, node)) return [];
  const keys = rowKeys(node);
  if (onFirstLine(measure.keyPlace, analysis.text, range)) {
    const sided = [...keys, ...spanEnds(node)].filter((each) => mirroredId(textOf(each)) !== null);
    return sided.length === 0 ? [] : [action('Swap left and right in the whole measure', sided)];
  }
  return keys.flatMap((key) => {
    const id = textOf(key);
    const other = mirroredId(id);
    if (other === null || !overlaps(key.place, range)) return [];
    const mirrored = keys.find((each) => textOf(each) === other);
    return mirrored
      ? [action(`Swap ${id} and ${other}`, [key, mirrored])]
      : [action(`Swap sides: ${id} becomes ${other}`, [key])];
  });
}

/** With a row written twice it is not known which of the two is meant. The second may stand behind what was read of the measure. */
function hasRowTwice({ tree, findings }: JobAnalysis, measure: MapNode): boolean {
  const items = timelineNode(tree.root)?.items ?? [];
  const next = items[items.indexOf(measure) + 1];
  const { start } = offsetsOf(measure.place);
  const end = next ? offsetsOf(next.place).start : tree.text.length;
  return findings.some(
    ({ rule, range }) => rule === 'text/duplicate-key' && range.start >= start && range.start <= end,
  );
}

function rowKeys(measure: MapNode): ScalarNode[] {
  const rows = entryOf(measure, 'readings')?.value;
  return rows?.kind === 'map' ? rows.entries.map(({ key }) => key) : [];
}

function spanEnds(measure: MapNode): ScalarNode[] {
  const spans = entryOf(measure, 'spans')?.value;
  const items = spans?.kind === 'sequence' ? spans.items : [];
  return items
    .flatMap((span) => (span.kind === 'sequence' ? span.items.slice(0, 2) : []))
    .filter((end): end is ScalarNode => end.kind === 'scalar' && !isNothing(end));
}

const action = (title: string, names: readonly ScalarNode[]): Action => ({
  title,
  kind: 'refactor.rewrite',
  edits: names.map(
    (name): TextEdit => ({
      ...offsetsOf(name.place),
      text: plainOrQuoted(mirroredId(textOf(name)) ?? textOf(name), 'flow'),
    }),
  ),
  preferred: false,
  mends: null,
});
