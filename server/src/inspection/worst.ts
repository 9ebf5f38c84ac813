import { axes } from '../model/chassis';
import type { JudgedPoint } from './points';
import { beyond } from './verdict';

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
