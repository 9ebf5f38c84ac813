import {
  add,
  cross,
  distance,
  dot,
  length,
  quadratic,
  scaled,
  subtract,
  type Vec3,
  zero,
} from '../../geometry/vector';
import { derived } from '../../memory/derived';
import { partsOfEntry } from '../../model/resolve/resolved-job';
import { type CommonFrames, commonFrames, type Frame, type FramedReading } from '../job/common-frames';
import { impossibleMm } from '../job/gross';
import type { Inspection } from '../job/inspect';
import { isCarriedOnly } from '../job/provisional';
import { reads } from '../job/readings-by-id';
import type { Stage } from '../job/stage';
import type { PullRecord } from '../timeline/work';

/** Of movement and recovery, mm². */
export type PullCovariance = readonly [readonly [number, number], readonly [number, number]];

/** What one pull did to a point: along the direction that it moved itself. */
export interface ObservedPoint {
  readonly id: string;
  /** Unit vector, vehicle axes. */
  readonly direction: Vec3;
  /** To the peak, mm. */
  readonly movementMm: number;
  /** Back from the peak on release, mm. */
  readonly recoveryMm: number;
  readonly covariance: PullCovariance;
}

/** What one pull did to a part: seen where points were read before it, under its load and after its release. */
export interface ObservedPull {
  readonly partId: string;
  /** Position of the pull in the timeline. */
  readonly index: number;
  /** Stress was relieved on the part before the release. */
  readonly relieved: boolean;
  readonly pointIds: readonly string[];
  /** The same points, each by itself. */
  readonly points: readonly ObservedPoint[];
  /** Points that were read as well and moved too little to tell anything, or are trusted to have stayed: control points. */
  readonly stillIds: readonly string[];
  /** To the peak, along the direction moved; mean over the points, mm. */
  readonly movementMm: number;
  /** Back from the peak on release, along the same direction; mean over the points, mm. */
  readonly recoveryMm: number;
  /** By an alignment from before the pull, which nothing confirmed since. */
  readonly carried: boolean;
  readonly covariance: PullCovariance;
}

/** A smaller move is lost in the doubt of its readings: this many times the uncertainty of one. */
const leastMoveInUncertainties = 10;

/** Every pull of which something was seen, in the order of the work, part by part. */
export const observedPulls = derived((inspection: Inspection): readonly ObservedPull[] =>
  inspection.heldBack
    ? []
    : inspection.work.pulls.flatMap((record) =>
        record.partIds.flatMap((partId) => observedPull(inspection, record, partId) ?? []),
      ),
);

