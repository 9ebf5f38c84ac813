import type { Requirement } from '../requirements';
import { ofAll, percent, requirementTable, table, title } from '../table';
import type { Tally } from '../tally';
import { carCounts, statings } from './references';
import { cellName, scatterCells } from './scatters';

const kinds = ['build', 'build-elsewhere', 'instrument'] as const;

/** What is asked of references from cars and of measured scatter. */
export const carRequirements = (tally: Tally): Requirement[] => [
  ...carCounts.map((cars) => ({
    what: `a new point from ${cars === 1 ? 'one sound car' : `${cars} sound cars`}, build as stated: covered by its 95 % interval`,
    count: tally.of('reference covered', 'true', cars),
    least: 0.93,
    most: cars < 5 ? 1 : 0.97,
  })),
  ...kinds.map((of) => ({
    what: `\`scatter\` over 40 jobs: true ${of} covered by its 95 % interval`,
    count: tally.of('scatter covered', of),
    least: 0.93,
    most: 0.97,
  })),
];

export const carsPrinted = (tally: Tally): string =>
  [
    requirementTable('Reference points and scatter', carRequirements(tally)),
    referenceTable(tally),
    scatterTable(tally),
  ].join('\n\n');

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

function scatterTable(tally: Tally): string {
  const rows = scatterCells.map((cell) => [
    cellName(cell),
    ...kinds.map((of) => {
      const count = tally.of('scatter covered', of, cellName(cell));
      return `${percent(count)} of ${ofAll(count).replace(/.* \/ /, '')}`;
    }),
  ]);
  return title('Repositories') + table(['true', ...kinds], rows);
}
