import type { Vec3 } from '../../geometry/vector';
import type { Chassis, Point } from '../../model/chassis';
import type { Direction, Instrument, Job, Measure, Reading } from '../../model/job';
import { type Side, sideOf } from '../../model/names';

/** A reading made ready: the mean of its repeats, in mm, along forward, left and up of the instrument's own frame. */
export interface PreparedReading {
  readonly id: string;
  readonly point: Point;
  readonly measured: Vec3;
  /** Variance of the mean on each axis, mm². */
  readonly variance: number;
  readonly reading: Reading;
}

/** Where an instrument states no uncertainty. Common practice has no figure; this is an assumption that is always reported. */
export const assumedUncertaintyMm = 1;

export const instrumentOf = (job: Job, measure: Measure): Instrument | null =>
  measure.instrument ?? job.instrument;

/** u² of the mean of n repeats: uncertainty² − repeatability² + repeatability²/n, mm². */
export function readingVariance(instrument: Instrument | null, repeats: number): number {
  const u = instrument?.uncertaintyMm ?? assumedUncertaintyMm;
  const r = Math.min(instrument?.repeatabilityMm ?? 0, u);
  return u ** 2 - r ** 2 + r ** 2 / repeats;
}

/** Standard uncertainty of one distance, mm: as stated, else two ends of one reading each. */
export const spanUncertaintyMm = (instrument: Instrument | null): number =>
  instrument?.spanUncertaintyMm ?? Math.SQRT2 * (instrument?.uncertaintyMm ?? assumedUncertaintyMm);

/** The readings of a measure that have numbers and a reference, in text order. */
export function preparedReadings(job: Job, chassis: Chassis, measure: Measure): PreparedReading[] {
  const instrument = instrumentOf(job, measure);
  const varianceOfOne = readingVariance(instrument, 1);
  const asksForSide = job.axes.includes('outboard');
  const prepared: PreparedReading[] = [];
  for (const reading of measure.readings) {
    const { id, triplesMm } = reading;
    const point = chassis.points.get(id);
    if (point === undefined || triplesMm.length === 0) continue;
    const measured = inVehicleDirections(meanOf(triplesMm), job.axes, asksForSide ? sideOf(id) : null);
    const variance = triplesMm.length === 1 ? varianceOfOne : readingVariance(instrument, triplesMm.length);
    prepared.push({ id, point, measured, variance, reading });
  }
  return prepared;
}

export function meanOf(triples: readonly Vec3[]): Vec3 {
  if (triples.length === 1) return triples[0];
  const n = triples.length;
  const mean = (k: 0 | 1 | 2) => triples.reduce((total, triple) => total + triple[k], 0) / n;
  return [mean(0), mean(1), mean(2)];
}

const signedAxis: Record<Exclude<Direction, 'outboard'>, readonly [0 | 1 | 2, 1 | -1]> = {
  forward: [0, 1],
  rearward: [0, -1],
  left: [1, 1],
  right: [1, -1],
  up: [2, 1],
  down: [2, -1],
};

/** An instrument's three numbers sorted to forward, left, up. `outboard` counts away from the centre plane on the id's side, else left. */
export function inVehicleDirections(triple: Vec3, directions: readonly Direction[], side: Side | null): Vec3 {
  const result: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < directions.length; i++) {
    const direction = directions[i];
    if (direction === 'outboard') result[1] = (side === 'R' ? -1 : 1) * triple[i];
    else result[signedAxis[direction][0]] = signedAxis[direction][1] * triple[i];
  }
  return result;
}
