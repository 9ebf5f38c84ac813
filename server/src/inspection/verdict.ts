import { normalCdf } from '../geometry/distributions';
import type { Limits } from '../model/chassis';

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

/** The probability that the true deviation lies within the limits; null where it cannot be judged. */
export function conformity({
  deviationMm: d,
  uncertaintyMm: u,
  limits: [low, high],
}: Judgement): number | null {
  if (d === null || u === null) return null;
  if (u === 0) return d >= low && d <= high ? 1 : 0;
  return normalCdf((high - d) / u) - normalCdf((low - d) / u);
}

/** Whether a deviation is past its limit, whatever its certainty. */
export const beyond = (d: number, [low, high]: Limits): boolean => d < low || d > high;

/** @param chances the conformity of each judgement */
export function verdictOf(
  judgements: readonly Judgement[],
  chances: readonly (number | null)[] = judgements.map(conformity),
): Verdict {
  const outside = judgements.some(
    ({ deviationMm, limits }, i) =>
      deviationMm !== null && chances[i] !== null && chances[i] <= 0.05 && beyond(deviationMm, limits),
  );
  if (outside) return 'outside';
  if (chances.some((chance) => chance === null)) return 'unjudged';
  return chances.every((chance) => chance !== null && chance >= 0.95) ? 'within' : 'undecided';
}
