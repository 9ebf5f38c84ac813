import { chiSquareQuantile, fQuantile } from '../../geometry/distributions';
import { motionAt, type SmallMotion } from '../../geometry/small-motion';
import { dot, type Vec3, zero } from '../../geometry/vector';
import type { FramePoint } from './frame-points';
import type { Observations } from './observations';
import { type LaidOut, laidOut } from './story-columns';
import type { Told } from './story-kinds';
import { fallOf, type StorySums, solved, summedUp } from './story-sums';

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
  readonly moves: Motion;
  /** The frame of the same observations without it, which is taken away from every deviation. */
  readonly without: Motion;
  /** χ² of the control points if it is true, and the coordinates of theirs that are then left to tell scatter by. */
  readonly baseChiSquare: number;
  readonly degreesOfFreedom: number;
}

export type Motion = Pick<SmallMotion, 'centroid' | 'shift' | 'turn'>;

/** What nobody is to be told wrong about: the points that a job is about, and the frame that their figures are told by. */
export interface Figures {
  readonly points: readonly Pick<FramePoint, 'place' | 'half'>[];
  /** Taken away from the same deviations as the story's own frame. */
  readonly toldBy: Motion;
}

/** Null where the readings cannot tell the story from the frame's own motion. */
export function gainOf(observations: Observations, told: Told): Gain | null {
  return gainLaidOut(observations, laidOut(told, observations.points));
}

function gainLaidOut(observations: Observations, story: LaidOut): Gain | null {
  const sums = summedUp(observations, story);
  const gain = solved(sums, observations.frame);
  return gain === null ? null : withFrame(observations, story, sums, gain);
}

function withFrame(
  { base, weights, residuals, frame, leverage }: Observations,
  { touched, columns }: LaidOut,
  { q, own, shifts, turned, solution }: StorySums,
  gain: number,
): Gain {
  let [shift, turn]: [Vec3, Vec3] = [zero, zero];
  const unknowns: number[] = [];
  for (let a = 0; a < q; a++) {
    unknowns.push(solution[a] / Math.sqrt(own[a * q + a]));
    shift = plus(shift, unknowns[a] * frame.shiftVariance, shifts, a);
    turn = plus(turn, unknowns[a], turned, a);
  }
  const moves = { centroid: frame.centroid, shift, turn };
  let baseChiSquare = 0;
  let t = 0;
  base.forEach(({ place }, i) => {
    const move = motionAt(moves, place);
    let left: Vec3 = [residuals[i][0] + move[0], residuals[i][1] + move[1], residuals[i][2] + move[2]];
    if (touched[t] === i) {
      for (let a = 0; a < q; a++) left = plus(left, -unknowns[a], columns, t * q + a);
      t++;
    }
    baseChiSquare += weights[i] * dot(left, left);
  });
  const degreesOfFreedom = freedomLeft(base.length, leverage, q);
  return { gain, unknowns, moves, without: frame, baseChiSquare, degreesOfFreedom };
}

/** Coordinates of n control points that a frame and a story of q unknowns leave. */
export const freedomLeft = (n: number, leverage: number, q: number): number => 3 * n - leverage - q;

/** v plus k times a vector of a list of them. */
const plus = (v: Vec3, k: number, list: Float64Array, index: number): Vec3 => [
  v[0] + k * list[3 * index],
  v[1] + k * list[3 * index + 1],
  v[2] + k * list[3 * index + 2],
];

/** Chances of a false alarm, shared among all stories that are tried; how well the stated scatter is known; what counts as elsewhere. */
const falseAlarms = { byChiSquare: 0.01, byF: 0.05 } as const;
export const scatterFreedom = 8;
const leastMove = 1 / 4;

/**
 * Whether the frame of this story places some of these points elsewhere by more than a share of their tolerance: elsewhere than without the story,
 * or than what is told. The two differ: the frame that is told by believes what stands around less where it contradicts the base, and
 * may have given way to the base that moved.
 */
function placesElsewhere({ moves, without }: Gain, { points, toldBy }: Figures): boolean {
  return reaches(moves, points) || reaches(fromTold(moves, without, toldBy), points);
}

/** What the story's frame adds to the deviations that are told. */
function fromTold({ centroid, shift, turn }: Motion, without: Motion, toldBy: Motion): Motion {
  const less = motionAt(without, centroid);
  const more = motionAt(toldBy, centroid);
  return {
    centroid,
    shift: [shift[0] - less[0] + more[0], shift[1] - less[1] + more[1], shift[2] - less[2] + more[2]],
    turn: [
      turn[0] - without.turn[0] + toldBy.turn[0],
      turn[1] - without.turn[1] + toldBy.turn[1],
      turn[2] - without.turn[2] + toldBy.turn[2],
    ],
  };
}

/** Whether a motion moves some point by more than that share. */
function reaches({ centroid, shift, turn }: Motion, points: Figures['points']): boolean {
  for (const { place, half } of points) {
    const [x, y, z] = [place[0] - centroid[0], place[1] - centroid[1], place[2] - centroid[2]];
    if (
      Math.abs(shift[0] + turn[1] * z - turn[2] * y) > leastMove * half[0] ||
      Math.abs(shift[1] + turn[2] * x - turn[0] * z) > leastMove * half[1] ||
      Math.abs(shift[2] + turn[0] * y - turn[1] * x) > leastMove * half[2]
    )
      return true;
  }
  return false;
}

/**
 * The gain of a story that the readings call for, null of any other. Most gain too little, and are refused with nothing allocated.
 * @param asked χ² that it must gain at least, and how many stories share the chance of a false alarm
 */
export function significantGain(
  observations: Observations,
  story: LaidOut,
  { limit, tried }: { readonly limit: number; readonly tried: number },
  figures: Figures,
): Gain | null {
  // no story explains more than there is
  if (observations.chiSquare <= limit) return null;
  const fall = fallOf(observations, story);
  if (fall === null || fall <= limit) return null;
  const gain = gainLaidOut(observations, story);
  return gain !== null && isSignificant(gain, story.told.unknowns, tried, figures) ? gain : null;
}

/**
 * Whether the readings call for the story: it explains more than chance does, by the stated scatter and by that of the readings themselves,
 * and it would place some point of the scope elsewhere.
 * @param tried how many stories share the chance of a false alarm
 */
export function isSignificant(found: Gain, unknowns: number, tried: number, figures: Figures): boolean {
  const { gain, baseChiSquare, degreesOfFreedom } = found;
  if (!(gain > chiSquareLimit(unknowns, tried))) return false;
  if (!placesElsewhere(found, figures)) return false;
  return gain > limitByScatter(unknowns, tried, degreesOfFreedom) * (scatterFreedom + baseChiSquare);
}

const smallestChance = 1e-13;

export const chiSquareLimit = (unknowns: number, tried: number): number =>
  chiSquareQuantile(1 - Math.max(falseAlarms.byChiSquare / tried, smallestChance), unknowns);

/** How many times 8 + χ² of the base under it a story must gain: κ F q = (8 + χ²) times this. */
export function limitByScatter(unknowns: number, tried: number, degreesOfFreedom: number): number {
  const freedom = scatterFreedom + degreesOfFreedom;
  if (!(freedom > 0)) return Number.POSITIVE_INFINITY;
  // no number is nearer to 1 than this: past so many stories the chance can be shared no further
  const chance = Math.max(falseAlarms.byF / tried, smallestChance);
  return (unknowns * fQuantile(1 - chance, unknowns, freedom)) / freedom;
}
