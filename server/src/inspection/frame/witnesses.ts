import {
  addPlace,
  addSums,
  emptySums,
  type MotionSums,
  motionAt,
  motionCovarianceAt,
  type SmallMotion,
  smallMotion,
  squaredDistance,
} from '../../geometry/small-motion';
import { type Mat3, subtract, type Vec3, zero } from '../../geometry/vector';
import { type ElsewhereScatter, type FramePoint, type WitnessGroup, weightFor } from './frame-points';

/**
 * How far each witness is believed (server/README.md, "Witnesses"): each group is looked at by everything but itself, its points and then it
 * as a whole are weighted down as they stand off, by Tukey's biweight. Sources, from memory: Beaton & Tukey 1974; Huber 1981; Searle,
 * Casella & McCulloch 1992 (errors that a group shares).
 */
export interface Weighing {
  /** In the order of the groups. */
  readonly groups: readonly GroupWeight[];
  /** The same by the control points alone, with the scatter as it is stated. */
  readonly byBase: readonly GroupWeight[];
  /** As it was raised until the witnesses agree with it. */
  readonly scatter: ElsewhereScatter;
  /** As it is stated. */
  readonly stated: ElsewhereScatter;
  /** Whether it was. */
  readonly raised: boolean;
}

export interface GroupWeight {
  /** ω of each of its points, 0 to 1. */
  readonly points: readonly number[];
  /** Ω of the group, 0 to 1: all that its points say is multiplied by it. */
  readonly group: number;
  /** Where it stands by all others, its points counted by their ω: what Ω is made of. */
  readonly weighted: Standing;
  /** The same with all points counted alike: what is said of it. Points that are not believed would leave nothing to say. */
  readonly plain: Standing;
}

export interface Standing {
  /** Mean deviation, mm, and where that is. */
  readonly off: Vec3;
  readonly place: Vec3;
  /** Covariance of `off`, mm². */
  readonly covariance: Mat3;
  /** offᵀ covariance⁻¹ off: χ² on 3 degrees of freedom where the group belongs. */
  readonly squares: number;
}

/** How much of its say is left to a group: Ω times the mean of its ω. */
export const shareOf = ({ points, group }: Pick<GroupWeight, 'points' | 'group'>): number =>
  (group * points.reduce((total, weight) => total + weight, 0)) / points.length;

/** Tukey's biweight: no weight from 4.685 standard deviations on. */
const cutOff = 4.685 ** 2;
const biweight = (squares: number): number => (squares >= cutOff ? 0 : (1 - squares / cutOff) ** 2);

const mostRounds = 6;
/** Weights that change by less are settled. */
const settledBy = 0.03;

/**
 * @param base control points, the deviations by their own fit
 * @param factor their Birge factor
 * @param groups two or more, or their weights mean nothing
 * @returns null where the base does not hold a frame
 */
export function weighed(
  base: readonly FramePoint[],
  factor: number,
  groups: readonly WitnessGroup[],
  scatter: ElsewhereScatter,
): Weighing | null {
  const baseSums = sumsOfBase(base, factor);
  let weights: readonly GroupWeight[] | null = null;
  let byBase: readonly GroupWeight[] = [];
  let raise = 1;
  for (let round = 0; round < mostRounds; round++) {
    const now: ElsewhereScatter = { own: raise * scatter.own, shared: raise * scatter.shared };
    const next = oneRound(baseSums, groups, weights, now);
    if (next === null) return null;
    const change = weights === null ? 1 : largestChange(weights, next.groups);
    if (weights === null) byBase = next.groups;
    weights = next.groups;
    raise = Math.max(1, raise * next.excess);
    if (change < settledBy) break;
  }
  return {
    groups: weights ?? [],
    byBase,
    scatter: { own: raise * scatter.own, shared: raise * scatter.shared },
    stated: scatter,
    raised: raise > 1,
  };
}

export function sumsOfBase(base: readonly FramePoint[], factor: number): MotionSums {
  const sums = emptySums();
  for (const { place, off, variance } of base) addPlace(sums, weightFor(variance) / factor, place, off);
  return sums;
}

