import type { Stage } from '../../server/src/inspection/job/stage';
import type { SimulatedJob } from './job';
import type { Tally } from './tally';

/**
 * Whether 95 % intervals (1.96 standard uncertainties; of a bend, the one that is stated) hold the truth, in stages whose base is
 * settled. The truth of a part is the same figure taken from where its metal truly stands, build scatter included; of a pull, from how its
 * points truly moved.
 */
const factor95 = 1.96;

/** Right: settled, and no control point in it has moved. */
export const bases = ['right', 'settled'] as const;

export const quantities = [
  'shift',
  'twist of a part',
  'twist at a station',
  'bend: start of the hinge',
  'bend: corner',
  'bend: corner, by h ± 1.96 u(h)',
  'recovery of a pull',
  'spring-back ratio, one pull',
  'spring-back ratio, more pulls',
] as const;
export type Quantity = (typeof quantities)[number];

/** Counts whether an interval holds the truth. */
export type Covered = (quantity: Quantity, [from, to]: readonly [number, number], truth: number) => void;

export const about = (found: number, u: number): readonly [number, number] => [
  found - factor95 * u,
  found + factor95 * u,
];

/** @param stage the first one, whose base all the others share */
export function coverage(tally: Tally, { cell, car }: SimulatedJob, { alignment }: Stage): Covered {
  const isRight = !alignment?.baseIds.some((id) => car.movedControl.has(id));
  return (quantity, [from, to], truth) => {
    const hit = from <= truth && truth <= to;
    for (const base of bases) {
      if (base === 'right' && !isRight) continue;
      tally.count(['coverage', quantity, cell.scatterMm, base], hit);
      tally.count(['coverage', quantity, cell.scatterMm, base, cell.controlCount], hit);
      tally.count(['coverage', quantity, cell.scatterMm, base, cell.controlState], hit);
    }
  };
}
