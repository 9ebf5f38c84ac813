import { fQuantile } from './distributions';
import { requireFinite, requireSameLength } from './inputs';

/** Several estimates of one number, each of an object of its own: objects scatter about their mean besides. */
interface RandomEffectsMean {
  readonly value: number;
  /** The 95 % interval is value ± 1.96 of it, whatever the number of objects: of few it is more than the standard error. */
  readonly uncertainty: number;
  /** Variance between objects by Mandel & Paule: 0 where the estimates' own errors explain it all; null for one object. */
  readonly between: number | null;
  /** What the mean was worked out with: the larger of the estimate and what was known beforehand, where that was asked for. */
  readonly betweenUsed: number;
  /** Σ (x − x̄)²/(v + known) about its own mean, on n − 1 degrees of freedom: whether objects scatter more than is known. */
  readonly chiSquare: number;
  /** The share of each. */
  readonly weights: readonly number[];
}

/** From so many objects on their scatter is measured; of fewer it is also taken from what is known beforehand. */
const enoughObjects = 5;

const coverage95 = 1.959963984540054;
/** Each step halves what is not known of the variance: to the last digit. */
const halvings = 200;

/**
 * The mean over objects with weights 1/(v + τ²), where τ² makes Σ (x − x̄)²/(v + τ²) = n − 1 (Paule & Mandel 1982). Under five objects τ² is no
 * less than what is known beforehand, and the interval that of a normal variable. From five on it is that of Hartung & Knapp 2001:
 * Student's t on n − 1 degrees of freedom by the scatter that the weighted estimates show.
 *
 * @param variances of the estimates' own errors, each above 0
 * @param knownBetween variance between objects, as known beforehand, at least 0
 * @throws RangeError for no estimates, mismatched lists, values that are not finite, variances that are not above 0
 */
export function randomEffectsMean(
  estimates: readonly number[],
  variances: readonly number[],
  knownBetween: number,
): RandomEffectsMean {
  requireEstimates(estimates, variances, knownBetween);
  const n = estimates.length;
  const between = n === 1 ? null : betweenVariance(estimates, variances);
  const betweenUsed = n < enoughObjects ? Math.max(between ?? 0, knownBetween) : (between ?? 0);
  const { value, total, chiSquare, weights } = weighted(estimates, variances, betweenUsed);
  const uncertainty =
    n < enoughObjects
      ? Math.sqrt(1 / total)
      : (Math.sqrt(chiSquare / (n - 1) / total) * studentQuantile95(n - 1)) / coverage95;
  return {
    value,
    uncertainty,
    between,
    betweenUsed,
    chiSquare: weighted(estimates, variances, knownBetween).chiSquare,
    weights,
  };
}

/** |t| stays under it in 95 %: t² is F on one degree of freedom. */
const studentQuantile95 = (degreesOfFreedom: number): number =>
  Math.sqrt(fQuantile(0.95, 1, degreesOfFreedom));

/** The τ² of Paule & Mandel 1982. The sum falls as τ² grows, so halving finds it. */
function betweenVariance(estimates: readonly number[], variances: readonly number[]): number {
  const wanted = estimates.length - 1;
  const sumAt = (between: number) => weighted(estimates, variances, between).chiSquare;
  if (sumAt(0) <= wanted) return 0;
  const reach = Math.max(...estimates) - Math.min(...estimates);
  let [low, high] = [0, estimates.length * reach ** 2];
  for (let i = 0; i < halvings && high - low > 1e-15 * high; i++) {
    const middle = (low + high) / 2;
    if (sumAt(middle) > wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function weighted(estimates: readonly number[], variances: readonly number[], between: number) {
  const raw = variances.map((variance) => 1 / (variance + between));
  const total = raw.reduce((sum, each) => sum + each, 0);
  const weights = raw.map((each) => each / total);
  // about the first: of numbers that are large and nearly alike no digit is lost
  const [origin] = estimates;
  const value = origin + weights.reduce((sum, weight, i) => sum + weight * (estimates[i] - origin), 0);
  const chiSquare = raw.reduce((sum, weight, i) => sum + weight * (estimates[i] - value) ** 2, 0);
  return { value, total, chiSquare, weights };
}

function requireEstimates(
  estimates: readonly number[],
  variances: readonly number[],
  knownBetween: number,
): void {
  if (estimates.length === 0) throw new RangeError('Estimates: none.');
  requireSameLength('Variances', estimates.length, variances.length);
  requireFinite('Estimates', estimates);
  requireFinite('Variances', [...variances, knownBetween]);
  if (variances.some((variance) => !(variance > 0)) || knownBetween < 0)
    throw new RangeError('Variances: they must be above 0.');
}
