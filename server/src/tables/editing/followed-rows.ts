import { entryNode } from '../../editor/timeline-node';
import type { Measure } from '../../model/job';
import { applyEdits, entryReplacement, type TextEdit } from '../../text/edits';
import { entryOf, type MapNode, offsetsOf } from '../../text/tree';
import { type Fillable, importedInto } from '../into-file';
import { fillingEdits } from '../into-job';
import { measuresRead } from '../job-import';
import { type PointRows, readingLines, refusedLines } from '../row-lines';
import type { TableRead } from '../table-reading';
import type { Digits } from '../table-rows';

/** A table that grows while somebody measures: what is new in it goes into the job. */

/** How far a table was followed. */
export interface FollowMark {
  /** The last row that was looked at. */
  readonly row: number;
  /** Over what stood up to there: where that is another by now, the table is no longer the one that was followed. */
  readonly check: number;
}

type Job = Fillable & { readonly kind: 'readings' };

type Followed =
  | {
      readonly kind: 'followed';
      /** The job's text with what is new; null: nothing is. */
      readonly text: string | null;
      readonly mark: FollowMark;
      /** Rows that were understood, and those that became comments. */
      readonly rows: number;
      readonly left: number;
    }
  /** Nothing more is taken, and why. */
  | { readonly kind: 'ended'; readonly message: string };

/** The bytes of a table without its last line, while that is being written. Of UTF-16 it goes later, as text. */
export function wholeLines(bytes: Uint8Array): Uint8Array {
  if (bytes.subarray(0, 1000).includes(0)) return bytes.subarray(0, bytes.length - (bytes.length % 2));
  const end = Math.max(bytes.lastIndexOf(0x0a), bytes.includes(0x0a) ? -1 : bytes.lastIndexOf(0x0d));
  return bytes.subarray(0, end + 1);
}

/** The same of a text. */
export const wholeTextLines = (text: string): string =>
  text.slice(0, Math.max(text.lastIndexOf('\n'), text.includes('\n') ? -1 : text.lastIndexOf('\r')) + 1);

/**
 * What stands below the mark in a table, in the job: below the rows of its newest measure while nothing was done since, else as a measure
 * of its own. A point that the measure has gets a repeat.
 * @param mark null: the table is taken from its beginning
 */
export function followedRows(
  file: Job,
  table: TableRead,
  mark: FollowMark | null,
  unnamed: string,
): Followed {
  if (mark !== null && checkOf(table, mark.row) !== mark.check)
    return { kind: 'ended', message: 'what was taken from the table stands otherwise in it by now' };
  if (table.grid.rows.some(({ sheet }) => sheet !== undefined))
    return { kind: 'ended', message: 'a spreadsheet of several sheets cannot be followed' };
  const since = mark?.row ?? 0;
  const fresh = {
    ...table,
    rows: table.rows.filter(({ row }) => row > since),
    refused: table.refused.filter(({ row }) => row > since),
  };
  const now = markAt(table);
  const nothing = { kind: 'followed', text: null, mark: now, rows: 0, left: 0 } as const;
  if (fresh.rows.length + fresh.refused.length === 0) return nothing;
  const measure = mark === null ? null : newestMeasure(file);
  const text = measure === null ? begun(file, fresh, unnamed) : continued(file, measure, fresh);
  if (text === null) return { kind: 'ended', message: 'the text of the job cannot take the rows' };
  const left = measuresRead(file, fresh, false).flatMap(({ refused }) => refused).length;
  return { ...nothing, text, rows: fresh.rows.length + fresh.refused.length - left, left };
}

/** The mark behind all that a table holds now: followed from it, only what is written later is taken. */
export function markAt(table: TableRead): FollowMark {
  const { rows, refused, leftOut } = table;
  const row = [...rows, ...refused, ...leftOut].reduce((most, each) => Math.max(most, each.row), 0);
  return { row, check: checkOf(table, row) };
}

/** FNV-1a over the columns that count and the rows up to one. */
function checkOf({ grid, layout: { columns, unit } }: TableRead, row: number): number {
  const { remark: _, ...counted } = columns;
  const parts = [JSON.stringify([counted, unit])];
  for (const each of grid.rows) if (each.row <= row) parts.push(each.cells.join('\t').trimEnd());
  const text = parts.join('\n');
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/** The measure that rows are added to: the last entry, where it has rows already. */
function newestMeasure({ job }: Job): Measure | null {
  const last = job.timeline.at(-1);
  return last?.kind === 'measure' && last.readings.length > 0 ? last : null;
}

const begun = (file: Job, table: TableRead, unnamed: string): string | null =>
  importedInto(file, table, { measure: null, unnamed, partial: true, byPlace: false }).text;

function continued(file: Job, measure: Measure, table: TableRead): string | null {
  const node = entryNode(file.tree.root, measure);
  const readings = node === null ? undefined : entryOf(node, 'readings')?.value;
  const reads = measuresRead(file, table, false);
  if (readings?.kind !== 'map' || reads.some(({ spans }) => spans.length > 0)) return null;
  const edits: TextEdit[] = [];
  const [ids, rows, comments]: [string[], string[], string[]] = [[], [], []];
  for (const read of reads) {
    const fresh: PointRows[] = [];
    for (const point of read.points) {
      const entry = entryOf(readings, point.id);
      const edit = entry === undefined ? null : repeatEdit(file, readings, point);
      if (entry === undefined) fresh.push(point);
      else if (edit !== null) edits.push(edit);
      else comments.push(`# ${readingLines([point])[0]} (${point.id} is in this measure otherwise)`);
    }
    ids.push(...fresh.map(({ id }) => id));
    rows.push(...readingLines(fresh));
    comments.push(...refusedLines(read.refused));
  }
  const filled =
    rows.length + comments.length === 0
      ? []
      : fillingEdits(file, measure, { name: null, ids, rows, comments, spans: [] });
  return filled === null ? null : applyEdits(file.tree.text, [...edits, ...filled]);
}

/** Repeats more for a point that the measure has; null where it has no numbers, or not in brackets. */
function repeatEdit({ tree }: Job, readings: MapNode, { id, repeats }: PointRows): TextEdit | null {
  const entry = entryOf(readings, id);
  const value = entry?.value;
  if (entry === undefined || value?.kind !== 'sequence' || !value.flow || value.items.length === 0)
    return null;
  const { start, end } = offsetsOf(value.place);
  const written = tree.text.slice(start, end);
  const has = value.items.every(({ kind }) => kind === 'sequence') ? written.slice(1, -1).trim() : written;
  if (repeats.length === 0 || /[\r\n#]/.test(written)) return null;
  const triples = [has, ...repeats.map((digits: Digits) => `[${digits.join(', ')}]`)];
  return entryReplacement(tree, readings, entry, [`[${triples.join(', ')}]`]);
}