/** All groups looked at once, each by what all the others weighed before, so that their order does not matter. */
function oneRound(
  baseSums: MotionSums,
  groups: readonly WitnessGroup[],
  weights: readonly GroupWeight[] | null,
  scatter: ElsewhereScatter,
): { groups: GroupWeight[]; excess: number } | null {
  const sums = groups.map((group, i) =>
    weights === null ? emptySums() : safeSums(group, weights[i], scatter),
  );
  const result: GroupWeight[] = [];
  const excess = { squares: 0, weights: 0 };
  for (let i = 0; i < groups.length; i++) {
    const others = Float64Array.from(baseSums);
    for (let j = 0; j < groups.length; j++) if (j !== i) addSums(others, sums[j]);
    const motion = smallMotion(others);
    if (motion === null) return null;
    result.push(groupSeenBy(motion, groups[i], scatter, excess));
  }
  return { groups: result, excess: excess.weights > 0 ? excess.squares / (3 * excess.weights) : 1 };
}

/** While weights are sought each point counts as if its group's error were its own: it is then never believed too much. */
function safeSums(
  { points }: WitnessGroup,
  { points: each, group }: GroupWeight,
  scatter: ElsewhereScatter,
): MotionSums {
  const sums = emptySums();
  const count = each.reduce((total, weight) => total + weight, 0);
  points.forEach(({ place, off, variance }, i) => {
    addPlace(sums, (group * each[i]) / (variance + scatter.own + count * scatter.shared), place, off);
  });
  return sums;
}

function groupSeenBy(
  motion: SmallMotion,
  { points }: WitnessGroup,
  { own, shared }: ElsewhereScatter,
  excess: { squares: number; weights: number },
): GroupWeight {
  const offs = points.map(({ place, off }) => subtract(off, motionAt(motion, place)));
  const each = points.map(({ place, variance }, i) => {
    const covariance = raisedDiagonal(motionCovarianceAt(motion, place), variance + own + shared);
    const weight = biweight(squaredDistance(covariance, offs[i]));
    const [x, y, z] = offs[i];
    const mean = (covariance[0][0] + covariance[1][1] + covariance[2][2]) / 3;
    excess.squares += (weight * (x * x + y * y + z * z)) / mean;
    excess.weights += weight;
    return weight;
  });
  const standing = (counted: readonly number[]): Standing => {
    const off = weightedMean(offs, counted);
    const place = weightedMean(
      points.map((point) => point.place),
      counted,
    );
    const information = points.reduce((total, { variance }, i) => total + counted[i] / (variance + own), 0);
    const covariance = raisedDiagonal(motionCovarianceAt(motion, place), shared + 1 / information);
    return { off, place, covariance, squares: squaredDistance(covariance, off) };
  };
  const plain = standing(points.map(() => 1));
  const weighted = each.some((weight) => weight > 0) ? standing(each) : plain;
  const group = weighted === plain ? 0 : biweight(weighted.squares);
  return { points: each, group, weighted, plain };
}

const raisedDiagonal = (m: Mat3, by: number): Mat3 => [
  [m[0][0] + by, m[0][1], m[0][2]],
  [m[1][0], m[1][1] + by, m[1][2]],
  [m[2][0], m[2][1], m[2][2] + by],
];

function weightedMean(values: readonly Vec3[], weights: readonly number[]): Vec3 {
  let [total, x, y, z] = [0, 0, 0, 0];
  values.forEach((value, i) => {
    total += weights[i];
    x += weights[i] * value[0];
    y += weights[i] * value[1];
    z += weights[i] * value[2];
  });
  return total > 0 ? [x / total, y / total, z / total] : zero;
}

function largestChange(before: readonly GroupWeight[], after: readonly GroupWeight[]): number {
  let largest = 0;
  after.forEach(({ points, group }, i) => {
    largest = Math.max(largest, Math.abs(group - before[i].group));
    points.forEach((weight, j) => {
      largest = Math.max(largest, Math.abs(weight - before[i].points[j]));
    });
  });
  return largest;
}
