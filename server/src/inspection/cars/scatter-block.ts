import type { VarianceBlock } from '../../geometry/variance-blocks';
import type { Vec3 } from '../../geometry/vector';
import { type Axis, axes, type Point } from '../../model/chassis';
import type { Instrument } from '../../model/job';
import { instrumentOf } from '../alignment/prepared';
import { assumedUncertaintyMm, readingVariance } from '../alignment/uncertainty';
import { unusable } from '../frame/alignment';
import { inQuestion } from '../frame/in-question';
import type { Inspection } from '../job/inspect';
import type { Stage } from '../job/stage';

/** One reading of a point of a car, as far as it stands off by its own stage's alignment. */
export interface ScatterReading {
  readonly stage: number;
  readonly point: Point;
  /** What shares an error with it: the name of its part, or its own. */
  readonly group: string;
  readonly off: Vec3;
  readonly instrument: string;
  /** Of the variance of one reading, what the mean of its repeats has. */
  readonly share: number;
}

/** A car with the readings that scatter is measured by. */
export interface ScatterCar {
  readonly readings: readonly ScatterReading[];
  /** By the name of an instrument: what the job states of it, standard, mm; null: nothing. */
  readonly stated: ReadonlyMap<string, number | null>;
}

/** Of a job with more stages the first and the last are taken: chosen, for the time that it takes. */
const mostStages = 4;

/**
 * What a job tells of scatter: points that nobody has in question, in stages off load. What the stage itself says to have moved is not left out: that
 * is said by the scatter that the file states, and where it states too little the rest would bear it out. Null: nothing.
 */
export function scatterCar(inspection: Inspection): ScatterCar | null {
  const { job, chassis, work, heldBack } = inspection;
  if (heldBack) return null;
  const settled = inspection.stages.filter(isAlignedItself);
  const half = mostStages / 2;
  const stages = settled.length > mostStages ? [...settled.slice(0, half), ...settled.slice(-half)] : settled;
  const question = inQuestion(job, chassis, work);
  const stated = new Map<string, number | null>();
  const readings: ScatterReading[] = [];
  stages.forEach((stage, index) => {
    const instrument = instrumentOf(job, stage.measure);
    const name = instrumentName(instrument);
    const judged = new Map(stage.points.map((each) => [each.id, each]));
    const taken = stage.displacements.filter(
      ({ point }) =>
        !(point.part !== null && question.parts.has(point.part)) &&
        !question.points.has(point.id) &&
        judged.get(point.id)?.contradictory === false &&
        // a reference that is uncertain itself would be taken for scatter
        point.uncertaintyMm === 0,
    );
    if (taken.filter(({ point }) => point.base).length < 3) return;
    stated.set(name, instrument?.uncertaintyMm ?? null);
    const one = readingVariance(instrument, 1);
    for (const { point, shift } of taken) {
      const repeats = judged.get(point.id)?.reading.triplesMm.length ?? 1;
      const share = one > 0 ? readingVariance(instrument, repeats) / one : 1;
      const group = point.part?.replace(/\.[LR]$/, '') ?? point.name;
      readings.push({ stage: index, point, group, off: shift, instrument: name, share });
    }
  });
  return readings.length === 0 ? null : { readings, stated };
}

const isAlignedItself = ({ alignment, underTension }: Stage): boolean =>
  alignment !== null &&
  !underTension &&
  !unusable(alignment) &&
  alignment.inherited === null &&
  alignment.frame !== null;

/** By name and number, else by what it states of itself. */
const instrumentName = (instrument: Instrument | null): string =>
  [instrument?.name, instrument?.serial].filter((each) => each != null).join(' ') ||
  `instrument of ${instrument?.uncertaintyMm ?? assumedUncertaintyMm} mm`;

/** Components that every body has; instruments come after them. */
export const buildAt = 0;
export const ownAt = 1;
export const groupAt = 2;
const firstInstrument = 3;
export const componentCount = (instruments: readonly string[]): number =>
  firstInstrument + instruments.length;
export const instrumentAt = (index: number): number => firstInstrument + index;

/** Lengths are divided by it, so that turns and shifts are alike in size. */
const metre = 1000;

/**
 * The observations of one car: three a reading, and for each stage a small motion of its own, since it is aligned by the same points.
 * A control point scatters by itself; any other by itself and with its group; a reading by its instrument.
 */
export function scatterBlock(
  readings: readonly ScatterReading[],
  instruments: readonly string[],
): VarianceBlock {
  const stages = [...new Set(readings.map(({ stage }) => stage))];
  const pointIndex = indexOf(readings.map(({ point }) => point.id));
  const groupIndex = indexOf(readings.map(({ group }) => group));
  const rows = readings.flatMap((reading, i) => axes.map((axis) => ({ reading, axis, label: 3 * i + axis })));
  const labelled = (of: (reading: ScatterReading) => number | null) =>
    rows.map(({ reading, axis }) => {
      const index = of(reading);
      return index === null ? -1 : 3 * index + axis;
    });
  const at = (index: ReadonlyMap<string, number>, key: string): number => index.get(key) ?? 0;
  const labels = [
    labelled(({ point }) => (point.base ? at(pointIndex, point.id) : null)),
    labelled(({ point }) => (point.base ? null : at(pointIndex, point.id))),
    labelled(({ point, group }) => (point.base ? null : at(groupIndex, group))),
    ...instruments.map((name) =>
      rows.map(({ reading, label }) => (reading.instrument === name ? label : -1)),
    ),
  ];
  const shares = rows.map(({ reading }) => Math.sqrt(reading.share));
  return {
    values: rows.map(({ reading, axis }) => reading.off[axis]),
    design: rows.map(({ reading, axis }) => motionRow(reading, axis, stages)),
    labels,
    sizes: labels.map((_, k) => (k < firstInstrument ? null : shares)),
  };
}

const indexOf = (keys: readonly string[]): Map<string, number> =>
  new Map([...new Set(keys)].map((key, i) => [key, i]));

/** δ + ω × r on one axis, in the columns of its stage. */
function motionRow({ stage, point }: ScatterReading, axis: Axis, stages: readonly number[]): number[] {
  const [x, y, z] = point.reference.map((each) => each / metre);
  const turns = [
    [0, z, -y],
    [-z, 0, x],
    [y, -x, 0],
  ];
  const row = new Array<number>(6 * stages.length).fill(0);
  const start = 6 * stages.indexOf(stage);
  row[start + axis] = 1;
  turns[axis].forEach((each, k) => {
    row[start + 3 + k] = each;
  });
  return row;
}
