import { binomialTail, chanceOfSameNumber } from '../../geometry/equal-readings';
import type { Vec3 } from '../../geometry/vector';
import { derived, derivedWithEach } from '../../memory/derived';
import { hasNumbers, type Measure, type Reading } from '../../model/job';
import { mmPer, type Unit } from '../../model/units';
import { instrumentOf } from '../alignment/prepared';
import type { Inspection } from './inspect';
import { readingsById } from './readings-by-id';
import type { Stage } from './stage';

/** Numbers of a stage that stand in an earlier one, more of them than chance explains (server/README.md, "Copied readings"). */
export interface Copied {
  readonly stage: Stage;
  readonly from: Stage;
  readonly readings: readonly Reading[];
  /** Points that both stages read. */
  readonly shared: number;
  /** As many may well be the same by chance. */
  readonly explained: number;
  readonly stepMm: number;
  /** Null where the other rows agree better than it would have them. */
  readonly repeatabilityMm: number | null;
  /** No instrument states its repeatability. */
  readonly isAssumed: boolean;
}

/** Taken where no repeatability is stated: nothing that is read by hand on a body repeats better. Chosen. */
const assumedRepeatabilityMm = 0.05;

/** A stage is doubted where chance would do the same in fewer than one of a thousand jobs. */
const allowedChance = 1e-3;

/** Of each stage the earlier one that it shares most numbers with, where those are too many. */
export const copiedReadings = derived(({ job, stages }: Inspection): readonly Copied[] => {
  const numbers = stages.map(({ measure }) =>
    numbersOf(measure, job.unit, instrumentOf(job, measure)?.repeatabilityMm ?? null),
  );
  return stages.flatMap((stage, i) => {
    const found = copiedFromEach(numbers[i], numbers.slice(0, i)).flatMap((each, j) =>
      each === null ? [] : [{ ...each, stage, from: stages[j] }],
    );
    return found.length === 0
      ? []
      : [found.reduce((most, each) => (each.readings.length >= most.readings.length ? each : most))];
  });
});

interface Row {
  readonly ids: string;
  readonly mm: Float64Array;
}

/** What a measure is compared by. */
interface Numbers {
  readonly measure: Measure;
  readonly unit: Unit;
  readonly repeatabilityMm: number;
  readonly isAssumed: boolean;
  /** The points in their order, and their numbers in a row; null where a point has several, or none. */
  readonly row: Row | null;
}

const numbersOf = derived(
  (measure: Measure, unit: Unit, stated: number | null): Numbers => ({
    measure,
    unit,
    // 0 is what is taken where nothing is stated: of how the instrument repeats it says nothing
    repeatabilityMm: stated || assumedRepeatabilityMm,
    isAssumed: !stated,
    row: rowOf(measure),
  }),
);

function rowOf({ readings }: Measure): Row | null {
  const mm = new Float64Array(3 * readings.length);
  const ids: string[] = [];
  for (const reading of readings) {
    if (reading.triplesMm.length !== 1 || !hasNumbers(reading)) return null;
    mm.set(reading.triplesMm[0], 3 * ids.length);
    ids.push(reading.id);
  }
  return { ids: ids.join('\n'), mm };
}

/** With each earlier measure, of which there are so many as are given. */
const copiedFromEach = (now: Numbers, earlier: readonly Numbers[]) =>
  tooManyOfEach(now, earlier, earlier.length);

const tooManyOfEach = derivedWithEach(tooMany);

interface Compared {
  readonly same: readonly Reading[];
  readonly shared: number;
  readonly repeats: number;
  readonly numbers: number;
  readonly equal: number;
}

/** The rows of two measures side by side: it is done for every two of a job. Most have one reading each of the same points in the same order. */
const compared = (now: Numbers, earlier: Numbers): Compared =>
  now.row !== null && earlier.row !== null && now.row.ids === earlier.row.ids
    ? comparedInRow(now.measure, now.row.mm, earlier.row.mm)
    : comparedByPoint(now.measure, earlier.measure);

function comparedInRow({ readings }: Measure, now: Float64Array, then: Float64Array): Compared {
  const same: Reading[] = [];
  let equal = 0;
  for (let i = 0; i < now.length; i += 3) {
    const count =
      Number(now[i] === then[i]) + Number(now[i + 1] === then[i + 1]) + Number(now[i + 2] === then[i + 2]);
    if (count === 3) same.push(readings[i / 3]);
    else equal += count;
  }
  const shared = readings.length;
  return { same, shared, repeats: Math.min(1, shared), numbers: 3 * (shared - same.length), equal };
}

