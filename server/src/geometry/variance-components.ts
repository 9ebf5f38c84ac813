import { derived } from '../memory/derived';
import { chiSquareQuantile } from './distributions';
import { requireFinite } from './inputs';
import { factored, inverseOf } from './positive-definite';
import { type Projected, projected, requireBlock, type VarianceBlock } from './variance-blocks';

/** Variances of random effects, with what is known of them. */
export interface VarianceComponents {
  readonly variances: readonly number[];
  /** Covariance of the estimates, row after row: the inverse of the expected information; 0 for a component that was held. */
  readonly covariance: readonly (readonly number[])[];
  /** −½ (log|V| + log|XᵀV⁻¹X| + yᵀPy) of all blocks. */
  readonly logLikelihood: number;
}

interface Sums {
  readonly score: number[];
  readonly information: number[][];
  readonly logLikelihood: number;
}

const mostSteps = 100;
const mostHalvings = 30;
/** What the likelihood may still gain when it is reached. */
const settledGain = 1e-12;

/**
 * Restricted maximum likelihood of variance components in a linear mixed model: Patterson & Thompson 1971, by Fisher's scoring with steps
 * halved while the likelihood falls; a variance that would be below 0 is 0 (Searle, Casella & McCulloch 1992, chapters 6 and 8).
 *
 * @param blocks that share no random effect; `labels` have one list a component
 * @param start σ² to begin with, above 0
 * @param held components that stay as they start
 * @returns null where the components, or the fixed effects of a block, cannot be told apart by these observations
 * @throws RangeError for mismatched sizes, values that are not finite, no block
 */
export function varianceComponents(
  blocks: readonly VarianceBlock[],
  start: readonly number[],
  held: readonly boolean[] = start.map(() => false),
): VarianceComponents | null {
  if (blocks.length === 0) throw new RangeError('Blocks: none.');
  requireFinite('Variances', start);
  if (start.some((each) => each < 0)) throw new RangeError('Variances: none may be below 0.');
  for (const block of blocks) requireBlock(block, start.length);
  let variances = [...start];
  let now = sumsAt(blocks, variances);
  for (let step = 0; now !== null && step < mostSteps; step++) {
    const free = indices(start.length).filter(
      (k) => !held[k] && (variances[k] > 0 || (now?.score[k] ?? 0) > 0),
    );
    const move = scoringStep(now, free);
    if (move === null) return null;
    const gain = free.reduce((sum, k, i) => sum + (now?.score[k] ?? 0) * move[i], 0);
    if (gain < settledGain) break;
    const next = stepped(blocks, { variances, free, move, logLikelihood: now.logLikelihood });
    if (next === null) break;
    variances = next.variances;
    now = next.sums;
  }
  return now && told(variances, now, held);
}

/** The furthest of the step, its half, its quarter … that does not lower the likelihood; null where none does. */
function stepped(
  blocks: readonly VarianceBlock[],
  from: {
    readonly variances: readonly number[];
    readonly free: readonly number[];
    readonly move: Float64Array;
    readonly logLikelihood: number;
  },
): { variances: number[]; sums: Sums } | null {
  let share = 1;
  for (let halved = 0; halved < mostHalvings; halved++, share /= 2) {
    const variances = [...from.variances];
    from.free.forEach((k, i) => {
      variances[k] = Math.max(0, variances[k] + share * from.move[i]);
    });
    const sums = sumsAt(blocks, variances);
    if (sums !== null && sums.logLikelihood >= from.logLikelihood) return { variances, sums };
  }
  return null;
}

function scoringStep({ score, information }: Sums, free: readonly number[]): Float64Array | null {
  const inverse = inverseOn(information, free);
  if (inverse === null) return null;
  return Float64Array.from(free, (_, i) =>
    free.reduce((sum, l, j) => sum + inverse[i * free.length + j] * score[l], 0),
  );
}

function inverseOn(information: readonly (readonly number[])[], of: readonly number[]): Float64Array | null {
  const matrix = Float64Array.from(of.flatMap((k) => of.map((l) => information[k][l])));
  const factors = factored(matrix, of.length);
  return factors && inverseOf(factors);
}

