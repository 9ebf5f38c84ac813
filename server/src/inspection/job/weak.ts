import { derived } from '../../memory/derived';
import { type Axis, axes, type Chassis, type Point } from '../../model/chassis';
import type { Job } from '../../model/job';
import { inZoneOf, markedPoints, resolvedJob } from '../../model/resolve/resolved-job';
import { halfBand } from '../alignment/control-points';
import type { JudgedPoint } from '../alignment/points';
import type { Inspection } from './inspect';
import { readingsById } from './readings-by-id';
import type { Stage } from './stage';

/**
 * Where the alignment alone leaves more doubt than a third of the tolerance: such a point's verdict rests on the base more than on
 * its own reading (server/README.md, "What the alignment leaves uncertain").
 */
export interface WeakPoint {
  readonly judged: JudgedPoint;
  /** Worst first. */
  readonly axes: readonly Axis[];
}

const doubtShare = (doubtMm: number, point: Point, axis: Axis): number =>
  doubtMm / (halfBand(point.limits[axis]) / 3);

const shareOn = ({ alignmentVariance, point }: JudgedPoint, k: Axis): number =>
  doubtShare(Math.sqrt(alignmentVariance[k] ?? 0), point, k);

/** Whether √A exceeds a third of the tolerance on any axis: most points ask no more. */
export const isWeak = (judged: JudgedPoint): boolean =>
  shareOn(judged, 0) > 1 || shareOn(judged, 1) > 1 || shareOn(judged, 2) > 1;

/** The axes on which √A exceeds a third of the tolerance, worst first. */
const weakAxes = (judged: JudgedPoint): Axis[] =>
  axes.filter((k) => shareOn(judged, k) > 1).sort((a, b) => shareOn(judged, b) - shareOn(judged, a));

const allWeak = derived((points: readonly JudgedPoint[]): readonly WeakPoint[] =>
  points
    .filter((judged) => !judged.inBase && isWeak(judged))
    .map((judged) => ({ judged, axes: weakAxes(judged) })),
);

/** The measured points outside the base that the job is about, where the alignment is weak; worst first. */
export function weakPoints({ job, chassis }: Inspection, stage: Stage): WeakPoint[] {
  const weak = allWeak(stage.points);
  if (weak.length === 0) return [];
  const { scope } = resolvedJob(job, chassis);
  return weak
    .filter(({ judged: { point } }) => scope === null || (point.part !== null && scope.has(point.part)))
    .sort((a, b) => worstShare(b) - worstShare(a) || (a.judged.id < b.judged.id ? -1 : 1));
}

const worstShare = ({ judged, axes: [k] }: WeakPoint): number => shareOn(judged, k);

/** Control points that the job's `base` admits, of a list those that it names, and this stage did not read. */
export function unreadControlPoints(job: Job, chassis: Chassis, stage: Stage): Point[] {
  const read = readingsById(stage.measure);
  const { base } = job;
  const admitted =
    base.kind === 'ids'
      ? base.ids.flatMap(({ id }) => chassis.points.get(id) ?? [])
      : markedPoints(chassis).filter((point) => inZoneOf(base, point));
  // a row that takes over an earlier reading is none
  return admitted.filter(({ id }) => read.get(id)?.asBefore ?? true);
}
