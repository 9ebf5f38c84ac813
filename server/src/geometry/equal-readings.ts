import { normalCdf } from './distributions';

/**
 * The chance that one number, read twice and rounded to a step both times, comes out the same. Both readings scatter normally about the
 * same value with standard deviations whose root sum of squares is `scatter`; where that value stands between two marks is taken as equally
 * likely everywhere. Of a difference d before rounding a share 1 − |d|/h of these places gives the same number, none from d = h on:
 * E[max(0, 1 − |d|/h)] = 2Φ(a) − 1 − (2/a)(φ(0) − φ(a)), a = h/s. No other mean of d makes it larger, so a point that has moved has less.
 *
 * @param step above 0; @param scatter s, 0 or more, in the same unit
 * @throws RangeError for a step that is not above 0, or a scatter below 0
 */
export function chanceOfSameNumber(step: number, scatter: number): number {
  if (!(step > 0 && Number.isFinite(step))) throw new RangeError(`A step must be above 0, not ${step}.`);
  if (!(scatter >= 0 && Number.isFinite(scatter)))
    throw new RangeError(`A scatter must be 0 or more, not ${scatter}.`);
  const a = step / scatter;
  if (a > 1e9) return 1;
  // the two terms take each other away: their series, to a term that no digit shows
  if (a < 1e-3) return (a / Math.sqrt(2 * Math.PI)) * (1 - a ** 2 / 12);
  return 2 * normalCdf(a) - 1 - (2 / a) * (density(0) - density(a));
}

const density = (z: number): number => Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);

/**
 * The chance of at least k successes in n trials that succeed with probability p each. Summed from the largest term down, so that a small
 * chance keeps its digits.
 *
 * @param enough a chance that is as large is not summed any further: what comes back is then at least that
 * @throws RangeError for a probability outside [0, 1], or counts that are not whole numbers with 0 ≤ k ≤ n
 */
export function binomialTail(k: number, n: number, p: number, enough = 1): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A probability must be in [0, 1], not ${p}.`);
  if (!(Number.isInteger(k) && Number.isInteger(n) && k >= 0 && k <= n))
    throw new RangeError(`Of ${n} trials ${k} cannot succeed.`);
  if (k === 0 || p === 1) return 1;
  if (p === 0) return 0;
  let logTerm = k * Math.log(p) + (n - k) * Math.log1p(-p);
  for (let i = 1; i <= k; i++) logTerm += Math.log((n - k + i) / i);
  let sum = 0;
  for (let j = k; j <= n; j++) {
    const term = Math.exp(logTerm);
    sum += term;
    if (sum >= enough) break;
    // past the most likely number the terms only fall, each by a larger share: what is left no digit shows
    if (j > (n + 1) * p && term * (n - j) < 1e-17 * sum) break;
    if (j < n) logTerm += Math.log(((n - j) / (j + 1)) * (p / (1 - p)));
  }
  return Math.min(1, sum);
}
