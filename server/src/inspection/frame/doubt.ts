import { chiSquareQuantile } from '../../geometry/distributions';
import type { FramePoint, WitnessGroup } from './frame-points';
import { type JoinedFit, judgedControl } from './joined';
import type { Standing, Weighing } from './witnesses';

/**
 * Whether a base of four or five control points is to be doubted (server/README.md, "Doubt"). So few check each other little, and
 * what stands around them says more; from six on the stories say it better.
 */
interface Doubt {
  /** Every group of witnesses stands off by the base. */
  readonly allOff: boolean;
  /** Control points that stand off by everything else. */
  readonly offIds: readonly string[];
}

const fewest = 2;
const mostControlPoints = 5;
const clearlyOff = 0.999;

/** Null where there is no doubt. */
export function doubted(
  base: readonly FramePoint[],
  groups: readonly WitnessGroup[],
  weighing: Weighing,
  joined: JoinedFit,
): Doubt | null {
  if (base.length > mostControlPoints || groups.length < fewest) return null;
  // by the stated scatter: a base that moved makes the witnesses contradict each other, which would raise it
  const allOff = groups.every((group, i) => standsOff(group, weighing.byBase[i].plain));
  const offIds = base.filter((point) => isOffByOthers(joined, point)).map(({ id }) => id);
  return allOff || offIds.length > 0 ? { allOff, offIds } : null;
}

/** More than chance, and over its tolerance on some axis. */
export function standsOff({ points }: WitnessGroup, { squares, off }: Standing): boolean {
  if (!(squares > chiSquareQuantile(clearlyOff, 3))) return false;
  return off.some((each, k) => Math.abs(each) > meanHalf(points, k as 0 | 1 | 2));
}

const meanHalf = (points: readonly FramePoint[], k: 0 | 1 | 2): number =>
  points.reduce((total, { half }) => total + half[k], 0) / points.length;

/** By more than its tolerance and three standard uncertainties, what sound cars scatter counted in. */
function isOffByOthers(joined: JoinedFit, point: FramePoint): boolean {
  const judged = judgedControl(joined, point);
  if (judged === null) return false;
  return judged.off.some((each, k) => {
    const u = Math.sqrt(point.variance + judged.shared[k][k]);
    return Math.abs(each) > Math.max(point.half[k], 3 * u);
  });
}
