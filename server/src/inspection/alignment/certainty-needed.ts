import { type Judgement, verdictOf } from './verdict';

/** No instrument of the trade is as certain, mm, and at 95 % it would be told as ±0.1 mm at best: a deviation this near its limit stands on it. */
const attainableMm = 0.05;

/**
 * The largest standard uncertainty, mm, with which an undecided judgement would be decided either way if its deviation stays what
 * it is; null where it stands on its limit, and no certainty decides it.
 */
export function uncertaintyThatDecides(judgement: Judgement): number | null {
  const decides = (uncertaintyMm: number) => verdictOf([{ ...judgement, uncertaintyMm }]) !== 'undecided';
  if (judgement.uncertaintyMm === null || judgement.deviationMm === null) return null;
  let low = 0;
  let high = judgement.uncertaintyMm;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (decides(middle)) low = middle;
    else high = middle;
  }
  return low > attainableMm ? low : null;
}
