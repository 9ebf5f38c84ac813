import { plainOrQuoted } from '../text/edits';
import { printable } from '../text/printable';
import type { NamedRow } from './named-rows';
import type { Digits, RefusedRow } from './table-rows';

/** Rows of the language from rows of a table. */

/** All that a table says of one point. */
interface PointRows {
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

/** `- [from, to, distance]`. */
export function spanLines(
  spans: readonly {
    readonly from: string;
    readonly to: string;
    readonly digits: string;
    readonly remark: string | null;
  }[],
): string[] {
  return spans.map(
    ({ from, to, digits, remark }) =>
      `- [${plainOrQuoted(from, 'flow')}, ${plainOrQuoted(to, 'flow')}, ${digits}]${commentOf(remark === null ? [] : [remark])}`,
  );
}

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
