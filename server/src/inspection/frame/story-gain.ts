import { chiSquareQuantile, fQuantile } from '../../geometry/distributions';
import { factored, solve } from '../../geometry/positive-definite';
import { motionAt, type SmallMotion } from '../../geometry/small-motion';
import { dot, subtract, transformed, type Vec3, zero } from '../../geometry/vector';
import type { FramePoint } from './frame-points';
import { meanOver, type Observations } from './observations';
import type { Told } from './story-kinds';

/**
 * How much better the readings are explained if some control points have moved in a given way (server/README.md, "Stories"): the fit is not
 * made anew, the story's unknowns are added to it. Sources: Fisher's F-test of additional parameters, as in Draper & Smith 1998; the
 * stated scatter counts as known to 8 degrees of freedom (moderated F, Smyth 2004, from memory).
 */
export interface Gain {
  /** By how much χ² falls. */
  readonly gain: number;
  /** The story's unknowns, as they fit best. */
  readonly unknowns: readonly number[];
  /** The frame would be moved by it: what the story adds to every deviation. */
  readonly moves: Pick<SmallMotion, 'centroid' | 'shift' | 'turn'>;
  /** χ² of the control points if it is true, and the coordinates of theirs that are then left to tell scatter by. */
  readonly baseChiSquare: number;
  readonly degreesOfFreedom: number;
}

/** A story that all the rest explains but for this share of it cannot be told. */
const leastOwn = 1e-9;

/** Null where the readings cannot tell the story from the frame's own motion. */
export function gainOf(observations: Observations, told: Told): Gain | null {
  const q = told.unknowns;
  const { points, weights, residuals, means, frame } = observations;
  const columns = points.map((point, i) => (weights[i] === 0 ? null : told.columns(point, i)));
  const own = new Float64Array(q * q);
  const gradient = new Float64Array(q);
  const shifts: Vec3[] = Array.from({ length: q }, () => zero);
  const turns: Vec3[] = Array.from({ length: q }, () => zero);
  const add = (weight: number, place: Vec3, residual: Vec3, each: readonly Vec3[]) => {
    const arm = subtract(place, frame.centroid);
    for (let a = 0; a < q; a++) {
      gradient[a] += weight * dot(each[a], residual);
      for (let b = 0; b < q; b++) own[a * q + b] += weight * dot(each[a], each[b]);
      shifts[a] = plus(shifts[a], weight, each[a]);
      turns[a] = plus(turns[a], weight, crossOf(arm, each[a]));
    }
  };
  columns.forEach((each, i) => {
    if (each !== null) add(weights[i], points[i].place, residuals[i], each);
  });
  for (const mean of means) {
    if (!columns.slice(mean.from, mean.to).some((each) => each !== null)) continue;
    const each = Array.from({ length: q }, (_, a) => meanOver(mean, weights, (i) => columns[i]?.[a] ?? zero));
    add(-mean.taken, mean.place, mean.residual, each);
  }
  const solved = solvedFor(own, gradient, shifts, turns, frame);
  return solved === null ? null : withFrame(observations, columns, solved, q);
}

interface Solved {
  readonly gain: number;
  readonly unknowns: readonly number[];
  readonly shift: Vec3;
  readonly turn: Vec3;
}

