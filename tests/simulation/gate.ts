import { type SignOffState, signOffState } from '../../server/src/inspection/gate/sign-off';
import type { Inspection } from '../../server/src/inspection/job/inspect';
import type { SimulatedJob } from './job';
import type { Tally } from './tally';

/** What the worst judged point truly is, from where the metal stands and not from what the cell asked for. */
export const truths = [
  'repaired',
  'just inside',
  'out by 0–1',
  'out by 1–3',
  'out by 3–5',
  'out by > 5',
] as const;
export type Truth = (typeof truths)[number];

/** Sound: `repaired` where nothing but build scatter is left, `just inside` where damage is left that the tolerance allows. */
export function truthOf({ cell, car }: SimulatedJob): Truth {
  const excess = car.worstExcessMm;
  if (excess > 5) return 'out by > 5';
  if (excess > 3) return 'out by 3–5';
  if (excess > 1) return 'out by 1–3';
  if (excess > 0) return 'out by 0–1';
  const leftOver = car.field !== null && !(cell.outcome === 'sound' && cell.fullyRepaired);
  return leftOver ? 'just inside' : 'repaired';
}

export const decisionRules = ['simple', 'guarded'] as const;

/** Why a sound job was refused. */
export const refusals = ['outside', 'undecided', 'no settled base'] as const;

function refusalOf(state: SignOffState): (typeof refusals)[number] {
  if (state.outside.length > 0) return 'outside';
  const unsettled = state.undecided.some(({ why }) => why === 'provisional' || why === 'unjudged');
  return unsettled || state.unmeasured.length > 0 ? 'no settled base' : 'undecided';
}

/** The sign-off of a job under both rules, counted by cell. */
export function countGate(tally: Tally, simulated: SimulatedJob, inspection: Inspection): void {
  const { cell } = simulated;
  const truth = truthOf(simulated);
  const groups = [
    ['all'],
    ['cell', cell.scatterMm, cell.uncertaintyMm, cell.controlCount],
    ['control', cell.controlCount, cell.controlState],
    ['damage', cell.damage?.kind ?? 'none'],
    ['remainder', cell.remainder],
  ];
  for (const decisionRule of decisionRules) {
    const state = signOffState(inspection, { decisionRule });
    for (const group of groups) tally.count(['gate', decisionRule, truth, ...group], state.passes === true);
    if (cell.scatterMm === 0.5 && cell.uncertaintyMm === 0.3 && cell.controlCount >= 8)
      tally.count(['gate', decisionRule, truth, 'good base', cell.controlState], state.passes === true);
    if (truth !== 'repaired' && truth !== 'just inside') continue;
    for (const why of refusals)
      for (const group of groups)
        tally.count(
          ['refused', decisionRule, truth, why, ...group],
          state.passes !== true && refusalOf(state) === why,
        );
  }
}
