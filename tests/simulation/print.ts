import { holdLimits, holdsPastMm } from './bends';
import { conclusions, zoneOutside } from './control';
import { framePrinted, frameSummary } from './frame/print';
import { decisionRules, refusals, truths } from './gate';
import { controlCounts, controlStates, damageKinds, scattersMm, uncertaintiesMm } from './grid';
import { bases, quantities } from './intervals';
import { comparisons, requirements } from './requirements';
import { moreBendSeeds } from './run';
import { ofAll, percent, requirementTable, table, title } from './table';
import type { Tally } from './tally';

/** Everything that was counted, as Markdown. @param command that prints it again */
export function printed(tally: Tally, command: string, jobs: number, seed: number): string {
  return [
    `${jobs} jobs, seed ${seed}: \`${command}\`.`,
    ...explanation,
    requirementTable('What must hold', requirements(tally)),
    requirementTable('Printed for comparison', comparisons(tally)),
    ...decisionRules.map((rule) =>
      gateTable(tally, rule, [...scatterRows, ...controlRows, ...damageRows, ...remainderRows]),
    ),
    refusalTable(tally),
    controlTable(tally, scattersMm),
    coverageTable(tally),
    bendTable(tally),
    conditionTable(tally),
    framePrinted(tally),
  ].join('\n\n');
}

/** What stands in a page that people read: the requirements and the cells that say most. @param all where the rest is */
export function summary(tally: Tally, command: string, jobs: number, seed: number, all: string): string {
  return [
    `${jobs} jobs, seed ${seed}: \`${command}\`. All cells: \`${all}\`.`,
    ...explanation,
    requirementTable('What must hold', requirements(tally)),
    requirementTable('Printed for comparison', comparisons(tally)),
    ...decisionRules.map((rule) => gateTable(tally, rule, scatterRows.slice(0, scatterRows.length / 2))),
    controlTable(tally, scattersMm.slice(0, 1)),
    frameSummary(tally),
  ].join('\n\n');
}

const explanation = [
  `An invented body of 53 points; a job reads 4, 6, 8 or 12 control points and 37 others, and is judged on 20. Each combination of
build scatter (0.5, 0.8 mm; the chassis file says 0.5), instrument (u 0.3, 0.5 mm), control points (none, one or two moved by 6–30 mm
in any direction; the whole front zone moved and turned with half of them; the same with the sound zone stated), damage (none, or
twelve kinds, 4–15 or 15–60 mm) and end (repaired or just inside, out by 0–1, 1–3, 3–5, 5–15 mm) is one job: read as received, pulled
one to three times with a reading under load and after release, read whole in a new set-up, signed.`,
  `What is true: a point's deviation is where its metal stands, build scatter included, less its reference, in the frame in which the
body was built. A part's shift and twist are the same figures taken from where its metal truly stands. Recovery and spring-back ratio
are those of the same pulls without reading error. A moved control point counts where it moved by twice the tolerance on some axis; one
that did so only in length stands apart. A base is settled where the stage is not provisional, and right where none of its points has
moved.`,
  `Rails bend over a hinge of 10–40 mm and curve on a little beyond it, which no broken line does. So the start of a bend has two truths, and
both are counted against the interval that is stated: where the metal begins to bend, which that interval is about, and where its
straight courses before and just beyond the hinge would meet, the middle of the hinge, which the fit looks for. One run declares too few
bends to tell 93 from 95 %: bent rails are taken from the ${moreBendSeeds} seeds that follow as well.`,
  `A whole zone that moved may leave every control point that is read where some placement of the body brings it within its tolerance: a
little pitch or yaw takes the move up. By the tolerance's own meaning those points are of one sound body, which then stands turned
against the frame that it was built in. The share of all zones counts them as missed; the row after it leaves them out, and counts the zones
that no placement brings within tolerance.`,
].map((text) => text.replaceAll('\n', ' '));

type Row = readonly [name: string, group: readonly (string | number)[]];

const allRow: Row = ['all', ['all']];
const scatterRows: readonly Row[] = scattersMm.flatMap((scatter) =>
  uncertaintiesMm.flatMap((u) =>
    controlCounts.map(
      (count): Row => [`scatter ${scatter}, u ${u}, ${count} control points`, ['cell', scatter, u, count]],
    ),
  ),
);
const controlRows: readonly Row[] = controlCounts.flatMap((count) =>
  controlStates.map((state): Row => [`${count} control points, moved: ${state}`, ['control', count, state]]),
);
const damageRows: readonly Row[] = ['none', ...damageKinds].map((kind) => [
  `damage: ${kind}`,
  ['damage', kind],
]);
const remainderRows: readonly Row[] = ['field', 'part', 'point'].map((where) => [
  `left over in one ${where}`,
  ['remainder', where],
]);

