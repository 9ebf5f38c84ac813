import { symmetricInverse } from '../../geometry/small-motion';
import { eigenPairs } from '../../geometry/symmetric';
import { cross, dot, scaled, subtract, transformed, type Vec3, zero } from '../../geometry/vector';
import type { FramePoint } from './frame-points';
import type { Observations } from './observations';
import { chiSquareLimit, type Gain, gainOf, isSignificant } from './story-gain';
import { shiftOf, type Told } from './story-kinds';

/** Up to so many control points every subset is tried: 4,096 solutions of three equations. */
const mostTried = 12;
const smallest = 2;

/** A subset of the control points that the readings say was displaced as one. */
export interface SubsetStory {
  readonly told: Told;
  readonly gain: Gain;
  readonly tried: number;
}

/**
 * Every subset of the base, from two points to all but two, as a shift; of more than twelve points those that the direction in which
 * their residuals differ most divides. Without witnesses a subset and the rest are one story, and three must stand.
 */
export function subsetStories(
  observations: Observations,
  scope: readonly Pick<FramePoint, 'place' | 'half'>[],
  hasWitnesses: boolean,
): SubsetStory[] {
  const n = observations.base.length;
  const tried = 2 ** n;
  const limit = chiSquareLimit(3, tried);
  const candidates = n <= mostTried ? subsetsOverLimit(observations, limit) : splits(observations);
  return candidates.flatMap((members) => {
    if (!mayHaveMoved(members, hasWitnesses)) return [];
    const told = shiftOf({ kind: 'subset' }, members);
    const gain = gainOf(observations, told);
    return gain !== null && isSignificant(gain, 3, tried, scope) ? [{ told, gain, tried }] : [];
  });
}

/** Of two halves without witnesses the one with the first point stands. */
function mayHaveMoved(members: readonly boolean[], hasWitnesses: boolean): boolean {
  const moved = members.filter(Boolean).length;
  const standing = members.length - moved;
  if (moved < smallest || standing < smallest) return false;
  return hasWitnesses || (standing >= 3 && (moved < standing || (moved === standing && !members[0])));
}

/**
 * The subsets whose gain exceeds a limit. Sums of a subset are those of the subset with one point more or less, so that each costs one
 * point and one solution: Gray's order.
 */
function subsetsOverLimit({ base, weights, residuals, frame }: Observations, limit: number): boolean[][] {
  const n = base.length;
  const arms = base.map(({ place }) => subtract(place, frame.centroid));
  const members = base.map(() => false);
  const found: boolean[][] = [];
  let weight = 0;
  let [gradient, arm]: [Vec3, Vec3] = [zero, zero];
  for (let step = 1; step < 2 ** n; step++) {
    const i = 31 - Math.clz32(step & -step);
    members[i] = !members[i];
    const w = members[i] ? weights[i] : -weights[i];
    weight += w;
    gradient = plus(gradient, w, residuals[i]);
    arm = plus(arm, w, arms[i]);
    if (gainOfShift(weight, gradient, arm, frame) > limit) found.push([...members]);
  }
  // in the order of the members, not of the search
  return found.sort((a, b) => (a.map(Number).join('') < b.map(Number).join('') ? -1 : 1));
}

/** gᵀ H⁻¹ g with H = (W_s − W_s²/W) I − [ρ]×ᵀ J⁻¹ [ρ]× for a shift of points with weight W_s and Σ w r = ρ. */
function gainOfShift(
  weight: number,
  gradient: Vec3,
  arm: Vec3,
  { shiftVariance, turnCovariance }: Observations['frame'],
): number {
  const own = weight - weight * weight * shiftVariance;
  const units: readonly Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const turns = units.map((unit) => cross(arm, unit));
  const turned = turns.map((turn) => transformed(turnCovariance, turn));
  const row = (a: 0 | 1 | 2): Vec3 => [
    (a === 0 ? own : 0) - dot(turns[a], turned[0]),
    (a === 1 ? own : 0) - dot(turns[a], turned[1]),
    (a === 2 ? own : 0) - dot(turns[a], turned[2]),
  ];
  const inverse = symmetricInverse([row(0), row(1), row(2)]);
  return inverse === null ? 0 : dot(gradient, transformed(inverse, gradient));
}

const plus = (a: Vec3, k: number, b: Vec3): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];

/** The points in the order of their residuals along the direction in which these differ most, cut at every place, and either part. */
function splits({ base, residuals }: Observations): boolean[][] {
  const n = base.length;
  const mean = scaled(
    residuals.slice(0, n).reduce((sum, r) => plus(sum, 1, r), zero),
    1 / n,
  );
  const centred = residuals.slice(0, n).map((r) => subtract(r, mean));
  const moment = (a: 0 | 1 | 2): Vec3 => [
    centred.reduce((sum, r) => sum + r[a] * r[0], 0),
    centred.reduce((sum, r) => sum + r[a] * r[1], 0),
    centred.reduce((sum, r) => sum + r[a] * r[2], 0),
  ];
  const [, , largest] = eigenPairs([moment(0), moment(1), moment(2)]);
  const order = centred
    .map((r, i) => ({ i, along: dot(r, largest.vector) }))
    .sort((a, b) => a.along - b.along || a.i - b.i);
  const rank = new Map(order.map(({ i }, position) => [i, position]));
  return Array.from({ length: n - 1 }, (_, cut) => base.map((__, i) => rank.get(i)! <= cut)).flatMap(
    (members) => [members, members.map((member) => !member)],
  );
}
