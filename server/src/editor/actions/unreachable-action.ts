import type { TextRange } from '../../findings/rule/finding';
import { entryReplacement, type TextEdit } from '../../text/edits';
import { entryOf, type MapEntry, offsetsOf, type Place, textOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { measureAt } from '../measure-at';
import { overlaps } from '../places';
import { entryNode } from '../timeline-node';
import type { Action } from './code-action';

const word = 'unreachable';

/** *Mark unreachable*: on rows of readings and on distances, whatever stands there, nothing too. What was read stays as a comment. */
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
    if (edit) marked.push({ name: textOf(row.key), edit: keeping(edit, tree.text, row) });
  }
  for (const span of spans?.kind === 'sequence' ? spans.items : []) {
    if (!overlaps(span.place, range) || span.kind !== 'sequence' || span.items.length !== 3) continue;
    const [from, to, distance] = span.items;
    if (from.kind !== 'scalar' || to.kind !== 'scalar') continue;
    if (distance.kind === 'scalar' && distance.value === word) continue;
    const name = `${textOf(from)} to ${textOf(to)}`;
    marked.push({ name, edit: { ...offsetsOf(distance.place), text: word } });
    const [was] = figuresIn(tree.text, distance.place);
    const end = lineEnd(tree.text, offsetsOf(span.place).end);
    if (was !== undefined) marked.push({ name, edit: { start: end, end, text: `   # was ${was}` } });
  }
  const names = [...new Set(marked.map(({ name }) => name))];
  if (names.length === 0) return [];
  const what = names.length === 1 ? names[0] : `${names.length} rows`;
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

/** What was read stays in the file, as a comment: behind the word, before a comment that stands there. */
function keeping(edit: TextEdit, text: string, { value }: MapEntry): TextEdit {
  const figures = value === null ? [] : figuresIn(text, value.place);
  if (figures.length === 0) return edit;
  const rest = text.slice(edit.end, lineEnd(text, edit.end));
  const comment = /^\s*#\s?/.exec(rest)?.[0];
  const was = `   # was ${figures.join(', ')}`;
  return comment === undefined
    ? { ...edit, text: edit.text + was }
    : { ...edit, end: edit.end + comment.length, text: `${edit.text}${was}; ` };
}

/** The figures of a reading, each repeat on its own; none where something else stands there. */
const figuresIn = (text: string, place: Place): string[] => {
  const { start, end } = offsetsOf(place);
  const written = text.slice(start, end).replaceAll(/#.*$/gm, '');
  return written.match(/\[[^[\]]*\d[^[\]]*\]|^[-\d.]+$/g)?.map((each) => each.replaceAll(/\s+/g, ' ')) ?? [];
};

const lineEnd = (text: string, from: number): number => {
  const rest = text.slice(from).search(/[\r\n]/);
  return rest < 0 ? text.length : from + rest;
};

const saysSo = ({ value }: MapEntry): boolean => value?.kind === 'scalar' && value.value === word;
