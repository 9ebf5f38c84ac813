import { inspected } from '../../server/src/inspection/job/inspect';
import { countBends, hasBentRail } from './bends';
import { chassis } from './body';
import { countControl } from './control';
import { countCoverage } from './coverage';
import { countGate } from './gate';
import { cellAt } from './grid';
import { coverage } from './intervals';
import { simulatedJob } from './job';
import { Tally } from './tally';

/** Simulates the jobs of some cells of the grid and counts what the program made of them. */
export function tallied(cells: Iterable<number>, seed: number): Tally {
  const tally = new Tally();
  for (const index of cells) {
    const simulated = simulatedJob(cellAt(index), seed);
    const inspection = inspected(simulated.job, chassis);
    countGate(tally, simulated, inspection);
    countControl(tally, simulated, inspection);
    countCoverage(tally, simulated, inspection);
  }
  return tally;
}

/** How many more seeds bent rails are taken from: of one, the share of bends that an interval covers is uncertain by 2 % itself. */
export const moreBendSeeds = 7;

/** The cars as received of those cells that have a rail which is bent and nothing else, of the seeds that follow. */
export function talliedBends(cells: Iterable<number>, seed: number): Tally {
  const tally = new Tally();
  for (const index of cells) {
    const cell = cellAt(index);
    if (!hasBentRail(cell)) continue;
    for (let more = 1; more <= moreBendSeeds; more++) {
      const simulated = simulatedJob(cell, seed + more);
      const job = { ...simulated.job, timeline: simulated.job.timeline.slice(0, 1), signOff: null };
      const [first] = inspected(job, chassis).stages;
      if (!first.provisional) countBends(tally, coverage(tally, simulated, first), simulated, first);
    }
  }
  return tally;
}
