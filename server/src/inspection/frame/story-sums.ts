import { type Factored, isFactored, solve, unfactored } from '../../geometry/positive-definite';
import type { SmallMotion } from '../../geometry/small-motion';
import { derived } from '../../memory/derived';
import type { Left, Observations } from './observations';
import type { LaidOut } from './story-columns';

/** All that is added up for one story of q unknowns, and where it is solved. */
export interface StorySums {
  readonly q: number;
  /** MᵀV⁻¹M, q × q, and g = MᵀV⁻¹r. */
  readonly own: Float64Array;
  readonly gradient: Float64Array;
  /** AᵀV⁻¹M by columns: of shifts and of turns about the frame's centroid; and J⁻¹ times the turns. */
  readonly shifts: Float64Array;
  readonly turns: Float64Array;
  readonly turned: Float64Array;
  /** What the story does to the mean of a group. */
  readonly mean: Float64Array;
  /** H and g, scaled to a unit diagonal of MᵀV⁻¹M, and what solves them. */
  readonly left: Float64Array;
  readonly values: Float64Array;
  readonly solution: Float64Array;
  readonly factors: Factored;
}

/** A story that all the rest explains but for this share of it cannot be told. */
const leastOwn = 1e-9;

const emptyStorySums = (q: number): StorySums => ({
  q,
  own: new Float64Array(q * q),
  gradient: new Float64Array(q),
  shifts: new Float64Array(3 * q),
  turns: new Float64Array(3 * q),
  turned: new Float64Array(3 * q),
  mean: new Float64Array(3 * q),
  left: new Float64Array(q * q),
  values: new Float64Array(q),
  solution: new Float64Array(q),
  factors: unfactored(q),
});

/** Room for the sums of each number of unknowns, the same for all stories about one stage. */
const roomFor = derived((_: Observations) => new Map<number, StorySums>());

function emptied(observations: Observations, q: number): StorySums {
  const room = roomFor(observations);
  let sums = room.get(q);
  if (sums === undefined) {
    sums = emptyStorySums(q);
    room.set(q, sums);
  }
  sums.own.fill(0);
  sums.gradient.fill(0);
  sums.shifts.fill(0);
  sums.turns.fill(0);
  return sums;
}

/** The sums of a story, to be read before the next one is summed up for the same observations. */
export function summedUp(observations: Observations, story: LaidOut): StorySums {
  const sums = emptied(observations, story.told.unknowns);
  addStory(observations, story, sums);
  return sums;
}

function addStory(
  { weights, lefts, means }: Observations,
  { touched, columns }: LaidOut,
  sums: StorySums,
): void {
  const size = 3 * sums.q;
  // each point by itself
  for (let t = 0; t < touched.length; t++) {
    const i = touched[t];
    addColumns(sums, weights[i], lefts[i], columns, size * t);
  }
  // and the mean of each group of which some point moves, which counts against them
  for (const mean of means) {
    let moves = false;
    for (let t = 0; t < touched.length; t++) {
      const i = touched[t];
      if (i < mean.from || i >= mean.to) continue;
      if (!moves) sums.mean.fill(0);
      moves = true;
      for (let j = 0; j < size; j++) sums.mean[j] += (weights[i] / mean.total) * columns[size * t + j];
    }
    if (moves) addColumns(sums, -mean.taken, mean, sums.mean, 0);
  }
}

/** One observation, whose displacements begin at `at`. */
function addColumns(
  { q, own, gradient, shifts, turns }: StorySums,
  weight: number,
  { arm, residual }: Left,
  columns: Float64Array,
  at: number,
): void {
  for (let a = 0; a < q; a++) {
    const x = columns[at + 3 * a];
    const y = columns[at + 3 * a + 1];
    const z = columns[at + 3 * a + 2];
    gradient[a] += weight * (x * residual[0] + y * residual[1] + z * residual[2]);
    for (let b = 0; b <= a; b++) {
      const j = at + 3 * b;
      own[a * q + b] += weight * (x * columns[j] + y * columns[j + 1] + z * columns[j + 2]);
    }
    shifts[3 * a] += weight * x;
    shifts[3 * a + 1] += weight * y;
    shifts[3 * a + 2] += weight * z;
    turns[3 * a] += weight * (arm[1] * z - arm[2] * y);
    turns[3 * a + 1] += weight * (arm[2] * x - arm[0] * z);
    turns[3 * a + 2] += weight * (arm[0] * y - arm[1] * x);
  }
}

/**
 * Solves for the unknowns; returns gᵀH⁻¹g for H = MᵀV⁻¹M − (AᵀV⁻¹M)ᵀ N⁻¹ (AᵀV⁻¹M), N being diagonal about the frame's centroid. Null where
 * the readings cannot tell the story from that motion.
 */
export function solved(sums: StorySums, { shiftVariance, turnCovariance: c }: SmallMotion): number | null {
  const { q, own, gradient, shifts, turns, turned, left, values, solution, factors } = sums;
  for (let a = 0; a < 3 * q; a += 3)
    for (let k = 0; k < 3; k++)
      turned[a + k] = c[k][0] * turns[a] + c[k][1] * turns[a + 1] + c[k][2] * turns[a + 2];
  for (let a = 0; a < q; a++)
    for (let b = 0; b <= a; b++) {
      let taken = 0;
      for (let k = 0; k < 3; k++)
        taken += shiftVariance * shifts[3 * a + k] * shifts[3 * b + k] + turns[3 * a + k] * turned[3 * b + k];
      // of size 1 where the frame takes nothing of the story up
      const size = Math.sqrt(own[a * q + a] * own[b * q + b]);
      left[a * q + b] = size > 0 ? (own[a * q + b] - taken) / size : 0;
      left[b * q + a] = left[a * q + b];
    }
  for (let a = 0; a < q; a++) if (!(left[a * q + a] > leastOwn)) return null;
  if (!isFactored(left, factors) || lowestPivot(factors) < leastOwn) return null;
  for (let a = 0; a < q; a++) values[a] = gradient[a] / Math.sqrt(own[a * q + a]);
  solution.set(values);
  solve(factors, solution);
  let gain = 0;
  for (let a = 0; a < q; a++) gain += values[a] * solution[a];
  return gain;
}

function lowestPivot({ lower, scales, size }: Factored): number {
  let least = Number.POSITIVE_INFINITY;
  for (let a = 0; a < size; a++) least = Math.min(least, (lower[a * size + a] * scales[a]) ** 2);
  return least;
}

/** By how much χ² falls, alone: nothing is allocated. Null as above. */
export const fallOf = (observations: Observations, story: LaidOut): number | null =>
  solved(summedUp(observations, story), observations.frame);
