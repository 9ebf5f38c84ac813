import type { JudgedPoint } from '../inspection/alignment/points';
import { beyond } from '../inspection/alignment/verdict';
import { axes } from '../model/chassis';
import type { Unit } from '../model/units';
import { certaintyText } from './wording';

/** A point past its limit, and the axis on which it is farthest past it. Vehicle axes, mm. */
export interface Worst {
  readonly judged: JudgedPoint;
  readonly axis: 0 | 1 | 2;
  readonly deviation: number;
  readonly excessMm: number;
}

/** The point farthest past its limit; null where none is past it. */
export function worstPoint(points: readonly JudgedPoint[]): Worst | null {
  let worst: Worst | null = null;
  for (const judged of points) {
    for (const axis of axes) {
      const deviation = judged.deviation[axis];
      if (deviation === null || !beyond(deviation, judged.point.limits[axis])) continue;
      const [low, high] = judged.point.limits[axis];
      const excessMm = deviation > 0 ? deviation - high : low - deviation;
      if (worst === null || excessMm > worst.excessMm) worst = { judged, axis, deviation, excessMm };
    }
  }
  return worst;
}

/** `, ±1.1 (95 %)`; nothing where it is not known. */
export function worstCertainty({ judged, axis }: Worst, unit: Unit): string {
  const uncertaintyMm = judged.uncertainty[axis];
  return uncertaintyMm === null ? '' : `, ${certaintyText(uncertaintyMm, unit)} (95 %)`;
}
