import { requireFinite, requireSameLength } from './inputs';
import { factored, inverseOf } from './positive-definite';

/** Several estimates of one number made into one. */
interface Combined {
  readonly value: number;
  readonly uncertainty: number;
  /** of the estimates about their mean, with one degree of freedom fewer than there are estimates */
  readonly chiSquare: number;
  /** the share of each; one below 0 where it has more in common with a better one than the two differ in size */
  readonly weights: readonly number[];
}

/**
 * The mean with the least variance, x̄ = 1ᵀV⁻¹x / 1ᵀV⁻¹1 with u² = 1 / 1ᵀV⁻¹1 and χ² = (x − x̄)ᵀV⁻¹(x − x̄). Aitken 1935.
 *
 * @param covariance of the estimates, n × n, row after row
 * @returns null where the covariance is not positive definite
 * @throws RangeError for no estimates, mismatched sizes or values that are not finite
 */
export function combinedEstimate(estimates: readonly number[], covariance: Float64Array): Combined | null {
  const count = estimates.length;
  if (count === 0) throw new RangeError('Estimates: none.');
  requireFinite('Estimates', estimates);
  requireSameLength('Covariance', count * count, covariance.length);
  const factors = factored(covariance, count);
  if (factors === null) return null;
  const inverse = inverseOf(factors);
  const rowSums = estimates.map((_, i) => sumOf(estimates, (_value, j) => inverse[i * count + j]));
  const total = sumOf(rowSums, (each) => each);
  const weights = rowSums.map((each) => each / total);
  const value = sumOf(estimates, (each, i) => weights[i] * each);
  const chiSquare = sumOf(estimates, (a, i) =>
    sumOf(estimates, (b, j) => (a - value) * inverse[i * count + j] * (b - value)),
  );
  return { value, uncertainty: Math.sqrt(1 / total), chiSquare, weights };
}

const sumOf = (values: readonly number[], of: (value: number, index: number) => number): number =>
  values.reduce((total, value, index) => total + of(value, index), 0);