function told(variances: readonly number[], sums: Sums, held: readonly boolean[]): VarianceComponents | null {
  const free = indices(variances.length).filter((k) => !held[k]);
  const inverse = inverseOn(sums.information, free);
  if (inverse === null) return null;
  const at = (k: number, l: number): number => {
    const [row, column] = [free.indexOf(k), free.indexOf(l)];
    return row < 0 || column < 0 ? 0 : inverse[row * free.length + column];
  };
  const covariance = variances.map((_, k) => variances.map((_each, l) => at(k, l)));
  return { variances, covariance, logLikelihood: sums.logLikelihood };
}

/** Score and expected information: −½ (tr PV_k − yᵀPV_kPy) and ½ tr PV_kPV_l. */
function sumsAt(blocks: readonly VarianceBlock[], variances: readonly number[]): Sums | null {
  const score = variances.map(() => 0);
  const information = variances.map(() => variances.map(() => 0));
  let logLikelihood = 0;
  for (const block of blocks) {
    const at = projected(block, variances);
    if (at === null) return null;
    logLikelihood += at.logLikelihood;
    addSums(block, at, score, information);
  }
  return Number.isFinite(logLikelihood) ? { score, information, logLikelihood } : null;
}

interface Effects {
  /** Which column of Z an observation has, −1 for none, and with what factor. */
  readonly column: Int32Array;
  readonly size: readonly number[] | null;
  readonly count: number;
}

const effectsOf = derived(({ labels, sizes }: VarianceBlock): readonly Effects[] =>
  labels.map((each, k) => {
    const columns = new Map<number, number>();
    const column = Int32Array.from(each, (label) => {
      if (label < 0) return -1;
      const known = columns.get(label) ?? columns.size;
      columns.set(label, known);
      return known;
    });
    return { column, size: sizes?.[k] ?? null, count: columns.size };
  }),
);

function addSums(block: VarianceBlock, at: Projected, score: number[], information: number[][]): void {
  const effects = effectsOf(block);
  for (const [k, a] of effects.entries()) {
    const sums = new Float64Array(a.count);
    for (let i = 0; i < at.values.length; i++)
      if (a.column[i] >= 0) sums[a.column[i]] += (a.size?.[i] ?? 1) * at.values[i];
    score[k] += sums.reduce((total, each) => total + each * each, 0) / 2;
    for (let l = 0; l <= k; l++) {
      const b = effects[l];
      const shared = betweenEffects(at, a, b);
      if (l === k) for (let i = 0; i < a.count; i++) score[k] -= shared[i * a.count + i] / 2;
      const trace = shared.reduce((total, each) => total + each * each, 0) / 2;
      information[k][l] += trace;
      if (l < k) information[l][k] += trace;
    }
  }
}

/** Z_kᵀ P Z_l, row after row. */
function betweenEffects({ matrix, values }: Projected, a: Effects, b: Effects): Float64Array {
  const n = values.length;
  const shared = new Float64Array(a.count * b.count);
  for (let i = 0; i < n; i++) {
    const row = a.column[i];
    if (row < 0) continue;
    const size = a.size?.[i] ?? 1;
    for (let j = 0; j < n; j++) {
      const column = b.column[j];
      if (column >= 0) shared[row * b.count + column] += size * (b.size?.[j] ?? 1) * matrix[i * n + j];
    }
  }
  return shared;
}

const indices = (count: number): number[] => Array.from({ length: count }, (_, k) => k);

/** Degrees of freedom of a mean square with this variance of its own (Satterthwaite 1946). */
export const degreesOfFreedomOf = (variance: number, itsVariance: number): number =>
  (2 * variance ** 2) / itsVariance;

/**
 * The 95 % interval of a variance, by χ² on Satterthwaite's degrees of freedom; of one that is hardly above 0, from 0 on.
 * @param itsVariance of the estimate, above 0
 */
export function varianceInterval(variance: number, itsVariance: number): readonly [number, number] {
  const degreesOfFreedom = degreesOfFreedomOf(variance, itsVariance);
  // under this a quantile says more of the method than of the variance
  if (!(degreesOfFreedom > 2)) return [0, variance + 2 * Math.sqrt(itsVariance)];
  const scaled = variance * degreesOfFreedom;
  return [
    scaled / chiSquareQuantile(0.975, degreesOfFreedom),
    scaled / chiSquareQuantile(0.025, degreesOfFreedom),
  ];
}
