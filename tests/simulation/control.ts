import type { Alignment } from '../../server/src/inspection/frame/alignment';
import type { Inspection } from '../../server/src/inspection/job/inspect';
import { chassis, toleranceMm } from './body';
import type { TrueCar } from './car';
import type { SimulatedJob } from './job';
import { fitsWithin } from './placement';
import type { Tally } from './tally';

/** What was concluded about the control points: each of these is counted over all jobs of a cell. */
export const conclusions = [
  'all moved ones named',
  'a moved one missed',
  'a sound one accused',
  'ambiguous',
  'inconsistent',
  'too few',
] as const;
type Conclusion = (typeof conclusions)[number];

/** An accusation counts only where the stage is settled: an ambiguous one names nobody. */
function conclusionsOf(alignment: Alignment, movedIds: ReadonlySet<string>): ReadonlySet<Conclusion> {
  const said = new Set(alignment.faults.map((fault) => fault.kind));
  if (alignment.base === null) return new Set(['too few']);
  if (said.has('ambiguous')) return new Set(['ambiguous']);
  if (said.has('inconsistent')) return new Set(['inconsistent']);
  const named = new Set(alignment.movedIds);
  const result = new Set<Conclusion>();
  if ([...movedIds].every((id) => named.has(id) || !alignment.baseIds.includes(id)))
    result.add('all moved ones named');
  else result.add('a moved one missed');
  if ([...named].some((id) => !movedIds.has(id))) result.add('a sound one accused');
  return result;
}

/** The control points of the first stage, as received. */
export function countControl(tally: Tally, { cell, car }: SimulatedJob, { stages }: Inspection): void {
  const alignment = stages[0].alignment;
  if (alignment === null) throw new Error('The first stage reads control points.');
  const reached = conclusionsOf(alignment, new Set(car.movedControl.keys()));
  // a tolerance holds on each axis: a move across the axes may be less than twice the tolerance on every one
  const clearly =
    cell.controlState !== 'one' ||
    [...car.movedControl.values()].some((move) => move.some((each) => Math.abs(each) >= 2 * toleranceMm));
  const state =
    cell.controlState === 'one' ? (clearly ? 'one' : 'one, less on each axis') : cell.controlState;
  const states: string[] = [state, ...(state === 'zone' && leftTolerance(car) ? [zoneOutside] : [])];
  for (const conclusion of conclusions)
    for (const each of states) {
      const hit = reached.has(conclusion);
      tally.count(['control', each, cell.controlCount, cell.scatterMm, conclusion], hit);
      if (cell.controlCount >= 6)
        tally.count(['control', each, 'six or more', cell.scatterMm, conclusion], hit);
    }
}

/**
 * Of the zones that moved those of which no placement of the body brings all control points that are read within tolerance. Where one does,
 * they are, by the tolerance's own meaning, points of one sound body, which stands a little turned against the frame that it was built in.
 */
export const zoneOutside = 'zone, outside tolerance however placed';

function leftTolerance({ received }: TrueCar): boolean {
  const control = [...received].filter(([id]) => chassis.points.get(id)!.base);
  return !fitsWithin(
    control.map(([, position]) => position),
    control.map(([id]) => chassis.points.get(id)!.reference),
    toleranceMm,
  );
}
