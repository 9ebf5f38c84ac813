import { entryNode, timelineNode } from '../editor/timeline-node';
import type { Job, Measure } from '../model/job';
import {
  applyEdits,
  commentInsertion,
  entryInsertion,
  entryReplacement,
  itemInsertion,
  plainOrQuoted,
  type TextEdit,
} from '../text/edits';
import { linesOf } from '../text/lines';
import { entryOf, isNothing, offsetsOf, type TextTree } from '../text/tree';

/** Lines of the language that a measure gets. */
export interface MeasureLines {
  /** Null: whoever asks has no name for it. */
  readonly name: string | null;
  /** In the order of `rows`. */
  readonly ids: readonly string[];
  readonly rows: readonly string[];
  readonly spans: readonly string[];
  /** What was not understood, as comments. */
  readonly comments: readonly string[];
}

interface JobFile {
  readonly tree: TextTree;
  readonly job: Job;
}

/**
 * A job with measures more at the end of its timeline; the first of them fills the newest measure, where that is empty and has the
 * same name or none is given. Null where the text cannot take them: its timeline stands in brackets.
 * @param nameOf of a measure that the table does not name
 */
export function jobWithMeasures(
  { tree, job }: JobFile,
  measures: readonly MeasureLines[],
  unnamed: string,
): string | null {
  const empty = emptyMeasure(job);
  const [first, ...rest] = measures;
  const fills = empty !== null && (first.name === null || first.name === empty.name);
  const filled = fills ? fillingEdits({ tree, job }, empty, first) : [];
  if (filled === null) return null;
  const added = (fills ? rest : measures).map((each) => measureLines(each, unnamed));
  const appended = added.length === 0 ? [] : appendingEdits(tree, added);
  return appended === null ? null : applyEdits(tree.text, [...filled, ...appended]);
}

/** The newest measure, while nothing was typed in it and nothing done since. */
export function emptyMeasure({ timeline }: Job): Measure | null {
  const last = timeline.at(-1);
  return last?.kind === 'measure' && last.readings.length === 0 && last.spans.length === 0 ? last : null;
}

function measureLines({ name, rows, spans, comments }: MeasureLines, unnamed: string): string[] {
  return [
    `measure: ${plainOrQuoted(name ?? unnamed)}`,
    ...(rows.length > 0 ? ['readings:', ...rows.map((row) => `  ${row}`)] : []),
    ...comments.map((comment) => `  ${comment}`),
    ...(spans.length > 0 ? ['spans:', ...spans.map((span) => `  ${span}`)] : []),
  ];
}

function appendingEdits(tree: TextTree, measures: readonly string[][]): TextEdit[] | null {
  const timeline = timelineNode(tree.root);
  if (timeline !== null && timeline.items.length > 0) {
    const edits = measures.map((lines) => itemInsertion(tree, timeline, lines));
    return whole(edits);
  }
  const { root } = tree;
  if (root?.kind !== 'map') return null;
  const items = measures.flatMap((lines) => lines.map((line, i) => `${i === 0 ? '- ' : '  '}${line}`));
  const entry = entryOf(root, 'timeline');
  if (entry === undefined) return whole([entryInsertion(tree, root, 'timeline', ['', ...items])]);
  const isEmpty = isNothing(entry.value) || timeline?.items.length === 0;
  return isEmpty ? whole([entryReplacement(tree, root, entry, ['', ...items])]) : null;
}

const whole = (edits: readonly (TextEdit | null)[]): TextEdit[] | null => {
  const made = edits.filter((edit) => edit !== null);
  return made.length === edits.length ? made : null;
};

/** Lines into a measure that is there: commented rows of the points become their rows; the others follow. */
export function fillingEdits(
  { tree, job }: JobFile,
  measure: Measure,
  lines: MeasureLines,
): TextEdit[] | null {
  const node = entryNode(tree.root, measure);
  if (node === null || node.flow) return null;
  const prepared = commentedRows(tree, job, measure);
  const edits: (TextEdit | null)[] = [];
  const further: string[] = [];
  for (const [i, id] of lines.ids.entries()) {
    const at = prepared.get(plainOrQuoted(id));
    if (at === undefined) further.push(lines.rows[i]);
    else edits.push({ ...at, text: lines.rows[i] });
  }
  further.push(...lines.comments);
  const last = [...prepared.values()].at(-1);
  const readings = entryOf(node, 'readings');
  if (further.length > 0) {
    const at = last === undefined ? undefined : linesOf(tree.text).positionAt(last.start);
    if (last !== undefined && at !== undefined) {
      const end = linesOf(tree.text).endOf(at.line);
      const indent = ' '.repeat(at.character);
      edits.push({ start: end, end, text: further.map((line) => `\n${indent}${line}`).join('') });
    } else if (readings === undefined) edits.push(entryInsertion(tree, node, 'readings', ['', ...further]));
    else edits.push(commentInsertion(tree, node, readings, further));
  }
  if (lines.spans.length > 0) {
    // below the rows, whose edits end where these begin
    if (entryOf(node, 'spans') !== undefined) return null;
    edits.push(entryInsertion(tree, node, 'spans', ['', ...lines.spans]));
  }
  return whole(edits);
}

/** Where `# id: [ , , ]` stands in the lines of a measure, by id as written. */
function commentedRows(tree: TextTree, job: Job, measure: Measure): Map<string, TextEdit> {
  const { text } = tree;
  const next = job.timeline[job.timeline.indexOf(measure) + 1];
  const start = offsetsOf(measure.place).start;
  const end = next === undefined ? text.length : offsetsOf(next.place).start;
  const found = new Map<string, TextEdit>();
  for (const match of text
    .slice(start, end)
    .matchAll(/^([ \t]+)(#[ \t]*([^\s#:][^\r\n]*?):[ \t]*\[[ ,]*\][ \t]*)$/gm)) {
    const at = start + match.index + match[1].length;
    if (!found.has(match[3])) found.set(match[3], { start: at, end: at + match[2].length, text: '' });
  }
  return found;
}
