import type { JudgedPoint } from '../inspection/alignment/points';
import type { JudgedSpan } from '../inspection/alignment/spans';
import { coverage95 } from '../inspection/alignment/verdict';
import type { Inspection } from '../inspection/job/inspect';
import type { Stage } from '../inspection/job/stage';
import { type Axis, axes } from '../model/axes';
import type { Chassis } from '../model/chassis';
import type { Job, Measure, Reading, SpanReading } from '../model/job';
import { sideOf } from '../model/names';
import { mmPer, type Unit } from '../model/units';
import type { Written } from './written-cells';

/** A row of an exported job: one point or distance of one measure, one repeat. */
interface ExportedRow {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly stage: Stage | null;
  readonly measure: Measure;
  /** Of the measure in the timeline, from 1. */
  readonly entry: number;
  readonly repeat: number | null;
  readonly reading: Reading | SpanReading;
  readonly point: JudgedPoint | null;
  readonly span: JudgedSpan | null;
}

interface Column {
  readonly name: string;
  of(row: ExportedRow): Written;
}

const isSpan = (reading: Reading | SpanReading): reading is SpanReading => 'from' in reading;
const idOf = ({ reading }: ExportedRow): string => (isSpan(reading) ? reading.from : reading.id);

const words = ['forward', 'left', 'up'] as const;

/** A length in the job's unit, without the noise of the computation. */
const length = (mm: number | null | undefined, unit: Unit): Written =>
  mm === null || mm === undefined ? null : Number((mm / mmPer[unit]).toFixed(unit === 'mm' ? 3 : 5));

const perAxis = (name: string, of: (row: ExportedRow, axis: Axis) => number | null | undefined): Column[] =>
  axes.map((axis) => ({
    name: `${name}-${words[axis]}`,
    of: (row) => length(of(row, axis), row.job.unit),
  }));

/** A number of a reading as it was typed; where an alias stands for it, as it is. */
function typedNumber({ reading, repeat, job }: ExportedRow, k: Axis): Written {
  if (repeat === null) return k === 0 ? 'unreachable' : null;
  if (isSpan(reading)) return k === 0 ? length(reading.distancesMm[repeat - 1], job.unit) : null;
  const digits = reading.typed?.[repeat - 1]?.[k].source;
  if (digits !== undefined && /^-?(\d+(\.\d*)?|\.\d+)$/.test(digits)) return { digits };
  return Number(((reading.triplesMm[repeat - 1]?.[k] ?? Number.NaN) / mmPer[job.unit]).toPrecision(12));
}

/** All columns that there are, in their usual order: a column more is an entry more. */
const columns: readonly Column[] = [
  { name: 'order', of: ({ job }) => job.order ?? '' },
  { name: 'entry', of: ({ entry }) => entry },
  { name: 'stage', of: ({ measure }) => measure.name },
  { name: 'id', of: idOf },
  { name: 'to', of: ({ reading }) => (isSpan(reading) ? reading.to : null) },
  { name: 'part', of: (row) => row.chassis.points.get(idOf(row))?.part ?? null },
  { name: 'side', of: (row) => (isSpan(row.reading) ? null : sideOf(idOf(row))) },
  { name: 'repeat', of: ({ repeat }) => repeat },
  { name: 'reading-1', of: (row) => typedNumber(row, 0) },
  { name: 'reading-2', of: (row) => typedNumber(row, 1) },
  { name: 'reading-3', of: (row) => typedNumber(row, 2) },
  ...perAxis('reference', ({ point }, axis) => point?.point.reference[axis]),
  ...perAxis('measured', ({ point }, axis) => point?.measured?.[axis]),
  ...perAxis('deviation', ({ point }, axis) => point?.deviation[axis]),
  ...perAxis('plus-minus', ({ point }, axis) => expanded(point?.uncertainty[axis])),
  ...perAxis('lower', ({ point }, axis) => point?.point.limits[axis][0]),
  ...perAxis('upper', ({ point }, axis) => point?.point.limits[axis][1]),
  { name: 'distance-reference', of: ({ span, job }) => length(span?.referenceMm, job.unit) },
  { name: 'distance-measured', of: ({ span, job }) => length(span?.measuredMm, job.unit) },
  { name: 'distance-deviation', of: ({ span, job }) => length(span?.deviationMm, job.unit) },
  { name: 'distance-plus-minus', of: ({ span, job }) => length(expanded(span?.uncertaintyMm), job.unit) },
  { name: 'distance-lower', of: ({ span, job }) => length(span?.limits[0], job.unit) },
  { name: 'distance-upper', of: ({ span, job }) => length(span?.limits[1], job.unit) },
  { name: 'verdict', of: ({ point, span }) => point?.verdict ?? span?.verdict ?? null },
  // a verdict beside these words is no result
  {
    name: 'state',
    of: ({ stage }) => (stage?.underTension ? 'under load' : stage?.provisional ? 'provisional' : null),
  },
];

export const jobColumnNames = columns.map(({ name }) => name);

const expanded = (standard: number | null | undefined): number | null =>
  standard === null || standard === undefined ? null : standard * coverage95;

/** The rows of a job by measure, each with the chosen columns. */
export function jobTable(
  { job, chassis, stages }: Inspection,
  chosen: readonly string[],
): readonly { readonly measure: string; readonly rows: readonly (readonly Written[])[] }[] {
  const kept = chosen.flatMap((name) => columns.filter((column) => column.name === name));
  return job.timeline.flatMap((measure, i) => {
    if (measure.kind !== 'measure') return [];
    const stage = stages.find(({ index }) => index === i) ?? null;
    const points = new Map(stage?.points.map((point) => [point.reading, point]));
    const spans = new Map(stage?.spans.map((span) => [span.reading, span]));
    const base = { job, chassis, stage, measure, entry: i + 1 };
    const rows = [...measure.readings, ...measure.spans].flatMap((reading) =>
      repeatsOf(reading).map(
        (repeat): ExportedRow => ({
          ...base,
          repeat,
          reading,
          point: isSpan(reading) ? null : (points.get(reading) ?? null),
          span: isSpan(reading) ? (spans.get(reading) ?? null) : null,
        }),
      ),
    );
    return [{ measure: measure.name, rows: rows.map((row) => kept.map((column) => column.of(row))) }];
  });
}

function repeatsOf(reading: Reading | SpanReading): (number | null)[] {
  if (reading.unreachable) return [null];
  const count = isSpan(reading) ? reading.distancesMm.length : reading.triplesMm.length;
  return Array.from({ length: count }, (_, i) => i + 1);
}
