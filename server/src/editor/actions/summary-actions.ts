import type { TextRange } from '../../findings/rule/finding';
import { entryInsertion, entryReplacement, plainOrQuoted, type TextEdit } from '../../text/edits';
import { entryOf, type MapNode, type TextTree } from '../../text/tree';
import { summaryLines } from '../../wording/summaries';
import type { JobAnalysis } from '../../workspace/workspace';
import { overlaps } from '../places';
import { entryNode } from '../timeline-node';
import type { Action, Moment } from './code-action';

/** What a person may ask to be written into a measure: the last word of the lines that it means. */
const kinds = ['twist', 'sweep', 'bend', 'stretch', 'body', 'spring-back'] as const;

/**
 * *Insert summary…* on a measure, with what there is to choose from; in an editor that cannot ask, one action for each. It writes or extends
 * the `summary:` block and touches nothing else.
 */
export function summaryActions(analysis: JobAnalysis, range: TextRange, { shows }: Moment): Action[] {
  if (!analysis.inspection) return [];
  const { inspection, tree } = analysis;
  const stage = inspection.stages.find((each) => overlaps(each.measure.place, range));
  if (!stage) return [];
  const entry = entryNode(tree.root, stage.measure);
  if (!entry) return [];
  const lines = summaryLines(inspection, stage);
  const choices = kinds.flatMap((word) => {
    const wanted = lines.filter(({ key }) => key === word || key.endsWith(` ${word}`));
    const edits = wanted.length === 0 ? [] : summaryEdits(tree, entry, wanted);
    return edits.length === 0 ? [] : [{ title: word, edits }];
  });
  const action = { kind: 'refactor.rewrite', preferred: false, mends: null, reveals: true } as const;
  if (choices.length > 1 && shows.has('framewright.choose')) {
    const all = { title: 'all of them', edits: summaryEdits(tree, entry, lines) };
    return [{ ...action, title: 'Insert summary…', edits: [], choices: [...choices, all] }];
  }
  return choices.map(({ title, edits }) => ({ ...action, title: `Insert ${title} summary`, edits }));
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