function observedPull(inspection: Inspection, record: PullRecord, partId: string): ObservedPull | null {
  const released = record.partReleasedAt.get(partId);
  if (released === undefined) return null;
  const ids = considered(inspection, record, partId);
  const peak = peakStage(inspection, record.index, released, ids);
  if (peak === null) return null;
  const pulled = { inspection, record, partId, released };
  const triples = ids.flatMap((id) => stagesAround(pulled, peak, id) ?? []);
  const frames = commonFrames(inspection, [
    ...new Set(triples.flatMap(({ before, after }) => [before, peak, after])),
  ]);
  if (frames === null) return null;
  const moves = triples.flatMap((triple) =>
    frames.baseIds.has(triple.id) ? [] : (seenMove(frames, triple) ?? []),
  );
  if (moves.length === 0) return null;
  const moved = new Set(moves.map(({ id }) => id));
  return {
    partId,
    index: record.index,
    relieved: record.relievedPartIds.has(partId),
    pointIds: [...moved],
    points: moves.map((move) => ({
      id: move.id,
      direction: move.direction,
      movementMm: move.movementMm,
      recoveryMm: move.recoveryMm,
      covariance: covarianceOf(frames, [move]),
    })),
    stillIds: triples.flatMap(({ id }) => (moved.has(id) ? [] : [id])),
    movementMm: mean(moves.map((move) => move.movementMm)),
    recoveryMm: mean(moves.map((move) => move.recoveryMm)),
    carried: triples.some(({ before, after }) => isCarriedOnly(before) || isCarriedOnly(after)),
    covariance: covarianceOf(frames, moves),
  };
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The points of the part, and hooks on no other part of the same pull. */
function considered({ chassis }: Inspection, { pull, partIds }: PullRecord, partId: string): string[] {
  const own = [...chassis.points.values()].filter((point) => point.part === partId).map((point) => point.id);
  const hooks = pull.chains.flatMap(({ hook }) => {
    const point = chassis.points.get(hook.id);
    return point && (point.part === null || !partIds.includes(point.part)) ? [point.id] : [];
  });
  return [...new Set([...own, ...hooks])];
}

/** The last measure under load that read any of the points: an earlier one may not have been the peak. */
function peakStage({ stages }: Inspection, from: number, to: number, ids: readonly string[]): Stage | null {
  const peak = stages.findLast(
    ({ index, measure }) => index > from && index < to && ids.some((id) => reads(measure, id)),
  );
  return peak ?? null;
}

interface StageTriple {
  readonly id: string;
  readonly before: Stage;
  readonly peak: Stage;
  readonly after: Stage;
}

/** A part that a pull was on. */
interface PulledPart {
  readonly inspection: Inspection;
  readonly record: PullRecord;
  readonly partId: string;
  /** Where the pull was taken off it: position in the timeline. */
  readonly released: number;
}

/** Null where one is missing, or something else was done to the part between: then it is not the work of one pull. */
function stagesAround(
  { inspection, record, partId, released }: PulledPart,
  peak: Stage,
  id: string,
): StageTriple | null {
  if (!reads(peak.measure, id)) return null;
  const isFree = ({ underTension, measure }: Stage) => !underTension && reads(measure, id);
  const before = inspection.stages.findLast((stage) => stage.index < record.index && isFree(stage));
  const after = inspection.stages.find((stage) => stage.index > released && isFree(stage));
  if (before === undefined || after === undefined) return null;
  return otherWorkBetween(inspection, record, partId, before.index, after.index)
    ? null
    : { id, before, peak, after };
}

function otherWorkBetween(
  { job, work, chassis }: Inspection,
  record: PullRecord,
  partId: string,
  from: number,
  to: number,
): boolean {
  const pulled = work.pulls.some(
    (other) =>
      other.index !== record.index &&
      other.index > from &&
      other.index < to &&
      (other.partIds.length === 0 || other.partIds.includes(partId)),
  );
  const renewed = job.timeline
    .slice(from, to)
    .some(
      (entry) =>
        (entry.kind === 'section' || entry.kind === 'replace') &&
        partsOfEntry(entry, chassis).includes(partId),
    );
  return pulled || renewed;
}

interface SeenMove extends StageTriple {
  readonly readings: {
    readonly before: FramedReading;
    readonly peak: FramedReading;
    readonly after: FramedReading;
  };
  /** Unit vector, vehicle axes. */
  readonly direction: Vec3;
  readonly movementMm: number;
  readonly recoveryMm: number;
}

function seenMove(frames: CommonFrames, triple: StageTriple): SeenMove | null {
  const at = (stage: Stage) => frames.readingsOf(stage).get(triple.id);
  const [before, peak, after] = [at(triple.before), at(triple.peak), at(triple.after)];
  if (!before || !peak || !after || [before, peak, after].some(isImpossible)) return null;
  const move = subtract(peak.position, before.position);
  const movementMm = length(move);
  const uncertaintyMm = Math.sqrt(
    Math.max(before.reading.variance, peak.reading.variance, after.reading.variance),
  );
  if (movementMm === 0 || movementMm < leastMoveInUncertainties * uncertaintyMm) return null;
  const direction = scaled(move, 1 / movementMm);
  const recoveryMm = dot(direction, subtract(peak.position, after.position));
  return { ...triple, readings: { before, peak, after }, direction, movementMm, recoveryMm };
}

/** Misread, or the instrument was moved and nobody said so. */
const isImpossible = ({ reading, position }: FramedReading): boolean =>
  distance(position, reading.point.reference) > impossibleMm;

/** How often each of the three positions counts in the movement and in the recovery. */
const counts = { before: [-1, 0], peak: [1, 1], after: [0, -1] } as const;
const moments = ['before', 'peak', 'after'] as const;

/** Of the means over the moves, to first order; what the readings leave doubtful of the direction itself counts only across it and is left out. */
function covarianceOf(frames: CommonFrames, moves: readonly SeenMove[]): PullCovariance {
  const n = moves.length;
  const levers = new Map<Frame, { shift: [Vec3, Vec3]; turn: [Vec3, Vec3] }>();
  const own = [0, 0, 0];
  for (const move of moves) {
    for (const moment of moments) {
      const { reading } = move.readings[moment];
      const frame = frames.frameOf(move[moment]);
      const lever = levers.get(frame) ?? { shift: [zero, zero], turn: [zero, zero] };
      levers.set(frame, lever);
      const turning = cross(subtract(reading.point.reference, frame.readingDoubt.centroid), move.direction);
      for (const k of [0, 1] as const) {
        lever.shift[k] = add(lever.shift[k], scaled(move.direction, counts[moment][k] / n));
        lever.turn[k] = add(lever.turn[k], scaled(turning, counts[moment][k] / n));
      }
      const [m, r] = counts[moment];
      own[0] += (m * m * reading.variance) / n ** 2;
      own[1] += (m * r * reading.variance) / n ** 2;
      own[2] += (r * r * reading.variance) / n ** 2;
    }
  }
  const entry = (i: 0 | 1, j: 0 | 1): number => {
    let total = own[i + j];
    for (const [{ readingDoubt }, { shift, turn }] of levers)
      total +=
        quadratic(shift[i], readingDoubt.translation, shift[j]) +
        quadratic(turn[i], readingDoubt.rotation, turn[j]);
    return total;
  };
  const both = entry(0, 1);
  return [
    [entry(0, 0), both],
    [both, entry(1, 1)],
  ];
}