function comparedByPoint({ readings }: Measure, earlier: Measure): Compared {
  const before = readingsById(earlier);
  const same: Reading[] = [];
  let [shared, repeats, numbers, equal] = [0, 0, 0, 0];
  for (const reading of readings) {
    const then = before.get(reading.id)?.triplesMm;
    if (then === undefined || then.length === 0 || !hasNumbers(reading)) continue;
    shared++;
    repeats = Math.max(repeats, then.length);
    const now = reading.triplesMm;
    // all of its repeats stand in the earlier one
    if (now.every((triple) => then.some((each) => equalNumbers(triple, each) === 3))) {
      same.push(reading);
      continue;
    }
    numbers += 3;
    equal += equalNumbers(now[0], then[0]);
  }
  return { same, shared, repeats, numbers, equal };
}

function equalNumbers(a: Vec3, b: Vec3): number {
  let count = 0;
  for (let k = 0; k < 3; k++) if (a[k] === b[k]) count++;
  return count;
}

function tooMany(
  now: Numbers,
  from: Numbers,
  earlierMeasures: number,
): Omit<Copied, 'stage' | 'from'> | null {
  const { same: readings, shared, repeats, numbers, equal } = compared(now, from);
  if (readings.length === 0) return null;
  // asked of the few that have rows in common: it looks at every digit
  const stepMm = Math.max(stepOfMeasure(now.measure, now.unit), stepOfMeasure(from.measure, from.unit));
  const byStated = chanceOfSameNumber(stepMm, Math.hypot(now.repeatabilityMm, from.repeatabilityMm));
  // many an instrument repeats better than is stated of it
  const byRows = shownChance(numbers, equal);
  // any of the repeats may be met
  const chance = Math.min(1, repeats * Math.max(byStated, byRows) ** 3);
  const allowed = allowedChance / earlierMeasures;
  if (binomialTail(readings.length, shared, chance, allowed) >= allowed) return null;
  let explained = readings.length - 1;
  while (explained > 0 && binomialTail(explained, shared, chance, allowed) < allowed) explained--;
  return {
    readings,
    shared,
    explained,
    stepMm,
    repeatabilityMm: byRows > byStated ? null : now.repeatabilityMm,
    isAssumed: now.isAssumed,
  };
}

/** So few numbers do not say how an instrument repeats. */
const fewestShown = 30;

/**
 * The chance that one number comes out the same, as the rows that are not all the same show it, two standard errors up; 0 where there are too
 * few. In such a row a number is the same with q = c(1 + c)/(1 + c + c²). Of a car that was pulled or set up anew it is small.
 */
function shownChance(n: number, equal: number): number {
  if (n < fewestShown) return 0;
  const share = equal / n;
  const q = Math.min(0.99, share + 2 * Math.sqrt((share * (1 - share)) / n));
  return (Math.sqrt(1 + (4 * q) / (1 - q)) - 1) / 2;
}

/** A number as written has no more places than this. */
const mostPlaces = 6;

/**
 * What the numbers of a measure are rounded to, mm: the largest of 5, 2 and 1 in their last decimal place that all are multiples of. Too
 * large a step from few numbers doubts less.
 */
export function stepOf({ readings }: Pick<Measure, 'readings'>, unit: Unit): number {
  for (let places = 0; places <= mostPlaces; places++) {
    const scale = 10 ** places / mmPer[unit];
    if (places < mostPlaces && !areWhole(readings, scale)) continue;
    const digits = [5, 2, 1].find((marks) => areMultiples(readings, scale, marks)) ?? 1;
    return digits / scale;
  }
  return mmPer[unit];
}

const stepOfMeasure = derived((measure: Measure, unit: Unit): number => stepOf(measure, unit));

/** Loops, here and below: a function called for each number would be most of what is made in a check. */
function areWhole(readings: readonly Reading[], scale: number): boolean {
  for (const { triplesMm } of readings)
    for (const triple of triplesMm)
      for (let k = 0; k < 3; k++) {
        const marks = triple[k] * scale;
        if (!(Math.abs(marks - Math.round(marks)) < 1e-6)) return false;
      }
  return true;
}

function areMultiples(readings: readonly Reading[], scale: number, marks: number): boolean {
  for (const { triplesMm } of readings)
    for (const triple of triplesMm)
      for (let k = 0; k < 3; k++) if (Math.round(triple[k] * scale) % marks !== 0) return false;
  return true;
}
