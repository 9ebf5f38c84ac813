import { ofAll, percent, requirementTable, table, title } from '../table';
import type { Tally } from '../tally';
import { adviceGridSize, adviceOutcomes, pairsReadBefore } from './advised';
import { outcomes } from './count';
import { frameRequirements } from './requirements';
import { controlCounts, frameGridSize, scattersMm, scenarios } from './scenarios';

/** The grid of other ways to have moved, as Markdown. */
export const framePrinted = (tally: Tally): string =>
  [frameSummary(tally), outcomeTable(tally), figureTable(tally), adviceTable(tally)].join('\n\n');

export const frameSummary = (tally: Tally): string =>
  [explanation, requirementTable('More ways to have moved', frameRequirements(tally))].join('\n\n');

const explanation =
  `Besides, ${frameGridSize} bodies of 71 points that are read once, with the scope stated where nothing else is said: a pair
of control points at one end, all of the left, or any half of them moved as one by 4–8 mm; the floor bent like a ramp or twisted beyond
a hinge, by 4–8 mm at its end, sills along with it; both ends moved, each its own way; rear rails or pillars off that the scope does
not name; control points that stand badly. Points elsewhere scatter by 1 mm, half of the variance shared by all that has the name of its
part. A control point counts as moved where it was displaced by more than half of the tolerance on some axis. And ${adviceGridSize} sound bodies of which the scope and none to three pairs of
control points are read, chance which; then what \`framewright advise\` names.`.replaceAll('\n', ' ');

function outcomeTable(tally: Tally): string {
  const rows = scattersMm.flatMap((scatter) =>
    scenarios.flatMap((scenario) =>
      [...controlCounts, 'all'].map((count) => [
        `scatter ${scatter}, ${scenario}, ${count === 'all' ? count : `${count} control points`}`,
        ...outcomes.map((outcome) => ofAll(tally.of('frame', scenario, count, scatter, outcome))),
      ]),
    ),
  );
  return title('Bodies read once') + table(['', ...outcomes], rows);
}

function figureTable(tally: Tally): string {
  const rows = scattersMm.flatMap((scatter) =>
    scenarios.map((scenario) => [
      `scatter ${scatter}, ${scenario}`,
      ...['covered', 'beyond 3 u'].map((what) => {
        const count = tally.of('frame figures', scenario, scatter, what);
        return `${percent(count)} of ${count.of}`;
      }),
    ]),
  );
  return (
    title('Figures of the scope where the stage is settled') + table(['', 'covered', 'beyond 3 u'], rows)
  );
}

function adviceTable(tally: Tally): string {
  const rows = scattersMm.flatMap((scatter) =>
    [...pairsReadBefore, 'all'].map((pairs) => [
      `scatter ${scatter}, ${pairs === 'all' ? pairs : `${pairs} pairs read before`}`,
      ...adviceOutcomes.map((outcome) => ofAll(tally.of('advice', pairs, scatter, outcome))),
    ]),
  );
  return title('Sound bodies read as advised') + table(['', ...adviceOutcomes], rows);
}
