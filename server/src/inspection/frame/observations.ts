import { addPlace, emptySums, motionAt, type SmallMotion, smallMotion } from '../../geometry/small-motion';
import { dot, subtract, type Vec3, zero } from '../../geometry/vector';
import { type ElsewhereScatter, type FramePoint, type WitnessGroup, weightFor } from './frame-points';

/**
 * All that speaks for one frame, laid out for questions about who has moved: control points, then witnesses, with the error that
 * a group shares counted in full, and what is left of each by the best frame of all (server/README.md, "Stories").
 */
export interface Observations {
  readonly base: readonly FramePoint[];
  /** Control points first. */
  readonly points: readonly FramePoint[];
  /** Of the points, one for one, 1/mm². */
  readonly weights: readonly number[];
  /** Deviations less the frame's motion, mm. */
  readonly residuals: readonly Vec3[];
  /** The same with where it is left. */
  readonly lefts: readonly Left[];
  readonly means: readonly GroupMean[];
  /** χ² of all of it: no story gains more. */
  readonly chiSquare: number;
  /** The frame that all of them give. */
  readonly frame: SmallMotion;
  /** Σ over the control points of w tr A: coordinates of theirs that the frame takes up. */
  readonly leverage: number;
}

/** What the frame leaves of one observation, mm, and its arm from the frame's centroid. */
export interface Left {
  readonly arm: Vec3;
  readonly residual: Vec3;
}

/** The mean of a group, which counts against what its points say by themselves. */
interface GroupMean extends Left {
  /** From and up to where its points stand in the list. */
  readonly from: number;
  readonly to: number;
  readonly total: number;
  /** Above 0; to be taken away. */
  readonly taken: number;
}

/** Weights of the points of a group and of the group, 0 to 1. */
export interface Belief {
  readonly points: readonly number[];
  readonly group: number;
}

/** @returns null where they do not hold a frame */
export function observed(
  base: readonly FramePoint[],
  groups: readonly WitnessGroup[],
  beliefs: readonly Belief[],
  { own, shared }: ElsewhereScatter,
): Observations | null {
  const points = [...base, ...groups.flatMap((group) => group.points)];
  const weights = base.map(({ variance }) => weightFor(variance));
  const means: Mean[] = [];
  const sums = emptySums();
  for (const [i, { place, off }] of base.entries()) addPlace(sums, weights[i], place, off);
  groups.forEach((group, g) => {
    const from = weights.length;
    let total = 0;
    let [place, off]: [Vec3, Vec3] = [zero, zero];
    group.points.forEach((point, i) => {
      const weight = beliefs[g].points[i] * weightFor(point.variance + own);
      weights.push(beliefs[g].group * weight);
      addPlace(sums, beliefs[g].group * weight, point.place, point.off);
      total += weight;
      place = plus(place, weight, point.place);
      off = plus(off, weight, point.off);
    });
    if (total === 0 || beliefs[g].group === 0) return;
    const taken = beliefs[g].group * (shared / (1 + shared * total)) * total * total;
    place = plus(zero, 1 / total, place);
    addPlace(sums, -taken, place, plus(zero, 1 / total, off));
    means.push({ from, to: weights.length, total: beliefs[g].group * total, taken, place });
  });
  const frame = smallMotion(sums);
  return frame === null ? null : leftOver(base, points, weights, means, frame);
}

interface Mean extends Omit<GroupMean, keyof Left> {
  readonly place: Vec3;
}

const plus = (a: Vec3, k: number, b: Vec3): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];

function leftOver(
  base: readonly FramePoint[],
  points: readonly FramePoint[],
  weights: readonly number[],
  means: readonly Mean[],
  frame: SmallMotion,
): Observations {
  const residuals = points.map(({ place, off }) => subtract(off, motionAt(frame, place)));
  const meansLeft = means.map(({ place, ...mean }) => ({
    ...mean,
    arm: subtract(place, frame.centroid),
    residual: meanOver(mean, weights, residuals),
  }));
  const squaresOf = (total: number, weight: number, { residual }: Pick<Left, 'residual'>) =>
    total + weight * dot(residual, residual);
  const lefts = points.map(({ place }, i) => ({
    arm: subtract(place, frame.centroid),
    residual: residuals[i],
  }));
  return {
    base,
    points,
    weights,
    residuals,
    lefts,
    means: meansLeft,
    chiSquare: meansLeft.reduce(
      (total, mean) => squaresOf(total, -mean.taken, mean),
      lefts.reduce((total, left, i) => squaresOf(total, weights[i], left), 0),
    ),
    frame,
    leverage: base.reduce((total, { place }, i) => total + weights[i] * traceAt(frame, place), 0),
  };
}

function meanOver(
  { from, to, total }: Pick<GroupMean, 'from' | 'to' | 'total'>,
  weights: readonly number[],
  residuals: readonly Vec3[],
): Vec3 {
  let sum: Vec3 = zero;
  for (let i = from; i < to; i++) sum = plus(sum, weights[i] / total, residuals[i]);
  return sum;
}

/** tr A: 3 / Σw + tr J⁻¹|r|² − rᵀ J⁻¹ r, as tr [r]× C [r]×ᵀ = |r|² tr C − rᵀ C r. */
function traceAt({ centroid, shiftVariance, turnCovariance: c }: SmallMotion, place: Vec3): number {
  const [x, y, z] = subtract(place, centroid);
  const along =
    x * x * c[0][0] +
    y * y * c[1][1] +
    z * z * c[2][2] +
    2 * (x * y * c[0][1] + x * z * c[0][2] + y * z * c[1][2]);
  return 3 * shiftVariance + (x * x + y * y + z * z) * (c[0][0] + c[1][1] + c[2][2]) - along;
}
