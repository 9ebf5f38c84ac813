import { readingWords } from '@framewright/schemas';
import type { TextRange } from '../../findings/rule/finding';
import { lineBreakOf } from '../../text/edits';
import { linesOf } from '../../text/lines';
import {
  entryOf,
  isNothing,
  type MapEntry,
  type MapNode,
  type Node,
  offsetsOf,
  textOf,
} from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { overlaps } from '../places';
import { timelineNode } from '../timeline-node';
import { type Row, RowWriter } from './table-row';

/** Rows whose columns are aligned with each other. */
export type Table = readonly Row[];

/**
 * The tables of a file: the readings and distances of each measure; the points and parts of a chassis.
 * @param range only of the measures that it touches
 */
export function tablesOf({ kind, tree }: Pick<Analysis, 'kind' | 'tree'>, range?: TextRange): Table[] {
  const { root, text } = tree;
  if (kind === 'chassis')
    return [
      rowsOf(text, entryOf(root, 'points')?.value, pointRow),
      rowsOf(text, entryOf(root, 'parts')?.value, partRow),
    ];
  if (kind !== 'readings') return [];
  return (timelineNode(root)?.items ?? []).flatMap((entry) => {
    if (entry.kind !== 'map' || entry.entries[0]?.key.value !== 'measure') return [];
    if (range && !overlaps(entry.place, range)) return [];
    const readings = entryOf(entry, 'readings');
    return [
      (readings && spreadRows(text, readings)) ?? rowsOf(text, readings?.value, readingRow),
      spanRows(text, entryOf(entry, 'spans')?.value),
    ];
  });
}

type WrittenRow = (writer: RowWriter, value: Node) => boolean;

function rowsOf(text: string, map: Node | null | undefined, written: WrittenRow): Row[] {
  if (map?.kind !== 'map') return [];
  if (map.flow) return flowRow(text, map);
  return map.entries.flatMap((entry) => keyedRow(text, entry, written));
}

function keyedRow(text: string, { key, value, place }: MapEntry, written: WrittenRow): Row[] {
  if (value === null) return [];
  const writer = new RowWriter(text);
  const { start, end } = offsetsOf(place);
  // a value below its key has no column of its own
  if (/[\r\n]/.test(text.slice(offsetsOf(key.place).end, offsetsOf(value.place).start)))
    return belowKey(text, value);
  return writer.key(key, value) && written(writer, value) ? [writer.row(start, end)] : [];
}

/** Repeats as a list with dashes: each a row of its own. */
const belowKey = (text: string, value: Node): Row[] =>
  value.kind === 'sequence' && !value.flow
    ? value.items.flatMap((item) => itemRow(text, item, (writer) => writer.triple(item)))
    : [];

function itemRow(text: string, item: Node, written: (writer: RowWriter) => boolean): Row[] {
  const writer = new RowWriter(text);
  const { start, end } = offsetsOf(item.place);
  return written(writer) ? [writer.row(start, end)] : [];
}

/** `{ a: [1, 2, 3] }` in braces on one line. */
function flowRow(text: string, map: MapNode): Row[] {
  const { start, end } = offsetsOf(map.place);
  const writer = new RowWriter(text);
  const isTriple = (key: string): boolean => entryOf(map, key)?.value?.kind === 'sequence';
  return writer.map(map, isTriple) ? [writer.row(start, end)] : [];
}

/** Several readings in braces on one line become rows: one triple a line. Null where that is not what stands there. */
function spreadRows(text: string, { key, value }: MapEntry): Row[] | null {
  if (value?.kind !== 'map' || !value.flow || value.entries.length < 2) return null;
  const { start, end } = offsetsOf(value.place);
  const keyAt = offsetsOf(key.place);
  const lines = linesOf(text);
  const lineStart = lines.startOf(lines.positionAt(keyAt.start).line);
  const indent = text.slice(lineStart, keyAt.start);
  if (indent.trim() !== '' || /[\r\n]/.test(text.slice(keyAt.start, end))) return null;
  const ofMap = { start: keyAt.start, end };
  const row = `${lineBreakOf(text)}${indent}  `;
  const rows: Row[] = [];
  let done = offsetsOf(key.place).end + text.slice(keyAt.end, start).indexOf(':') + 1;
  for (const [index, entry] of value.entries.entries()) {
    const at = offsetsOf(entry.place);
    const writer = new RowWriter(text);
    if (!/^[A-Za-z0-9][\w.-]*$/.test(text.slice(at.start, offsetsOf(entry.key.place).end))) return null;
    if (text.slice(done, at.start).trim() !== (index === 0 ? '{' : ',') || entry.value === null) return null;
    if (!writer.key(entry.key, entry.value) || !readingRow(writer, entry.value)) return null;
    writer.gaps.unshift({ start: done, end: at.start, blanks: () => row });
    rows.push({ ...ofMap, needs: writer.needs, gaps: writer.gaps });
    done = at.end;
  }
  if (text.slice(done, end).trim() !== '}') return null;
  return [...rows, { ...ofMap, needs: [], gaps: [{ start: done, end, blanks: () => '' }] }];
}

const words: ReadonlySet<string> = new Set(readingWords);

const readingRow: WrittenRow = (writer, value) =>
  (value.kind === 'scalar' && words.has(textOf(value))) || writer.triples(value);

const positions = new Set(['both', 'left', 'right', 'centre']);

const pointRow: WrittenRow = (writer, value) =>
  isWrittenNull(value) || (value.kind === 'map' && writer.map(value, (key) => positions.has(key)));

const partRow: WrittenRow = (writer, value) =>
  isWrittenNull(value) || (value.kind === 'map' && writer.map(value, () => false));

const isWrittenNull = (value: Node): boolean =>
  isNothing(value) && offsetsOf(value.place).end > offsetsOf(value.place).start;

const spanRows = (text: string, list: Node | null | undefined): Row[] =>
  list?.kind === 'sequence' && !list.flow
    ? list.items.flatMap((item) => itemRow(text, item, (writer) => writer.span(item)))
    : [];
