import { conformity, type Judgement, verdictOf } from './verdict';

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

/** How far back something must come, along its axis and with its sign, mm. */
export interface MoveBack {
  /** To its limit: 0 where it is inside. */
  readonly leastMm: number;
  /** Until it is within for certain. */
  readonly certainMm: number;
}

/**
 * The move that takes a deviation inside its limit by the figure, |d| − T, and the one that does so for certain: |d| − T + 1.64 u where the
 * other limit is far (JCGM 106:2012, 95 % of one limit). Null where it is so uncertain that it would be within nowhere.
 */
export function moveBack({ deviationMm: d, uncertaintyMm, limits }: Judgement): MoveBack | null {
  if (d === null || uncertaintyMm === null) return null;
  const [low, high] = limits;
  const middle = (low + high) / 2;
  const isWithin = (deviationMm: number) => (conformity({ deviationMm, uncertaintyMm, limits }) ?? 0) >= 0.95;
  if (!isWithin(middle)) return null;
  let [far, near] = [d > middle ? Math.min(d, high) : Math.max(d, low), middle];
  const least = far - d;
  for (let i = 0; i < 50; i++) {
    const between = (far + near) / 2;
    if (isWithin(between)) near = between;
    else far = between;
  }
  return { leastMm: least + 0, certainMm: near - d };
}
