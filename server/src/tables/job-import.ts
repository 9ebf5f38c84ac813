import type { Chassis } from '../model/chassis';
import type { Job } from '../model/job';
import { sideOf } from '../model/names';
import type { TextTree } from '../text/tree';
import { foundByPlace } from './by-place';
import { emptyMeasure, jobWithMeasures, type MeasureLines } from './into-job';
import { type Named, type NamedRow, namedRow, namedRows } from './named-rows';
import { type PointRows, pointRows, readingLines, refusedLines, spanLines, spanRows } from './row-lines';
import type { TableRead } from './table-reading';
import { type Digits, type RefusedRow, stageName } from './table-rows';
import { targetDigits, targetDistance } from './target-digits';

/** What a table makes of a file: the new text, and what is to be told. */
export interface Imported {
  /** Null: the text of the file cannot take it. */
  readonly text: string | null;
  /** What was understood, for a person. */
  readonly said: readonly string[];
  readonly refused: readonly RefusedRow[];
}

export interface ImportOptions {
  /** Of the measure, where the table does not name it; null: what it follows in the timeline says it. */
  readonly measure: string | null;
  readonly unnamed: string;
  /** Rows that are not understood stay behind as comments. */
  readonly partial: boolean;
  /** Unknown names are taken for the point that lies there. */
  readonly byPlace: boolean;
}

interface JobFile {
  readonly tree: TextTree;
  readonly job: Job;
  readonly chassis: Chassis;
}

/** The rows of one measure of a table. */
interface MeasureRead extends Omit<MeasureLines, 'comments'> {
  /** What its rows say, by which a point that is there gets repeats. */
  readonly points: readonly PointRows[];
  readonly refused: readonly RefusedRow[];
  /** How many rows of the table were understood as readings. */
  readonly readRows: number;
}

/** What a table says, a measure each. @param accept unknown names are taken for the point that lies there */
export function measuresRead(file: JobFile, table: TableRead, accept: boolean): MeasureRead[] {
  const { job, chassis } = file;
  const named = namedRows(table.rows, chassis.points, table.layout.names);
  const stages = [...new Set(table.rows.map(({ stage }) => stage))];
  const digitsIn = targetDigits(table.layout, { axes: job.axes, unit: job.unit });
  return (stages.length === 0 ? [null] : stages).map((stage, i) => {
    const found = withPlaces(ofStage(named, stage), { file, digitsIn, accept });
    const made = measureOf(found.rows, digitsIn, targetDistance(table.layout, job.unit));
    return {
      ...made,
      name: stageName(stage),
      // of a row that is not understood nobody knows the stage
      refused: inOrder([...(i === 0 ? table.refused : []), ...found.refused, ...made.contradictions]),
      readRows: found.rows.length - made.spans.length,
    };
  });
}

/** The rows of a table as measures of a job. */
export function jobImport(file: JobFile, table: TableRead, options: ImportOptions): Imported {
  const read = measuresRead(file, table, options.byPlace);
  const refused = inOrder(read.flatMap((each) => each.refused));
  // what is empty is filled, and keeps its name
  const unnamed = emptyMeasure(file.job)?.name ?? options.unnamed;
  const said = read.map(
    ({ name, ids, readRows, spans }, i) =>
      `${name ?? options.measure ?? (i === 0 ? unnamed : options.unnamed)}: ${counted(ids.length, 'point')} in ${counted(readRows, 'row')}, ${counted(spans.length, 'distance')}`,
  );
  const comments = options.partial ? refusedLines(refused) : [];
  const measures = read.map((each, i) => ({
    ...each,
    name: read.length === 1 ? (options.measure ?? each.name) : each.name,
    comments: i === read.length - 1 ? comments : [],
  }));
  return { text: jobWithMeasures(file, measures, options.unnamed), said, refused };
}

const counted = (count: number, what: string): string => (count === 1 ? `1 ${what}` : `${count} ${what}s`);

const inOrder = (refused: readonly RefusedRow[]): RefusedRow[] => [...refused].sort((a, b) => a.row - b.row);

const ofStage = ({ rows, unknown }: Named, stage: string | null): Named => ({
  rows: rows.filter((row) => row.stage === stage),
  unknown: unknown.filter(({ source }) => source.stage === stage),
});

type DigitsIn = ReturnType<typeof targetDigits>;

/** Rows with unknown names, each with the point that lies there, taken for it or told. */
function withPlaces(
  { rows, unknown }: Named,
  { file, digitsIn, accept }: { file: JobFile; digitsIn: DigitsIn; accept: boolean },
): { rows: readonly NamedRow[]; refused: readonly RefusedRow[] } {
  if (unknown.length === 0) return { rows, refused: [] };
  const placed = (digits: Digits, id: string | null): Digits =>
    digitsIn(digits, id === null ? null : sideOf(id));
  const known = rows.flatMap(({ id, name, value }) =>
    value.kind === 'numbers' ? [{ id, name, digits: placed(value.digits, id) }] : [],
  );
  const strange = unknown.flatMap(({ source: { name, side, value } }) =>
    value.kind === 'numbers' ? [{ name: `${name}\n${side}`, digits: placed(value.digits, null) }] : [],
  );
  const places = foundByPlace(file.chassis, file.job, known, strange);
  const taken: NamedRow[] = [];
  const refused: RefusedRow[] = [];
  for (const { source, meant, ...row } of unknown) {
    const place = places.get(`${source.name}\n${source.side}`);
    if (place === undefined) refused.push(row);
    else if (accept) taken.push(namedRow(source, place.id, null, place.offMm));
    else
      refused.push({
        ...row,
        message: `${row.message}; by its place, ${place.offMm.toFixed(1)} mm off, it is ${place.id}`,
        byPlace: place.id,
      });
  }
  const all = [...rows, ...taken];
  return { rows: taken.length === 0 ? all : all.sort((a, b) => a.row - b.row), refused };
}

function measureOf(rows: readonly NamedRow[], digitsIn: DigitsIn, distanceIn: (digits: string) => string) {
  const { points, contradictions } = pointRows(
    rows.filter(({ toId }) => toId === null),
    ({ id, value }) => (value.kind === 'numbers' ? digitsIn(value.digits, sideOf(id)) : null),
  );
  const spans = spanRows(rows, distanceIn);
  return {
    points,
    ids: points.map(({ id }) => id),
    rows: readingLines(points),
    spans: spanLines(spans),
    contradictions: contradictions.map(({ row: { row, sheet, cells }, message }) => ({
      row,
      sheet,
      cells,
      column: null,
      message,
    })),
  };
}