function gateTable(tally: Tally, rule: string, groups: readonly Row[]): string {
  const rows = [allRow, ...groups].map(([name, group]) => [
    name,
    ...truths.map((truth) => ofAll(tally.of('gate', rule, truth, ...group))),
  ]);
  return (
    title(`Jobs passed under \`${rule}\`, of all, by what the worst judged point truly is (mm)`) +
    table(['', ...truths], rows)
  );
}

function refusalTable(tally: Tally): string {
  const rows = [allRow, ...scatterRows, ...controlRows].map(([name, group]) => [
    name,
    ...decisionRules.flatMap((rule) =>
      refusals.map((why) => ofAll(tally.of('refused', rule, 'repaired', why, ...group))),
    ),
  ]);
  return (
    title('Jobs repaired to build scatter that were refused, by why') +
    table(['', ...decisionRules.flatMap((rule) => refusals.map((why) => `\`${rule}\`: ${why}`))], rows)
  );
}

function controlTable(tally: Tally, scatters: readonly number[]): string {
  const states = controlStates.flatMap((state) =>
    state === 'one' ? [state, 'one, less on each axis'] : state === 'zone' ? [state, zoneOutside] : [state],
  );
  const rows = scatters.flatMap((scatter) =>
    states.flatMap((state) =>
      controlCounts.map((count) => [
        `scatter ${scatter}, moved: ${state}, ${count} control points`,
        ...conclusions.map((conclusion) => ofAll(tally.of('control', state, count, scatter, conclusion))),
      ]),
    ),
  );
  return title('Control points as received') + table(['', ...conclusions], rows);
}

function coverageTable(tally: Tally): string {
  const head = scattersMm.flatMap((scatter) => bases.map((base) => `scatter ${scatter}, base ${base}`));
  const rows = quantities.flatMap((quantity) =>
    [[], ...controlCounts.map((count) => [count]), ...controlStates.map((state) => [state])].map((group) => [
      group.length === 0
        ? quantity
        : typeof group[0] === 'number'
          ? `${quantity}, ${group[0]} control points`
          : `${quantity}, moved: ${group[0]}`,
      ...scattersMm.flatMap((scatter) =>
        bases.map((base) => {
          const count = tally.of('coverage', quantity, scatter, base, ...group);
          return count.of === 0 ? '–' : `${percent(count)} of ${count.of}`;
        }),
      ),
    ]),
  );
  return title('Truth covered by 95 % intervals, stages with a settled base') + table(['', ...head], rows);
}

function bendTable(tally: Tally): string {
  const kinds = ['bend', 'several', 'none'];
  const rows = [
    ...['small', 'large'].flatMap((size) =>
      kinds.map((kind) => [
        `${size} bend: ${kind === 'bend' ? 'declared' : kind === 'none' ? 'no bend declared' : 'bent in more than one place'}`,
        ...scattersMm.map((scatter) => ofAll(tally.of('bent rail', size, scatter, kind))),
      ]),
    ),
    ...holdLimits.flatMap((limit) =>
      holdsPastMm.map((pastMm) => [
        `declared, ${limit} ${pastMm === 0 ? 'on straight metal' : `no more than ${pastMm} mm into bent metal`}`,
        ...scattersMm.map((scatter) => ofAll(tally.of('hold', limit, pastMm, scatter))),
      ]),
    ),
    ...['yawed', 'undamaged'].map((rail) => [
      `declared on a straight, ${rail} rail`,
      ...scattersMm.map((scatter) => ofAll(tally.of('bend declared', rail, scatter))),
    ]),
  ];
  return title('Bends of rails') + table(['', ...scattersMm.map((scatter) => `scatter ${scatter}`)], rows);
}

function conditionTable(tally: Tally): string {
  const rows = ['none', 'mash', 'sidesway', 'sag', 'high', 'diamond', 'twist'].map((kind) => [
    kind === 'none' ? 'no damage: any condition named' : `${kind} named`,
    ofAll(tally.of('condition', kind)),
  ]);
  return title('Conditions of the body') + table(['', 'jobs'], rows);
}
