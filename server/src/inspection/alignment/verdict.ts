import { normalCdf } from '../../geometry/distributions';
import type { Limits } from '../../model/chassis';

/**
 * Verdicts under measurement uncertainty (server/README.md, "Deviation and verdict").
 * Sources: JCGM 106:2012 (conformance probability), ISO 14253-1 (decision rules).
 */

export type Verdict = 'within' | 'outside' | 'undecided' | 'unjudged';

/** One axis of a point, or a span. `deviationMm` null: it cannot be judged. */
export interface Judgement {
  readonly deviationMm: number | null;
  readonly uncertaintyMm: number | null;
  readonly limits: Limits;
}

/** Two-sided 95 % of a normal distribution. */
export const coverage95 = 1.96;

/** Φ(−8.3) is under half of the last digit of numbers from ½ to 1. */
const certain = 8.3;

/** The probability that the true deviation lies within the limits; null where it cannot be judged. */
export function conformity({
  deviationMm: d,
  uncertaintyMm: u,
  limits: [low, high],
}: Judgement): number | null {
  if (d === null || u === null) return null;
  if (u === 0) return d >= low && d <= high ? 1 : 0;
  const above = (high - d) / u;
  const below = (low - d) / u;
  // what lies past the farther limit is then not even in the last digit
  return below < -certain && above >= 0 ? normalCdf(above) : normalCdf(above) - normalCdf(below);
}

/** Whether a deviation is past its limit, whatever its certainty. */
export const beyond = (d: number, [low, high]: Limits): boolean => d < low || d > high;

/** A standard normal value past this lies outside with a chance of less than 0.025. */
const surelyInside = 1.96;
/** Φ of this and more is over 0.95. */
const surelyOutside = 1.645;

/**
 * What one axis, or a span, says. Within asks for 95 % between both limits; outside for 95 % past one of them (JCGM 106:2012, one
 * limit): where u is large against the band little is ever between them, and that alone shows nothing. Asked only where size does
 * not settle it.
 */
function verdictOn(d: number | null, u: number | null, limits: Limits): Verdict {
  if (d === null || u === null) return 'unjudged';
  const [low, high] = limits;
  if (u > 0 && high - d >= surelyInside * u && d - low >= surelyInside * u) return 'within';
  if (beyond(d, limits)) {
    const past = d > high ? d - high : low - d;
    return past >= surelyOutside * u || normalCdf(past / u) >= 0.95 ? 'outside' : 'undecided';
  }
  return conformity({ deviationMm: d, uncertaintyMm: u, limits })! >= 0.95 ? 'within' : 'undecided';
}

/** Of several axes: outside where one is, else not judged, else undecided. */
export function verdictOf(judgements: readonly Judgement[]): Verdict {
  let verdict: Verdict = 'within';
  for (const { deviationMm, uncertaintyMm, limits } of judgements)
    verdict = joined(verdict, verdictOn(deviationMm, uncertaintyMm, limits));
  return verdict;
}

/** The same from lists by axis. */
export function verdictOfAxes(
  deviation: readonly (number | null)[],
  uncertainty: readonly (number | null)[],
  limits: readonly Limits[],
): Verdict {
  let verdict: Verdict = 'within';
  for (let k = 0; k < limits.length; k++)
    verdict = joined(verdict, verdictOn(deviation[k], uncertainty[k], limits[k]));
  return verdict;
}

/** Repeats that contradict each other leave nothing within, whatever their mean is. */
export const withContradiction = (verdict: Verdict, contradictory: boolean): Verdict =>
  contradictory && verdict === 'within' ? 'undecided' : verdict;

function joined(one: Verdict, other: Verdict): Verdict {
  if (one === 'outside' || other === 'outside') return 'outside';
  if (one === 'unjudged' || other === 'unjudged') return 'unjudged';
  return one === 'undecided' ? one : other;
}
