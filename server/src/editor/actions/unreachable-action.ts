import type { TextRange } from '../../findings/rule/finding';
import { entryReplacement, type TextEdit } from '../../text/edits';
import { entryOf, type MapEntry, offsetsOf, textOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { measureAt } from '../measure-at';
import { overlaps } from '../places';
import { entryNode } from '../timeline-node';
import type { Action } from './code-action';

const word = 'unreachable';

/** *Mark unreachable*: on rows of readings and on distances, whatever stands there, nothing too. */
export function unreachableActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { tree } = analysis;
  const measure = measureAt(analysis, range);
  const node = measure && entryNode(tree.root, measure);
  if (!node) return [];
  const rows = entryOf(node, 'readings')?.value;
  const spans = entryOf(node, 'spans')?.value;
  const marked: { name: string; edit: TextEdit }[] = [];
  for (const row of rows?.kind === 'map' ? rows.entries : []) {
    if (!overlaps(row.place, range) || saysSo(row) || rows?.kind !== 'map') continue;
    const edit = entryReplacement(tree, rows, row, [word]);
    if (edit) marked.push({ name: textOf(row.key), edit });
  }
  for (const span of spans?.kind === 'sequence' ? spans.items : []) {
    if (!overlaps(span.place, range) || span.kind !== 'sequence' || span.items.length !== 3) continue;
    const [from, to, distance] = span.items;
    if (from.kind !== 'scalar' || to.kind !== 'scalar') continue;
    if (distance.kind === 'scalar' && distance.value === word) continue;
    const name = `${textOf(from)} to ${textOf(to)}`;
    marked.push({ name, edit: { ...offsetsOf(distance.place), text: word } });
  }
  if (marked.length === 0) return [];
  const what = marked.length === 1 ? marked[0].name : `${marked.length} rows`;
  return [
    {
      title: `Mark ${what} unreachable`,
      kind: 'refactor.rewrite',
      edits: marked.map(({ edit }) => edit),
      preferred: false,
      mends: null,
    },
  ];
}

const saysSo = ({ value }: MapEntry): boolean => value?.kind === 'scalar' && value.value === word;
