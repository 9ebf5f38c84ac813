import type { TextRange } from '../../findings/rule/finding';
import { applyEdits, lineBreakOf, plainOrQuoted, type TextEdit } from '../../text/edits';
import { type LineTable, linesOf } from '../../text/lines';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../../workspace/workspace';
import { bodyRows, pointLines } from '../into-chassis';
import { measuresRead } from '../job-import';
import { refusedLines } from '../row-lines';
import { faultText, type TableRead } from '../table-reading';
import { changedPart } from './changed-part';
import { chosenTable, tableIn } from './chosen-layout';
import { lineKind, type RowsBlock, rowsBlockAt } from './rows-block';

/** What a block of a table becomes under `readings:` or `points:`. */
export type Pasted =
  | {
      readonly kind: 'rows';
      readonly edit: TextEdit;
      /** Points that get their rows. */
      readonly rows: number;
      /** Rows that are left as comments, with the reason. */
      readonly left: number;
      /** The layout of the settings by which it was read. */
      readonly layout: string | null;
    }
  /** It is a table, and why it stays as it is. */
  | { readonly kind: 'refused'; readonly message: string };

/** What is offered, in words. */
export function pasteTitle({ rows, left, layout }: Extract<Pasted, { kind: 'rows' }>): string {
  const comments = left === 0 ? '' : `, ${left} left as comments`;
  const by = layout === null ? '' : `, layout ${layout}`;
  return `rows of this table (${rows === 1 ? '1 point' : `${rows} points`}${comments}${by})`;
}

