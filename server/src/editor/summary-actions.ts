import type { TextRange } from '../findings/finding';
import type { Stage } from '../inspection/stage';
import { summaryLines } from '../inspection/summaries';
import { type TextEdit, entryInsertion, entryReplacement, plainOrQuoted } from '../text/edits';
import { type MapNode, type Node, type TextTree, entryOf, offsetsOf } from '../text/tree';
import type { Analysis } from '../workspace/workspace';
import type { Action } from './action';
import { overlaps } from './places';

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
export function summaryActions(analysis: Analysis, range: TextRange): Action[] {
  if (analysis.kind !== 'readings' || !analysis.inspection) return [];
  const { inspection, tree } = analysis;
  const stage = inspection.stages.find((each) => overlaps(each.measure.place, range));
  if (!stage) return [];
  const entry = measureNode(tree.root, stage);
  if (!entry) return [];
  const lines = summaryLines(inspection, stage);
  return kinds.flatMap(({ title, word }) => {
    const wanted = lines.filter(({ key }) => key === word || key.endsWith(` ${word}`));
    const edits = wanted.length === 0 ? [] : summaryEdits(tree, entry, wanted);
    return edits.length === 0 ? [] : [{ title, kind: 'refactor.rewrite' as const, edits, preferred: false, mends: null }];
  });
}

function measureNode(root: Node | null, stage: Stage): MapNode | null {
  const timeline = entryOf(root, 'timeline')?.value;
  const start = offsetsOf(stage.measure.place).start;
  const item = timeline?.kind === 'sequence' ? timeline.items.find((each) => offsetsOf(each.place).start === start) : undefined;
  return item?.kind === 'map' ? item : null;
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
  if (block?.kind !== 'map' || block.flow) return given(entryReplacement(tree, measure, existing, lines));
  return wanted.flatMap(({ key, text }) => {
    const line = entryOf(block, key);
    if (!line) return given(entryInsertion(tree, block, key, [plainOrQuoted(text)]));
    if (line.value?.kind === 'scalar' && String(line.value.value) === text) return [];
    return given(entryReplacement(tree, block, line, [plainOrQuoted(text)]));
  });
}

const given = (edit: TextEdit | null): TextEdit[] => (edit === null ? [] : [edit]);
