import { plainOrQuoted } from '../text/edits';
import { printable } from '../text/printable';
import type { NamedRow } from './named-rows';
import type { Digits, RefusedRow } from './table-rows';

/** Rows of the language from rows of a table. */

/** All that a table says of one point. */
export interface PointRows {
  readonly id: string;
  readonly repeats: readonly Digits[];
  readonly remarks: readonly string[];
}

/** A row that says of a point what other rows deny. */
interface Contradiction {
  readonly row: NamedRow;
  readonly message: string;
}

/** Points in the order of their first rows; the repeats of each together. No repeats: it could not be reached. */
export function pointRows(rows: readonly NamedRow[], digitsOf: (row: NamedRow) => Digits | null) {
  const points = new Map<string, { id: string; repeats: Digits[]; remarks: string[]; first: NamedRow }>();
  const contradictions: Contradiction[] = [];
  for (const row of rows) {
    const digits = digitsOf(row);
    let point = points.get(row.id);
    if (point === undefined) {
      point = { id: row.id, repeats: [], remarks: [], first: row };
      points.set(row.id, point);
    } else if (digits === null || point.repeats.length === 0) {
      contradictions.push({
        row,
        message: `${row.id} is read in one row and out of reach in another (row ${point.first.row})`,
      });
      continue;
    }
    if (digits !== null) point.repeats.push(digits);
    if (row.remark !== null && !point.remarks.includes(row.remark)) point.remarks.push(row.remark);
    if (row.byPlaceMm !== null && point.remarks.length === 0)
      point.remarks.push(`${row.name} in the table, matched by place, ${row.byPlaceMm.toFixed(1)} mm off`);
  }
  return { points: [...points.values()], contradictions };
}

/** `id: [a, b, c]`, columns under one another. */
export function readingLines(points: readonly PointRows[]): string[] {
  const names = points.map(({ id }) => `${plainOrQuoted(id)}:`);
  const width = widest(names);
  const columns = [0, 1, 2].map((k) =>
    widest(points.flatMap(({ repeats }) => repeats.map((each) => each[k]))),
  );
  const triple = (digits: Digits) => `[${digits.map((each, k) => each.padStart(columns[k])).join(', ')}]`;
  return points.map(({ repeats, remarks }, i) => {
    const triples = repeats.map(triple);
    const value =
      triples.length === 0 ? 'unreachable' : triples.length === 1 ? triples[0] : `[${triples.join(', ')}]`;
    return `${names[i].padEnd(width)} ${value}${commentOf(remarks)}`;
  });
}

/** All that a table says of one distance. No repeats: it could not be read. */
interface SpanRows {
  readonly from: string;
  readonly to: string;
  readonly repeats: readonly string[];
  readonly remark: string | null;
}

/** Rows of distances as one each: a row is a repeat of the one before it where the ends are the same, unless its own column says otherwise. */
export function spanRows(rows: readonly NamedRow[], digitsOf: (digits: string) => string): SpanRows[] {
  const spans: { from: string; to: string; repeats: string[]; remark: string | null }[] = [];
  for (const { id: from, toId: to, value, remark, more } of rows) {
    if (to === null || value.kind === 'numbers') continue;
    const last = spans.at(-1);
    const again = last?.from === from && last.to === to && last.repeats.length > 0 && more.repeat !== '1';
    if (again && value.kind === 'distance') last.repeats.push(digitsOf(value.digits));
    else spans.push({ from, to, repeats: value.kind === 'distance' ? [digitsOf(value.digits)] : [], remark });
  }
  return spans;
}

/** `- [from, to, distance]`. */
export const spanLines = (spans: readonly SpanRows[]): string[] =>
  spans.map(({ from, to, repeats, remark }) => {
    const distance =
      repeats.length === 0 ? 'unreachable' : repeats.length === 1 ? repeats[0] : `[${repeats.join(', ')}]`;
    const ends = `${plainOrQuoted(from, 'flow')}, ${plainOrQuoted(to, 'flow')}`;
    return `- [${ends}, ${distance}]${commentOf(remark === null ? [] : [remark])}`;
  });

// not a spread: a table may have more rows than a call takes arguments
const widest = (texts: readonly string[]): number =>
  texts.reduce((most, { length }) => Math.max(most, length), 0);

const commentOf = (remarks: readonly string[]): string =>
  remarks.length === 0 ? '' : `   # ${remarks.map(oneLine).join('; ')}`;

const oneLine = (text: string): string => {
  const line = printable(text).replace(/\s+/g, ' ').trim();
  // a remark does not silence a finding
  return line.replace(/framewright-/gi, 'framewright ').slice(0, 200);
};

/** What was not understood, as comments to mend by hand. */
export const refusedLines = (refused: readonly RefusedRow[]): string[] =>
  refused.map(
    ({ row, cells, message }) => `# row ${row}: ${oneLine(cells.join(' | '))} (${oneLine(message)})`,
  );
