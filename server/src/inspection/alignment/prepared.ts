import type { Vec3 } from '../../geometry/vector';
import type { Chassis, Point } from '../../model/chassis';
import type { Direction, Instrument, Job, Measure, Reading } from '../../model/job';
import { type Side, sideOf } from '../../model/names';
import { signedAxis } from '../../model/sheet-axes';
import { contradictionMm, rangesOf } from './repeats';
import { allowedSpreadMm, readingVariance } from './uncertainty';

/** A reading made ready: the mean of its repeats, in mm, along forward, left and up of the instrument's own frame. */
export interface PreparedReading {
  readonly id: string;
  readonly point: Point;
  readonly measured: Vec3;
  /** Variance of the mean on each axis, mm². */
  readonly variance: number;
  /** Its repeats cannot all be right: it cannot be called within. */
  readonly contradictory: boolean;
  readonly reading: Reading;
}

export const instrumentOf = (job: Job, measure: Measure): Instrument | null =>
  measure.instrument ?? job.instrument;

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
    if (triplesMm.length === 1) {
      prepared.push({ id, point, measured, variance: varianceOfOne, contradictory: false, reading });
      continue;
    }
    const apartMm = contradictionMm(rangesOf(triplesMm), allowedSpreadMm(instrument));
    const variance = readingVariance(instrument, triplesMm.length) + (apartMm / 2) ** 2;
    prepared.push({ id, point, measured, variance, contradictory: apartMm > 0, reading });
  }
  return prepared;
}

export function meanOf(triples: readonly Vec3[]): Vec3 {
  if (triples.length === 1) return triples[0];
  const n = triples.length;
  const mean = (k: 0 | 1 | 2) => triples.reduce((total, triple) => total + triple[k], 0) / n;
  return [mean(0), mean(1), mean(2)];
}

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
