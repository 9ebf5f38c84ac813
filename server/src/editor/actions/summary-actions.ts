import type { TextRange } from '../../findings/rule/finding';
import { entryInsertion, entryReplacement, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, type MapNode, type TextTree } from '../../text/tree';
import { summaryLines } from '../../wording/summaries';
import type { JobAnalysis } from '../../workspace/workspace';
import { overlaps } from '../places';
import { entryNode } from '../timeline-node';
import type { Action } from './code-action';

/** What a person may ask to be written into a measure, and the last word of the lines that it means. */
const kinds = [
  { title: 'Insert twist summary', word: 'twist' },
  { title: 'Insert sweep summary', word: 'sweep' },
  { title: 'Insert bend summary', word: 'bend' },
  { title: 'Insert stretch summary', word: 'stretch' },
  { title: 'Insert body summary', word: 'body' },
  { title: 'Insert spring-back summary', word: 'spring-back' },
] as const;

/** *Insert … summary* on a measure: writes or extends its `summary:` block and touches nothing else. */
export function summaryActions(analysis: JobAnalysis, range: TextRange): Action[] {
  if (!analysis.inspection) return [];
  const { inspection, tree } = analysis;
  const stage = inspection.stages.find((each) => overlaps(each.measure.place, range));
  if (!stage) return [];
  const entry = entryNode(tree.root, stage.measure);
  if (!entry) return [];
  const lines = summaryLines(inspection, stage);
  return kinds.flatMap(({ title, word }) => {
    const wanted = lines.filter(({ key }) => key === word || key.endsWith(` ${word}`));
    const edits = wanted.length === 0 ? [] : summaryEdits(tree, entry, wanted);
    return edits.length === 0
      ? []
      : [{ title, kind: 'refactor.rewrite' as const, edits, preferred: false, mends: null }];
  });
}

interface Line {
  readonly key: string;
  readonly text: string;
}

/** A new block, or in the one that stands: lines refreshed in place and new ones below. Nothing where nothing would change. */
function summaryEdits(tree: TextTree, measure: MapNode, wanted: readonly Line[]): TextEdit[] {
  const existing = entryOf(measure, 'summary');
  const lines = ['', ...wanted.map(({ key, text }) => `${plainOrQuoted(key)}: ${plainOrQuoted(text)}`)];
  if (!existing) return given(entryInsertion(tree, measure, 'summary', lines));
  const block = existing.value;
  const isEmpty =
    block === null ||
    (block.kind === 'scalar' && block.value === null) ||
    (block.kind === 'map' && block.entries.length === 0);
  if (isEmpty) return given(entryReplacement(tree, measure, existing, lines));
  // what somebody wrote there and is no map is not ours to write over
  if (block.kind !== 'map') return [];
  const written = (text: string) => [plainOrQuoted(text, block.flow ? 'flow' : 'block')];
  return wanted.flatMap(({ key, text }) => {
    const line = entryOf(block, key);
    if (!line) return given(entryInsertion(tree, block, key, written(text)));
    if (line.value?.kind === 'scalar' && String(line.value.value) === text) return [];
    return given(entryReplacement(tree, block, line, written(text)));
  });
}

const given = (edit: TextEdit | null): TextEdit[] => (edit === null ? [] : [edit]);
