import { derived } from '../memory/derived';
import { requireFinite, requireSameLength } from './inputs';
import { type Factored, factored, inverseOf } from './positive-definite';

/**
 * Observations that share no random effect with those of other blocks: y = X β + Σ_k Z_k b_k with independent b_k ~ N(0, σ_k²). The
 * residual is a component like any other, with a label of its own for each observation.
 */
export interface VarianceBlock {
  readonly values: readonly number[];
  /** X, a row an observation; each block has coefficients of its own. */
  readonly design: readonly (readonly number[])[];
  /** By component: which effect each observation has, −1 for none. Equal labels are one effect. */
  readonly labels: readonly (readonly number[])[];
  /** By component, what an effect is multiplied by in each observation; null: by 1. */
  readonly sizes?: readonly (readonly number[] | null)[];
}

/** A block with its fixed effects taken out, at given variances: P = V⁻¹ − V⁻¹X(XᵀV⁻¹X)⁻¹XᵀV⁻¹. */
export interface Projected {
  /** P, row after row, and P y. */
  readonly matrix: Float64Array;
  readonly values: Float64Array;
  /** −½ (log|V| + log|XᵀV⁻¹X| + yᵀPy): the restricted likelihood but for a constant (Patterson & Thompson 1971). */
  readonly logLikelihood: number;
}

/** @throws RangeError for mismatched sizes or values that are not finite */
export function requireBlock({ values, design, labels, sizes }: VarianceBlock, components: number): void {
  requireFinite('Observations', values);
  requireSameLength('Rows of the design', values.length, design.length);
  for (const row of design) {
    requireSameLength('Columns of the design', design[0].length, row.length);
    requireFinite('Design', row);
  }
  requireSameLength('Components', components, labels.length);
  for (const each of labels) requireSameLength('Labels', values.length, each.length);
  for (const each of sizes ?? [])
    if (each !== null) {
      requireSameLength('Sizes', values.length, each.length);
      requireFinite('Sizes', each);
    }
}

/** Null where V is singular, or the fixed effects cannot be told apart. @param variances σ² by component */
export function projected(block: VarianceBlock, variances: readonly number[]): Projected | null {
  const n = block.values.length;
  const inverted = invertedCovariance(block, variances);
  if (inverted === null) return null;
  const { inverse } = inverted;
  const p = block.design[0]?.length ?? 0;
  const weighted = new Float64Array(n * p);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const each = inverse[i * n + j];
      if (each !== 0) for (let c = 0; c < p; c++) weighted[i * p + c] += each * block.design[j][c];
    }
  const normal = new Float64Array(p * p);
  for (let i = 0; i < n; i++)
    for (let a = 0; a < p; a++)
      for (let b = 0; b < p; b++) normal[a * p + b] += block.design[i][a] * weighted[i * p + b];
  const normalFactors = factored(normal, p);
  if (normalFactors === null) return null;
  const matrix = withoutFixed(inverse, weighted, inverseOf(normalFactors), n);
  const values = new Float64Array(n);
  let squares = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) values[i] += matrix[i * n + j] * block.values[j];
    squares += values[i] * block.values[i];
  }
  const logLikelihood = -(inverted.logDeterminant + logDeterminant(normalFactors) + squares) / 2;
  return { matrix, values, logLikelihood };
}

/** V⁻¹ and log|V|, V = Σ σ_k² Z_k Z_kᵀ: worked out for each set of observations that effects tie together, as most are tied to few. */
function invertedCovariance(
  block: VarianceBlock,
  variances: readonly number[],
): { readonly inverse: Float64Array; readonly logDeterminant: number } | null {
  const n = block.values.length;
  const inverse = new Float64Array(n * n);
  let sum = 0;
  for (const members of tiedObservations(block)) {
    const m = members.length;
    const factors = factored(covarianceOf(block, variances, members), m);
    if (factors === null) return null;
    sum += logDeterminant(factors);
    const own = inverseOf(factors);
    for (let i = 0; i < m; i++)
      for (let j = 0; j < m; j++) inverse[members[i] * n + members[j]] = own[i * m + j];
  }
  return { inverse, logDeterminant: sum };
}

/** Observations with an effect in common, directly or by others. */
const tiedObservations = derived(({ values, labels }: VarianceBlock): readonly (readonly number[])[] => {
  const parent = values.map((_, i) => i);
  const rootOf = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at];
    return at;
  };
  for (const each of labels) {
    const first = new Map<number, number>();
    each.forEach((label, i) => {
      if (label < 0) return;
      const known = first.get(label);
      if (known === undefined) first.set(label, i);
      else parent[rootOf(i)] = rootOf(known);
    });
  }
  const sets = new Map<number, number[]>();
  for (const [i] of values.entries()) {
    const root = rootOf(i);
    const known = sets.get(root);
    if (known === undefined) sets.set(root, [i]);
    else known.push(i);
  }
  return [...sets.values()];
});

/** V of some observations, row after row. */
function covarianceOf(
  { labels, sizes }: VarianceBlock,
  variances: readonly number[],
  members: readonly number[],
): Float64Array {
  const m = members.length;
  const matrix = new Float64Array(m * m);
  for (const [k, each] of labels.entries()) {
    if (variances[k] === 0) continue;
    const size = sizes?.[k] ?? null;
    for (let i = 0; i < m; i++) {
      const a = members[i];
      if (each[a] < 0) continue;
      for (let j = 0; j <= i; j++) {
        const b = members[j];
        if (each[b] !== each[a]) continue;
        const shared = variances[k] * (size === null ? 1 : size[a] * size[b]);
        matrix[i * m + j] += shared;
        if (j < i) matrix[j * m + i] += shared;
      }
    }
  }
  return matrix;
}

/** V⁻¹ − W N⁻¹ Wᵀ in the place of V⁻¹. */
function withoutFixed(inverse: Float64Array, weighted: Float64Array, normalInverse: Float64Array, n: number) {
  const p = weighted.length / n;
  const solved = new Float64Array(n * p);
  for (let i = 0; i < n; i++)
    for (let a = 0; a < p; a++)
      for (let b = 0; b < p; b++) solved[i * p + a] += weighted[i * p + b] * normalInverse[b * p + a];
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let taken = 0;
      for (let a = 0; a < p; a++) taken += solved[i * p + a] * weighted[j * p + a];
      const left = inverse[i * n + j] - taken;
      inverse[i * n + j] = left;
      inverse[j * n + i] = left;
    }
  return inverse;
}

function logDeterminant({ size, scales, lower }: Factored): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += Math.log(scales[i]) + Math.log(lower[i * size + i]);
  return 2 * sum;
}