/** H⁻¹ g for H = MᵀV⁻¹M − (AᵀV⁻¹M)ᵀ N⁻¹ (AᵀV⁻¹M), N being diagonal about the frame's centroid. */
function solvedFor(
  own: Float64Array,
  gradient: Float64Array,
  shifts: readonly Vec3[],
  turns: readonly Vec3[],
  { shiftVariance, turnCovariance }: SmallMotion,
): Solved | null {
  const q = gradient.length;
  const turned = turns.map((turn) => transformed(turnCovariance, turn));
  const left = new Float64Array(q * q);
  for (let a = 0; a < q; a++)
    for (let b = 0; b < q; b++) {
      // of size 1 where the frame takes nothing of the story up
      const size = Math.sqrt(own[a * q + a] * own[b * q + b]);
      const taken = shiftVariance * dot(shifts[a], shifts[b]) + dot(turns[a], turned[b]);
      left[a * q + b] = size > 0 ? (own[a * q + b] - taken) / size : 0;
    }
  for (let a = 0; a < q; a++) if (!(left[a * q + a] > leastOwn)) return null;
  const factors = factored(left, q);
  if (factors === null || lowestPivot(factors.lower, factors.scales, q) < leastOwn) return null;
  const values = gradient.map((each, a) => each / Math.sqrt(own[a * q + a]));
  const solution = Float64Array.from(values);
  solve(factors, solution);
  let gain = 0;
  let [shift, turn]: [Vec3, Vec3] = [zero, zero];
  const unknowns: number[] = [];
  for (let a = 0; a < q; a++) {
    gain += values[a] * solution[a];
    unknowns.push(solution[a] / Math.sqrt(own[a * q + a]));
    shift = plus(shift, unknowns[a] * shiftVariance, shifts[a]);
    turn = plus(turn, unknowns[a], turned[a]);
  }
  return { gain, unknowns, shift, turn };
}

function lowestPivot(lower: Float64Array, scales: Float64Array, q: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let a = 0; a < q; a++) least = Math.min(least, (lower[a * q + a] * scales[a]) ** 2);
  return least;
}

function withFrame(
  { base, weights, residuals, frame, leverage }: Observations,
  columns: readonly (readonly Vec3[] | null)[],
  { gain, unknowns, shift, turn }: Solved,
  q: number,
): Gain {
  const moves = { centroid: frame.centroid, shift, turn };
  let baseChiSquare = 0;
  base.forEach(({ place }, i) => {
    const left = subtract(
      plus(residuals[i], 1, motionAt(moves, place)),
      displacementOf(columns[i], unknowns),
    );
    baseChiSquare += weights[i] * dot(left, left);
  });
  return { gain, unknowns, moves, baseChiSquare, degreesOfFreedom: 3 * base.length - leverage - q };
}

/** What a story does to one point, mm. */
export function displacementOf(columns: readonly Vec3[] | null, unknowns: readonly number[]): Vec3 {
  let sum: Vec3 = zero;
  columns?.forEach((column, a) => {
    sum = plus(sum, unknowns[a], column);
  });
  return sum;
}

const plus = (a: Vec3, k: number, b: Vec3): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const crossOf = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Chances of a false alarm, shared among all stories that are tried; how well the stated scatter is known; what counts as elsewhere. */
const falseAlarms = { byChiSquare: 0.01, byF: 0.05 } as const;
const scatterFreedom = 8;
const leastMove = 1 / 4;

/** The share of its tolerance by which the frame of this story places the worst of these points elsewhere. */
export function largestMove({ moves }: Gain, scope: readonly Pick<FramePoint, 'place' | 'half'>[]): number {
  let largest = 0;
  for (const { place, half } of scope) {
    const move = motionAt(moves, place);
    for (let k = 0; k < 3; k++) largest = Math.max(largest, Math.abs(move[k]) / half[k]);
  }
  return largest;
}

/**
 * Whether the readings call for the story: it explains more than chance does, by the stated scatter and by that of the readings themselves,
 * and it would place some point of the scope differently.
 * @param tried how many stories share the chance of a false alarm
 */
export function isSignificant(
  found: Gain,
  unknowns: number,
  tried: number,
  scope: readonly Pick<FramePoint, 'place' | 'half'>[],
): boolean {
  const { gain, baseChiSquare, degreesOfFreedom } = found;
  if (!(gain > chiSquareLimit(unknowns, tried))) return false;
  if (!(largestMove(found, scope) > leastMove)) return false;
  const freedom = scatterFreedom + degreesOfFreedom;
  if (!(freedom > 0)) return false;
  const scattered = (scatterFreedom + baseChiSquare) / freedom;
  // no number is nearer to 1 than this: past so many stories the chance can be shared no further
  const chance = Math.max(falseAlarms.byF / tried, smallestChance);
  return gain / unknowns > scattered * fQuantile(1 - chance, unknowns, freedom);
}

const smallestChance = 1e-13;

export const chiSquareLimit = (unknowns: number, tried: number): number =>
  chiSquareQuantile(1 - Math.max(falseAlarms.byChiSquare / tried, smallestChance), unknowns);
