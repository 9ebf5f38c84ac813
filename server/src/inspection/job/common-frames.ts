import { type MotionCovariance, motionCovariance } from '../../geometry/motion-covariance';
import { movedVector } from '../../geometry/rigid-motion';
import type { Mat3, Vec3 } from '../../geometry/vector';
import { type BaseFit, baseFit, collinear, weightOf } from '../alignment/control-points';
import { type PreparedReading, preparedReadings } from '../alignment/prepared';
import type { Inspection } from './inspect';
import { isCarriedOnly } from './provisional';
import type { Stage } from './stage';

/**
 * Several stages aligned alike: on the control points that the bases of all of them share, so that what moved between them is
 * the car and not the choice of control points.
 */
export interface CommonFrames {
  readonly baseIds: ReadonlySet<string>;
  /** A stage's readings by point id, in vehicle axes. */
  readingsOf(stage: Stage): ReadonlyMap<string, FramedReading>;
  /** Stages that were read without moving the instrument share one: its error is common to them. */
  frameOf(stage: Stage): Frame;
}

export interface FramedReading {
  readonly reading: PreparedReading;
  /** Vehicle axes, mm. */
  readonly position: Vec3;
}

export interface Frame {
  readonly rotation: Mat3;
  readonly translation: Vec3;
  /**
   * What the readings alone leave doubtful. How far the control points of a sound car scatter is not in it: the same control
   * points serve every frame, so that it moves all frames alike.
   */
  readonly readingDoubt: MotionCovariance;
}

/**
 * Null where some stage has no alignment that can be relied on, or fewer than three control points, or three on a line, are in the
 * base of all. A stage that took its alignment over counts by the readings of the stage that it took it from.
 */
export function commonFrames(inspection: Inspection, stages: readonly Stage[]): CommonFrames | null {
  const bases = new Set<BaseFit>();
  for (const stage of stages) {
    const { alignment } = stage;
    if (alignment === null || alignment.base === null) return null;
    if (alignment.provisional && !isCarriedOnly(stage)) return null;
    bases.add(alignment.base);
  }
  if (bases.size === 0) return null;
  const distinct = [...bases];
  const shared = distinct[0].members.filter(({ id }) =>
    distinct.every((base) => base.members.some((each) => each.id === id)),
  );
  if (shared.length < 3 || collinear(shared.map((member) => member.reference))) return null;
  const baseIds = new Set(shared.map((member) => member.id));
  const frames = new Map<BaseFit | null | undefined, Frame>(
    distinct.map((base) => [base, frameOn(inspection, base, baseIds)]),
  );
  const frameOf = ({ alignment }: Stage): Frame => frames.get(alignment?.base)!;
  const readings = new Map(stages.map((stage) => [stage, framedReadings(inspection, stage, frameOf(stage))]));
  return { baseIds, frameOf, readingsOf: (stage) => readings.get(stage) ?? new Map() };
}

function frameOn({ job, chassis, stages }: Inspection, base: BaseFit, baseIds: ReadonlySet<string>): Frame {
  const members = base.members.filter(({ id }) => baseIds.has(id));
  const { fit } = baseFit(members);
  const origin = stages.find((stage) => stage.alignment?.base === base)!;
  const variances = new Map(
    preparedReadings(job, chassis, origin.measure).map(({ id, variance }) => [id, variance]),
  );
  return {
    rotation: fit.rotation,
    translation: fit.translation,
    readingDoubt: motionCovariance(
      members.map((member) => member.reference),
      members.map(({ id }) => weightOf(variances.get(id) ?? 0)),
    ),
  };
}

function framedReadings(
  { job, chassis }: Inspection,
  stage: Stage,
  frame: Frame,
): Map<string, FramedReading> {
  return new Map(
    preparedReadings(job, chassis, stage.measure).map((reading) => [
      reading.id,
      { reading, position: movedVector(frame, reading.measured) },
    ]),
  );
}
