import { addPlace, emptySums, motionAt, type SmallMotion, smallMotion } from '../../geometry/small-motion';
import { subtract, type Vec3, zero } from '../../geometry/vector';
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
  readonly means: readonly GroupMean[];
  /** The frame that all of them give. */
  readonly frame: SmallMotion;
  /** Σ over the control points of w tr A: coordinates of theirs that the frame takes up. */
  readonly leverage: number;
}

/** The mean of a group, which counts against what its points say by themselves. */
export interface GroupMean {
  /** From and up to where its points stand in the list. */
  readonly from: number;
  readonly to: number;
  readonly total: number;
  /** Above 0; to be taken away. */
  readonly taken: number;
  readonly place: Vec3;
  readonly residual: Vec3;
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
  const means: Omit<GroupMean, 'residual'>[] = [];
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

const plus = (a: Vec3, k: number, b: Vec3): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];

function leftOver(
  base: readonly FramePoint[],
  points: readonly FramePoint[],
  weights: readonly number[],
  means: readonly Omit<GroupMean, 'residual'>[],
  frame: SmallMotion,
): Observations {
  const residuals = points.map(({ place, off }) => subtract(off, motionAt(frame, place)));
  return {
    base,
    points,
    weights,
    residuals,
    means: means.map((mean) => ({ ...mean, residual: meanOver(mean, weights, (i) => residuals[i]) })),
    frame,
    leverage: base.reduce((total, { place }, i) => total + weights[i] * traceAt(frame, place), 0),
  };
}

/** Of something that each point of a group has. */
export function meanOver(
  { from, to, total }: Pick<GroupMean, 'from' | 'to' | 'total'>,
  weights: readonly number[],
  of: (point: number) => Vec3,
): Vec3 {
  let sum: Vec3 = zero;
  for (let i = from; i < to; i++) sum = plus(sum, weights[i] / total, of(i));
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
