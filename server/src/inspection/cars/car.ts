import { type MotionDoubt, motionCovariance, variancesAt } from '../../geometry/motion-covariance';
import { movedVector } from '../../geometry/rigid-motion';
import { add, type Vec3 } from '../../geometry/vector';
import { type Chassis, referenceVariance } from '../../model/chassis';
import { hasNumbers, type Reading } from '../../model/job';
import { sideOf } from '../../model/names';
import { type JudgedPoint, mapAxes } from '../alignment/points';
import { instrumentOf, inVehicleDirections, meanOf } from '../alignment/prepared';
import { contradictionMm, rangesOf } from '../alignment/repeats';
import { allowedSpreadMm, readingVariance } from '../alignment/uncertainty';
import type { Alignment } from '../frame/alignment';
import type { Inspection } from '../job/inspect';
import type { Stage } from '../job/stage';
import { readBeforeWork, reasonAgainst, wasWorkedOn } from './sound-stages';

/** A point as one car has it. Vehicle axes, mm and mm². */
export interface CarPoint {
  readonly id: string;
  readonly place: Vec3;
  /** Of the place on each axis: the reading's and the alignment's, without what all cars share. */
  readonly variance: Vec3;
  /** What the references of the control points leave uncertain: every car that is aligned on them has the same error. */
  readonly shared: Vec3;
  /** The alignment's doubt, which two points of the car share. */
  readonly doubt: MotionDoubt;
  /** As the chassis has it, and the car by it; null for a point that is new. */
  readonly known: JudgedPoint | null;
  /** Day of its measure, as written. */
  readonly at: string | null;
}

/** A car that others may be held against, or why it may not. */
export type CarRead =
  | { readonly kind: 'refused'; readonly reason: string }
  | {
      readonly kind: 'car';
      readonly inspection: Inspection;
      readonly points: ReadonlyMap<string, CarPoint>;
      /** Points whose repeats contradict each other: they are left out. */
      readonly contradictory: readonly string[];
      /** Its control points check each other little: three, or in one plane. */
      readonly unchecked: boolean;
    };

/** A job as a car to take references from: aligned as any stage, by what was read before anybody worked on it. */
export function carRead(inspection: Inspection): CarRead {
  const refused = (reason: string): CarRead => ({ kind: 'refused', reason });
  if (inspection.heldBack) return refused('its file, or that of its body, has errors');
  const stages = readBeforeWork(inspection);
  if (stages.length === 0) return refused('nothing was read in three numbers before work on it began');
  for (const stage of stages) {
    const reason = reasonAgainst(inspection, stage);
    if (reason !== null)
      return refused(`“${stage.name}”${wasWorkedOn(inspection) ? ', before the repair' : ''}: ${reason}`);
  }
  const points = new Map<string, CarPoint>();
  const contradictory = new Set<string>();
  for (const stage of stages)
    for (const reading of stage.measure.readings) {
      if (!hasNumbers(reading)) continue;
      const point = pointOf(inspection, stage, reading);
      // the newest reading counts
      points.delete(reading.id);
      if (point === null) contradictory.add(reading.id);
      else {
        contradictory.delete(reading.id);
        points.set(reading.id, point);
      }
    }
  const unchecked = stages.some(({ alignment }) =>
    alignment?.faults.some(({ kind }) => kind === 'unchecked'),
  );
  return { kind: 'car', inspection, points, contradictory: [...contradictory], unchecked };
}

/** Null where its repeats contradict each other, or the stage does not hold it. */
function pointOf({ job, chassis }: Inspection, stage: Stage, reading: Reading): CarPoint | null {
  const { alignment, measure } = stage;
  if (alignment === null || alignment.frame === null) return null;
  const { id, triplesMm } = reading;
  const known = stage.points.find((each) => each.id === id && each.reading === reading) ?? null;
  const instrument = instrumentOf(job, measure);
  if (contradictionMm(rangesOf(triplesMm), allowedSpreadMm(instrument)) > 0) return null;
  const { doubt } = alignment.frame;
  const side = job.axes.includes('outboard') ? sideOf(id) : null;
  const read = movedVector(alignment.frame, inVehicleDirections(meanOf(triplesMm), job.axes, side));
  const shared = sharedAt(alignment, chassis, read);
  const at = measure.at;
  if (known !== null) return knownPoint(known, { doubt, shared, at });
  const own = readingVariance(instrument, triplesMm.length);
  const whole = variancesAt(doubt, read);
  const variance = mapAxes((k) => own + Math.max(0, whole[k] - shared[k]));
  return { id, place: read, variance, shared, doubt, known, at };
}

/** Where the car has a point that the chassis knows: a control point by the others. */
function knownPoint(
  known: JudgedPoint,
  { doubt, shared, at }: Pick<CarPoint, 'doubt' | 'shared' | 'at'>,
): CarPoint | null {
  const { deviation, uncertainty, point } = known;
  const [x, y, z] = deviation;
  if (x === null || y === null || z === null) return null;
  const variance = mapAxes((k) =>
    Math.max(1e-6, (uncertainty[k] ?? 0) ** 2 - referenceVariance(point, k) - shared[k]),
  );
  return { id: known.id, place: add(point.reference, [x, y, z]), variance, shared, doubt, known, at };
}

/** What the references of control points leave uncertain at a place: the difference that they make to the base's own doubt there. */
function sharedAt({ base, frame }: Alignment, chassis: Chassis, place: Vec3): Vec3 {
  const referenceOf = (id: string) => (chassis.points.get(id)?.uncertaintyMm ?? 0) ** 2;
  if (base === null || frame === null || base.members.every(({ id }) => referenceOf(id) === 0))
    return [0, 0, 0];
  const positions = base.members.map(({ reference }) => reference);
  const leastVariance = 1e-4;
  const doubtOf = (variances: readonly number[]) =>
    variancesAt(
      motionCovariance(
        positions,
        variances.map((each) => 1 / Math.max(each, leastVariance)),
      ),
      place,
    );
  const [whole, without] = [
    doubtOf(base.members.map(({ variance }) => variance)),
    doubtOf(base.members.map(({ id, variance }) => variance - referenceOf(id))),
  ];
  return mapAxes((k) => Math.max(0, whole[k] - without[k]));
}
