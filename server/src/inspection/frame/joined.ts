import {
  addPlace,
  addSums,
  emptySums,
  type MotionSums,
  motionAt,
  motionCovarianceAt,
  type SmallMotion,
  smallMotion,
} from '../../geometry/small-motion';
import { type Mat3, subtract, type Vec3 } from '../../geometry/vector';
import { type ElsewhereScatter, type FramePoint, type WitnessGroup, weightFor } from './frame-points';
import { sumsOfBase, type Weighing } from './witnesses';

/**
 * One weighted rigid fit over base and witnesses (server/README.md, "Witnesses"). Errors that points share are counted exactly: with κ = c/(1 + cW)
 * the inverse of diag(1/w) + c 11ᵀ is diag(w) − κ w wᵀ (Sherman & Morrison), which is the points by themselves and their mean with the
 * negative weight −κW². Source for such nested errors, from memory: Searle, Casella & McCulloch 1992.
 */
export interface JoinedFit {
  /** What is to be taken away from the deviations, and how certain it is. */
  readonly motion: SmallMotion;
  readonly sums: MotionSums;
  /** Of each group, as it stands in the sums. */
  readonly groupSums: readonly MotionSums[];
  /** The control points' Birge factor, which their weights are divided by. */
  readonly factor: number;
}

/** Null where the points do not hold a frame. */
export function joinedFit(
  base: readonly FramePoint[],
  factor: number,
  groups: readonly WitnessGroup[],
  weighing: Pick<Weighing, 'groups' | 'scatter'>,
): JoinedFit | null {
  const sums = sumsOfBase(base, factor);
  const groupSums = groups.map((group, i) =>
    nestedSums(group.points, weighing.groups[i].points, weighing.groups[i].group, weighing.scatter),
  );
  for (const each of groupSums) addSums(sums, each);
  const motion = smallMotion(sums);
  return motion === null ? null : { motion, sums, groupSums, factor };
}

/** A mean of places and displacements, with the weight that is left of it. */
interface Mean {
  readonly weight: number;
  readonly place: Vec3;
  readonly off: Vec3;
}

/**
 * The sums of one group whose error has three shares: of each point, of each side and of both sides together; g² is halved between the last
 * two.
 * @param each ω, one for each point; @param whole Ω: all of the group's say is multiplied by it
 */
export function nestedSums(
  points: readonly FramePoint[],
  each: readonly number[],
  whole: number,
  { own, shared }: ElsewhereScatter,
): MotionSums {
  const sums = emptySums();
  const sides = new Map<FramePoint['side'], Mean[]>();
  points.forEach(({ place, off, variance, side }, i) => {
    const weight = each[i] * weightFor(variance + own);
    if (weight === 0) return;
    addPlace(sums, whole * weight, place, off);
    const known = sides.get(side);
    if (known === undefined) sides.set(side, [{ weight, place, off }]);
    else known.push({ weight, place, off });
  });
  const means = [...sides.values()].map((members) => sharedError(sums, members, whole, shared / 2));
  if (means.length > 0) sharedError(sums, means, whole, shared / 2);
  return sums;
}

/** Adds the mean of the members with its negative weight; returns it with what weight it keeps. */
function sharedError(sums: MotionSums, members: readonly Mean[], whole: number, variance: number): Mean {
  const total = members.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (member: Mean) => Vec3): Vec3 => {
    const on = (k: 0 | 1 | 2) =>
      members.reduce((sum, member) => sum + member.weight * of(member)[k], 0) / total;
    return [on(0), on(1), on(2)];
  };
  const [place, off] = [mean((member) => member.place), mean((member) => member.off)];
  const taken = (variance / (1 + variance * total)) * total * total;
  addPlace(sums, -whole * taken, place, off);
  return { weight: total - taken, place, off };
}

/** Where a point stands by the joined fit, mm, and the variance matrix of that fit there, mm². */
interface Judged {
  readonly off: Vec3;
  readonly shared: Mat3;
}

const judgedBy = (motion: SmallMotion, { place, off }: FramePoint): Judged => ({
  off: subtract(off, motionAt(motion, place)),
  shared: motionCovarianceAt(motion, place),
});

/** A control point by all but itself; null where those do not hold a frame. */
export function judgedControl(fit: JoinedFit, point: FramePoint): Judged | null {
  const others = Float64Array.from(fit.sums);
  addPlace(others, -weightFor(point.variance) / fit.factor, point.place, point.off);
  const motion = smallMotion(others);
  return motion === null ? null : judgedBy(motion, point);
}

/** A witness by all but its own group; null where those do not hold a frame. */
export function judgedWitness(fit: JoinedFit, group: number, point: FramePoint): Judged | null {
  const motion = withoutGroup(fit, group);
  return motion === null ? null : judgedBy(motion, point);
}

function withoutGroup({ sums, groupSums }: JoinedFit, group: number): SmallMotion | null {
  const others = Float64Array.from(sums);
  addSums(others, groupSums[group], -1);
  return smallMotion(others);
}