/** @param range what the paste replaces. Null: it is no table, or no place for one */
export function pastedRows(analysis: Analysis, range: TextRange, text: string): Pasted | null {
  if (analysis.kind === 'settings' || tableIn(text) === null) return null;
  const lines = linesOf(analysis.text);
  const [first, last] = [lines.positionAt(range.start).line, lines.positionAt(range.end).line];
  const above = analysis.text.slice(lines.startOf(first), range.start);
  const below = analysis.text.slice(range.end, lines.endOf(last));
  if (below.trim() !== '' && !/^\s*#/.test(below)) return null;
  const block = rowsBlockAt(lines, first);
  if (block === null || (below.trim() !== '' && first !== block.head)) return null;
  const is = lineKind(above);
  const isHead = first === block.head && is.kind === 'key';
  // a name that waits for its numbers is one of the rows
  const waits = is.kind === 'key' && is.value === '' && block.rows.some(({ line }) => line === first);
  if ((is.kind !== 'blank' && !isHead && !waits) || isWithinRow(lines, block, first)) return null;
  const place = isHead
    ? { start: lines.endOf(first), end: lines.endOf(first), isBelow: true }
    : { start: lines.startOf(first), end: lines.endOf(last), isBelow: false };
  return rowsInto(analysis, block, place, text);
}

/** A row whose brackets are still open goes on here. */
function isWithinRow(lines: LineTable, { rows }: RowsBlock, line: number): boolean {
  const row = rows.findLast((each) => each.isFilled && each.line < line);
  if (row === undefined) return false;
  const text = Array.from({ length: line - row.line }, (_, i) => lines.lineText(row.line + i))
    .map((each) => each.replace(/(^|\s)#[\s\S]*$/, ''))
    .join('\n');
  return (text.match(/[[{]/g)?.length ?? 0) > (text.match(/[\]}]/g)?.length ?? 0);
}

/** The lines of a table that stand in a block as they were pasted, around a line; null where there are none. */
function tableLinesAt(lines: LineTable, line: number): TextRange | null {
  const isTable = (at: number): boolean =>
    at >= 0 && at < lines.lineCount && lineKind(lines.lineText(at)).kind === 'table';
  if (!isTable(line)) return null;
  let [first, last] = [line, line];
  while (isTable(first - 1)) first -= 1;
  while (isTable(last + 1)) last += 1;
  return { start: lines.startOf(first), end: lines.endOf(last) };
}

/** What the pasted lines around a place would be as rows. */
export function standingRows(analysis: Analysis, offset: number): Pasted | null {
  if (analysis.kind === 'settings') return null;
  const lines = linesOf(analysis.text);
  const { line } = lines.positionAt(offset);
  const range = tableLinesAt(lines, line);
  if (range === null) return null;
  const text = analysis.text.slice(range.start, range.end);
  const block = tableIn(text) === null ? null : rowsBlockAt(lines, line);
  return block === null ? null : rowsInto(analysis, block, { ...range, isBelow: false }, text);
}

interface Place extends TextRange {
  /** The rows come on lines of their own below it. */
  readonly isBelow: boolean;
}

function rowsInto(
  analysis: JobAnalysis | ChassisAnalysis,
  block: RowsBlock,
  place: Place,
  text: string,
): Pasted | null {
  const grid = tableIn(text);
  if (grid === null || (block.of === 'points') !== (analysis.kind === 'chassis')) return null;
  const chosen = chosenTable(grid, analysis.settings.tables);
  if ('message' in chosen) return { kind: 'refused', message: faultText(chosen) };
  const made =
    analysis.kind === 'chassis'
      ? pointRowsOf(analysis, chosen.table)
      : readingRowsOf(analysis, block, chosen.table);
  if (typeof made === 'string') return { kind: 'refused', message: made };
  const after = applyEdits(analysis.text, editsFor(analysis.text, block, place, made));
  const edit = changedPart(analysis.text, after);
  if (edit === null || made.ids.length + made.comments.length === 0) return null;
  return { kind: 'rows', edit, rows: made.ids.length, left: made.comments.length, layout: chosen.layout };
}

interface Made {
  readonly ids: readonly string[];
  readonly rows: readonly string[];
  readonly comments: readonly string[];
}

function pointRowsOf({ chassis }: ChassisAnalysis, table: TableRead): Made | string {
  const body = bodyRows(table.rows, table.layout, chassis);
  if (body.spans.length > 0) return 'the table holds distances, which do not go under points';
  const refused = [...table.refused, ...body.refused].sort((a, b) => a.row - b.row);
  return {
    ids: body.points.map(({ id }) => id),
    rows: pointLines(body.points, chassis),
    comments: refusedLines(refused),
  };
}

/** A point that the measure has already is not read a second time by a paste: what was pasted twice is no repeat. */
function readingRowsOf(analysis: JobAnalysis, block: RowsBlock, table: TableRead): Made | string {
  const { chassis, job } = analysis;
  if (job.signOff !== null) return 'the job is signed: nothing is added to it';
  if (chassis === null) return 'its chassis file cannot be read, so no name is known';
  const [measure, ...others] = measuresRead({ ...analysis, chassis }, table, false);
  if (measure === undefined || others.length > 0)
    return 'the table holds several measures: Insert Measure from Table… takes them';
  if (measure.spans.length > 0) return 'the table holds distances: Insert Measure from Table… takes them';
  const has = new Set(block.rows.filter(({ isFilled }) => isFilled).map(({ id }) => id));
  const isNew = (i: number): boolean => !has.has(measure.ids[i]);
  return {
    ids: measure.ids.filter((_, i) => isNew(i)),
    rows: measure.rows.filter((_, i) => isNew(i)),
    comments: [
      ...measure.rows.filter((_, i) => !isNew(i)).map((row) => `# ${row} (is read in this measure already)`),
      ...refusedLines(measure.refused),
    ],
  };
}

/** The rows at their place, and what waited for them gone. */
function editsFor(text: string, block: RowsBlock, place: Place, made: Made): TextEdit[] {
  const lines = linesOf(text);
  const lineBreak = lineBreakOf(text);
  const indent = ' '.repeat(block.indent);
  const written = [...made.rows, ...made.comments].map((row) => indent + row).join(lineBreak);
  const got = new Set(made.ids.map((id) => plainOrQuoted(id)));
  const waited = block.rows.filter(
    ({ id, isFilled, line }) =>
      !isFilled &&
      got.has(plainOrQuoted(id)) &&
      (lines.startOf(line) < place.start || lines.endOf(line) > place.end),
  );
  return [
    ...waited.map(({ line }) => ({ start: lines.endOf(line - 1), end: lines.endOf(line), text: '' })),
    { start: place.start, end: place.end, text: place.isBelow ? lineBreak + written : written },
  ];
}
