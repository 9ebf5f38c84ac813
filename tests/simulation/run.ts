import { inspected } from '../../server/src/inspection/inspect';
import { chassis } from './body';
import { countControl } from './control';
import { countCoverage } from './coverage';
import { countGate } from './gate';
import { cellAt } from './grid';
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
