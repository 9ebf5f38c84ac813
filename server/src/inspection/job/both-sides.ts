import { axes } from '../../model/chassis';
import { mirroredId } from '../../model/names';
import { halfBand } from '../alignment/control-points';
import type { JudgedPoint } from '../alignment/points';
import { suspiciousMm } from './gross';

/**
 * The point on the other side that is off by the same large amount, mirrored: over 100 mm, and alike within its tolerance or 3 u of the
 * difference. A reading goes wrong on one side; a reference that was typed once is wrong on both. Null where there is none. The limits
 * are chosen.
 * @param points all of the stage
 */
export function offOnBothSides(judged: JudgedPoint, points: readonly JudgedPoint[]): JudgedPoint | null {
  // hardly a point is, so nobody is looked for
  if (offMm(judged) <= suspiciousMm) return null;
  const otherId = mirroredId(judged.id);
  const other = otherId === null ? undefined : points.find(({ id }) => id === otherId);
  if (other === undefined || offMm(other) <= suspiciousMm) return null;
  const isAlike = axes.every((k) => {
    const [one, two] = [judged.deviation[k], other.deviation[k]];
    if (one === null || two === null) return false;
    const apart = k === 1 ? one + two : one - two;
    const u = Math.hypot(judged.uncertainty[k] ?? 0, other.uncertainty[k] ?? 0);
    return Math.abs(apart) <= Math.max(halfBand(judged.point.limits[k]), 3 * u);
  });
  return isAlike ? other : null;
}

const offMm = ({ deviation }: JudgedPoint): number => Math.hypot(...deviation.map((mm) => mm ?? 0));
