import { distance } from '../../../geometry/vector';
import type { Chassis, Point } from '../../../model/chassis';

/** What a step is ordered by. */
interface Ordered {
  /** Of its hurt points the farthest from the base, mm. */
  readonly farMm: number;
  /** When the newest kink or buckle on it was seen: position in the timeline; −1 for none. */
  readonly buckledAt: number;
  /** The way that it mostly has to go: 0 length, 1 width, 2 height. */
  readonly mainAxis: number;
}

/** Steps that differ by less than this in their distance from the base are as far out as each other. Chosen. */
const asFarMm = 300;

/**
 * Last in, first out: what stands farthest from the base comes first; of what stands as far, what buckled last; of that, what goes along
 * the car before what goes sideways, and that before what goes up or down. Common practice in the trade.
 */
export function inOrder<Step extends Ordered>(steps: readonly Step[]): Step[] {
  const sorted = [...steps].sort((a, b) => b.farMm - a.farMm);
  const runs: Step[][] = [];
  for (const step of sorted) {
    const run = runs.at(-1);
    if (run && run[0].farMm - step.farMm < asFarMm) run.push(step);
    else runs.push([step]);
  }
  return runs.flatMap((run) =>
    run.sort((a, b) => b.buckledAt - a.buckledAt || a.mainAxis - b.mainAxis || b.farMm - a.farMm),
  );
}

/** How far the farthest of some points stands from the control point nearest to it, mm. */
export function farthestFromBase(
  points: readonly Point[],
  { points: all }: Chassis,
  baseIds: ReadonlySet<string>,
): number {
  const base = [...all.values()].filter(({ id }) => baseIds.has(id));
  if (base.length === 0) return 0;
  const fromBase = ({ reference }: Point) =>
    Math.min(...base.map((each) => distance(each.reference, reference)));
  return Math.max(0, ...points.map(fromBase));
}
