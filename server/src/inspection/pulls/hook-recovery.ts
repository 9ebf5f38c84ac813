import { dot, type Vec3 } from '../../geometry/vector';
import type { Axis, Part, Point } from '../../model/chassis';
import type { Inspection } from '../job/inspect';
import { knownBend } from '../job/known-bend';
import type { PartHistory } from '../job/part-history';
import type { BendPlace } from '../shape/bend';
import type { ObservedPoint, ObservedPull, PullCovariance } from './observed-pulls';

/**
 * What came back at the very place where a chain is to pull (server/README.md, "Spring-back"). A bent part turns about the place where it is
 * bent: its end moves, and comes back, by more than its middle, so a mean over its points says too little for the end.
 */
export interface HookRecovery {
  readonly relieved: boolean;
  readonly movementMm: number;
  readonly recoveryMm: number;
  /** Least and largest that it may have been the way of the chain: as the start of the bend is doubtful. Both the same where the hook itself was read. */
  readonly recoveryBetweenMm: readonly [number, number];
  readonly covariance: PullCovariance;
  /** The point that it was read at, where that is not the hook itself. */
  readonly carriedFrom: string | null;
}

export interface HookRecoveries {
  readonly seen: readonly HookRecovery[];
  /** Pulls that were seen at other points only, and whose recovery cannot be carried to the hook. */
  readonly elsewhere: number;
}

/** So many times as far from the bend as the point that was read, recovery is not carried. */
const farthestFactor = 2;

/** A pull that took its point by less than this share the way of a chain does not tell what comes back on it: over 60° off. Chosen. */
const leastShare = 0.5;

/** One chain: where it hooks on, and which way it pulls, a unit vector. */
export interface HookedWay {
  readonly hook: Point;
  readonly way: Vec3;
}

/**
 * Of some pulls of a part what came back at a hook, as far as that goes the way of its chain: read there, or else carried along the part
 * from where the bend starts. Pulls another way are left out.
 */
export function hookRecoveries(
  inspection: Inspection,
  history: PartHistory,
  pulls: readonly ObservedPull[],
  { hook, way }: HookedWay,
): HookRecoveries {
  const own = pulls.filter((pull) => pull.partId === history.part.id);
  const shareOf = ({ direction }: ObservedPoint): number => dot(direction, way);
  let otherWay = 0;
  const seen = own.flatMap((pull): HookRecovery[] => {
    const read = pull.points.find(({ id }) => id === hook.id);
    const near = read === undefined ? nearestOf(inspection, history.part, pull, hook) : null;
    const told = read ?? near?.read;
    if (told !== undefined && shareOf(told) < leastShare) {
      otherWay++;
      return [];
    }
    if (read !== undefined) return [alongWay(readAtHook(pull, read), shareOf(read))];
    // read there, and it hardly moved: what moved elsewhere says nothing of it
    if (pull.stillIds.includes(hook.id)) return [];
    const known = knownBend(inspection, history, pull.index);
    if (known === null || known.provisional || known.contradictory) return [];
    const found = near && carried(pull, near, hook, history.part.along, known.bend);
    return near === null || found === null ? [] : [alongWay(found, shareOf(near.read))];
  });
  return { seen, elsewhere: own.length - seen.length - otherWay };
}

const alongWay = (recovery: HookRecovery, share: number): HookRecovery => ({
  ...recovery,
  recoveryBetweenMm: [share * recovery.recoveryBetweenMm[0], share * recovery.recoveryBetweenMm[1]],
});

const readAtHook = (
  { relieved }: ObservedPull,
  { movementMm, recoveryMm, covariance }: ObservedPoint,
): HookRecovery => ({
  relieved,
  movementMm,
  recoveryMm,
  recoveryBetweenMm: [recoveryMm, recoveryMm],
  covariance,
  carriedFrom: null,
});

interface Near {
  readonly read: ObservedPoint;
  readonly point: Point;
}

/** The point of the part that the pull was seen at and that stands nearest to the hook: of its level, where that was read. */
function nearestOf({ chassis }: Inspection, part: Part, pull: ObservedPull, hook: Point): Near | null {
  const apart = ({ reference }: Point): number =>
    Math.hypot(...reference.map((mm, k) => mm - hook.reference[k]));
  const near = pull.points.flatMap((read) => {
    const point = chassis.points.get(read.id);
    return point?.part === part.id ? [{ read, point }] : [];
  });
  return near.sort((a, b) => apart(a.point) - apart(b.point) || (a.read.id < b.read.id ? -1 : 1))[0] ?? null;
}

/** In proportion to the distance from the bend; null where either point may stand before the bend, or the hook is much farther out. */
function carried(
  { relieved }: ObservedPull,
  { read, point }: Near,
  hook: Point,
  along: Axis,
  { atMm, startsBetweenMm, away }: BendPlace,
): HookRecovery | null {
  const factorAt = (bendMm: number): number | null => {
    const to = away * (hook.reference[along] - bendMm);
    const from = away * (point.reference[along] - bendMm);
    return to > 0 && from > 0 ? to / from : null;
  };
  const factor = factorAt(atMm);
  const ends = startsBetweenMm.map(factorAt).filter((each) => each !== null);
  if (factor === null || ends.length < 2 || Math.max(...ends) > farthestFactor) return null;
  const between = ends.map((each) => each * read.recoveryMm);
  const [[mm, mr], [, rr]] = read.covariance;
  return {
    relieved,
    movementMm: factor * read.movementMm,
    recoveryMm: factor * read.recoveryMm,
    recoveryBetweenMm: [Math.min(...between), Math.max(...between)],
    covariance: [
      [factor ** 2 * mm, factor ** 2 * mr],
      [factor ** 2 * mr, factor ** 2 * rr],
    ],
    carriedFrom: read.id,
  };
}
