import { binomialTail, chanceOfSameNumber } from '../../geometry/equal-readings';
import { derived } from '../../memory/derived';
import { hasNumbers, type Instrument, type Job, type Measure, type Reading } from '../../model/job';
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
  const seen = new Map<string, number[]>();
  return stages.flatMap((stage, i) => {
    const sames = sameNumbers(stage, seen);
    for (const reading of stage.measure.readings)
      for (const key of new Set(keysOf(reading))) {
        const before = seen.get(key);
        if (before) before.push(i);
        else seen.set(key, [i]);
      }
    const found = [...sames]
      .map(([j, readings]) => tooMany(job, { stage, from: stages[j], readings }, i))
      .filter((each) => each !== null);
    return found.length === 0
      ? []
      : [found.reduce((most, each) => (each.readings.length >= most.readings.length ? each : most))];
  });
});

const keysOf = ({ id, triplesMm }: Reading): string[] =>
  triplesMm.map((triple) => `${id} ${triple.join(' ')}`);

/** By earlier stage, in order: the rows all of whose repeats stand there under the same name. */
function sameNumbers(stage: Stage, seen: ReadonlyMap<string, readonly number[]>): Map<number, Reading[]> {
  const sames = new Map<number, Reading[]>();
  for (const reading of stage.measure.readings) {
    const [first, ...others] = keysOf(reading).map((key) => seen.get(key) ?? []);
    for (const j of first ?? [])
      if (others.every((stagesWithIt) => stagesWithIt.includes(j)))
        sames.set(j, [...(sames.get(j) ?? []), reading]);
  }
  return new Map([...sames].sort(([a], [b]) => a - b));
}

function tooMany(
  job: Job,
  { stage, from, readings }: Pick<Copied, 'stage' | 'from' | 'readings'>,
  earlierStages: number,
): Copied | null {
  const before = readingsById(from.measure);
  const shared = stage.measure.readings.flatMap((reading) => {
    const earlier = before.get(reading.id);
    return hasNumbers(reading) && earlier !== undefined && hasNumbers(earlier) ? [earlier] : [];
  });
  const stepMm = Math.max(stepOf(stage.measure, job.unit), stepOf(from.measure, job.unit));
  const instruments = [stage, from].map(({ measure }) => instrumentOf(job, measure));
  const byStated = chanceOfSameNumber(stepMm, Math.hypot(...instruments.map(repeatabilityOf)));
  // many an instrument repeats better than is stated of it
  const byRows = shownChance(stage, before, readings);
  // any of the repeats may be met
  const repeats = Math.max(...shared.map(({ triplesMm }) => triplesMm.length));
  const chance = Math.min(1, repeats * Math.max(byStated, byRows) ** 3);
  const allowed = allowedChance / earlierStages;
  if (binomialTail(readings.length, shared.length, chance) >= allowed) return null;
  let explained = readings.length - 1;
  while (explained > 0 && binomialTail(explained, shared.length, chance) < allowed) explained--;
  return {
    stage,
    from,
    readings,
    shared: shared.length,
    explained,
    stepMm,
    repeatabilityMm: byRows > byStated ? null : repeatabilityOf(instruments[0]),
    isAssumed: !instruments[0]?.repeatabilityMm,
  };
}

/** So few numbers do not say how an instrument repeats. */
const fewestShown = 30;

/**
 * The chance that one number comes out the same, as the rows that are not all the same show it, two standard errors up; 0 where there are too
 * few. In such a row a number is the same with q = c(1 + c)/(1 + c + c²). Of a car that was pulled or set up anew it is small.
 */
function shownChance(
  { measure }: Stage,
  before: ReadonlyMap<string, Reading>,
  same: readonly Reading[],
): number {
  const left = new Set(same);
  const equal = measure.readings.flatMap((reading) => {
    const [now, then] = [reading.triplesMm[0], before.get(reading.id)?.triplesMm[0]];
    return now && then && !left.has(reading) ? now.map((each, k) => each === then[k]) : [];
  });
  const n = equal.length;
  if (n < fewestShown) return 0;
  const share = equal.filter(Boolean).length / n;
  const q = Math.min(0.99, share + 2 * Math.sqrt((share * (1 - share)) / n));
  return (Math.sqrt(1 + (4 * q) / (1 - q)) - 1) / 2;
}

/** 0 is what is taken where nothing is stated: of how the instrument repeats it says nothing. */
const repeatabilityOf = (instrument: Instrument | null): number =>
  instrument?.repeatabilityMm || assumedRepeatabilityMm;

/** A number as written has no more places than this. */
const mostPlaces = 6;

/**
 * What the numbers of a measure are rounded to, mm: the largest of 5, 2 and 1 in their last decimal place that all are multiples of. Too
 * large a step from few numbers doubts less.
 */
export function stepOf({ readings }: Pick<Measure, 'readings'>, unit: Unit): number {
  const numbers = readings.flatMap(({ triplesMm }) => triplesMm.flat().map((each) => each / mmPer[unit]));
  for (let places = 0; places <= mostPlaces; places++) {
    const scaled = numbers.map((each) => each * 10 ** places);
    if (places < mostPlaces && !scaled.every((each) => Math.abs(each - Math.round(each)) < 1e-6)) continue;
    const digits = [5, 2, 1].find((m) => scaled.every((each) => Math.round(each) % m === 0)) ?? 1;
    return (digits / 10 ** places) * mmPer[unit];
  }
  return mmPer[unit];
}
