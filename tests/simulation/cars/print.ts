import type { Requirement } from '../requirements';
import { ofAll, percent, requirementTable, table, title } from '../table';
import type { Count, Tally } from '../tally';
import { wilsonInterval } from '../wilson';
import { carCounts, statings } from './references';
import { cellName, scatterCells } from './scatters';

const kinds = ['build', 'build-elsewhere', 'instrument'] as const;

/** What is asked of references from cars. */
export const carRequirements = (tally: Tally): Requirement[] =>
  carCounts.map((cars) => ({
    what: `a new point from ${cars === 1 ? 'one sound car' : `${cars} sound cars`}, build as stated: covered by its 95 % interval`,
    count: tally.of('reference covered', 'true', cars),
    least: 0.93,
    most: cars < 5 ? 1 : 0.97,
  }));

export const carsPrinted = (tally: Tally): string =>
  [requirementTable('Reference points', carRequirements(tally)), referenceTable(tally)].join('\n\n');

function referenceTable(tally: Tally): string {
  const rows = statings.flatMap((stating) =>
    [0.3, 0.5, 1].map((scatterMm) => [
      `${stating === 'true' ? 'stated as it is' : 'file states 0.5 and 1'}, true scatter ${scatterMm}`,
      ...carCounts.map((cars) => percent(tally.of('reference covered', stating, cars, scatterMm))),
      percent(tally.of('a sound car gives references', stating, scatterMm)),
    ]),
  );
  const head = [
    'covered',
    ...carCounts.map((cars) => `${cars} ${cars === 1 ? 'car' : 'cars'}`),
    'sound cars not refused',
  ];
  return title('New points') + table(head, rows);
}

/** Asked of `scatter`: so often the true figure is to lie in its 95 % interval. */
const [least, most] = [0.93, 0.97];

/** Of few repositories a share is known to some percent only: it is held against what is asked by its own interval. */
function verdict(count: Count): string {
  const [low, high] = wilsonInterval(count);
  if (high < least || low > most) return '**does not hold**';
  return low >= least && high <= most ? 'holds' : 'agrees; more are needed to tell';
}

/** How often what `scatter` measures over 40 jobs has the true figure in its 95 % interval. */
export function scattersPrinted(tally: Tally): string {
  const shown = (count: Count) => {
    const [low, high] = wilsonInterval(count).map((each) => (100 * each).toFixed(1));
    return `${ofAll(count)}, ${percent(count)} (${low}–${high})`;
  };
  const rows = scatterCells.map((cell) => [
    cellName(cell),
    ...kinds.map((of) => shown(tally.of('scatter covered', of, cellName(cell)))),
  ]);
  const all = kinds.map((of) => tally.of('scatter covered', of));
  const asked = `asked: ${100 * least}–${100 * most} %`;
  return (
    title(
      'Measured scatter: repositories whose true figure is covered, of all, with the 95 % interval of that share',
    ) + table(['true', ...kinds], [...rows, ['all', ...all.map(shown)], [asked, ...all.map(verdict)]])
  );
}
