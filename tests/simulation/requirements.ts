import { zoneOutside } from './control';
import { decisionRules } from './gate';
import { scattersMm } from './grid';
import type { bases, Quantity } from './intervals';
import type { Count, Tally } from './tally';

/** What must hold, and whether it does. Nothing in the simulation is adjusted to these. */
export interface Requirement {
  readonly what: string;
  readonly count: Count;
  /** Share of the cases, least and most. */
  readonly least: number;
  readonly most: number;
}

export const holds = ({ count, least, most }: Requirement): boolean | null =>
  count.of === 0 ? null : count.hits >= least * count.of && count.hits <= most * count.of;

const sum = (counts: readonly Count[]): Count => ({
  hits: counts.reduce((total, { hits }) => total + hits, 0),
  of: counts.reduce((total, { of }) => total + of, 0),
});
const rest = ({ hits, of }: Count): Count => ({ hits: of - hits, of });

const atMost = (what: string, count: Count, most: number): Requirement => ({ what, count, least: 0, most });
const atLeast = (what: string, count: Count, least: number): Requirement => ({ what, count, least, most: 1 });

/** The scatter that the chassis file states, and one that it does not know of. */
const [statedMm, moreMm] = scattersMm;

export function requirements(tally: Tally): Requirement[] {
  const passed = (rule: string, truth: string) => tally.of('gate', rule, truth, 'all');
  const soundWithGoodBase = sum(
    ['none', 'one', 'two'].map((state) => tally.of('gate', 'simple', 'repaired', 'good base', state)),
  );
  return [
    ...decisionRules.map((rule) =>
      atMost(`out by > 5 mm, passed under \`${rule}\``, passed(rule, 'out by > 5'), 0.001),
    ),
    atMost('out by 1–3 mm, passed under `guarded`', passed('guarded', 'out by 1–3'), 0.05),
    atMost(
      'repaired to build scatter, refused under `simple` (u 0.3, eight or more control points, none to two moved)',
      rest(soundWithGoodBase),
      0.03,
    ),
    ...ofControlPoints(tally, statedMm),
    ...intervals(tally, statedMm)
      .filter(({ asked }) => asked)
      .map(({ right }) => right),
    yawed(tally, statedMm),
  ];
}

/** The same where the build scatters more than stated, and figures that nothing is asked of: to compare. */
export function comparisons(tally: Tally): Requirement[] {
  return [
    atMost('out by 1–3 mm, passed under `simple`', tally.of('gate', 'simple', 'out by 1–3', 'all'), 0.05),
    ...[statedMm, moreMm].map((scatterMm) =>
      atMost(
        `a whole zone moved, 4 control points in one plane, of which \`base/unchecked\` is said: some of it in a base that is taken as settled (scatter ${scatterMm})`,
        tally.of('control', 'zone', 4, scatterMm, 'a moved one missed'),
        0.01,
      ),
    ),
    ...ofControlPoints(tally, moreMm),
    ...intervals(tally, statedMm).flatMap(({ asked, right, settled }) =>
      asked ? [settled] : [right, settled],
    ),
    ...intervals(tally, moreMm).map(({ right }) => right),
    yawed(tally, moreMm),
  ];
}

function ofControlPoints(tally: Tally, scatterMm: number): Requirement[] {
  const control = (state: string, conclusion: string, count: string | number) =>
    tally.of('control', state, count, scatterMm, conclusion);
  const scatter = `(scatter ${scatterMm})`;
  return [
    atLeast(
      `one control point moved, of six or more: named ${scatter}`,
      control('one', 'all moved ones named', 'six or more'),
      0.99,
    ),
    atMost(
      `one control point moved, of six or more: a sound one accused ${scatter}`,
      control('one', 'a sound one accused', 'six or more'),
      0.01,
    ),
    ...[6, 8, 12].flatMap((count) => [
      atMost(
        `a whole zone moved, ${count} control points: some of it in a base that is taken as settled ${scatter}`,
        control('zone', 'a moved one missed', count),
        0.01,
      ),
      atMost(
        `the same, of those that stand outside tolerance however the body is placed, ${count} control points ${scatter}`,
        control(zoneOutside, 'a moved one missed', count),
        0.01,
      ),
    ]),
    atMost(
      `a whole zone moved, the sound one stated: some of it in the base ${scatter}`,
      sum([4, 6, 8, 12].map((count) => control('stated zone', 'a moved one missed', count))),
      0.01,
    ),
  ];
}

const yawed = (tally: Tally, scatterMm: number): Requirement =>
  atMost(
    `a bend declared on a straight, yawed rail (scatter ${scatterMm})`,
    tally.of('bend declared', 'yawed', scatterMm),
    0.05,
  );

/** What is asked of intervals is asked of bases that are right; of the last two nothing is asked. */
function intervals(tally: Tally, scatterMm: number) {
  const row = (what: string, quantities: readonly Quantity[], base: (typeof bases)[number]): Requirement => ({
    what: `${what} covered by its 95 % interval, ${base === 'right' ? 'base right' : 'base settled, right or wrong'} (scatter ${scatterMm})`,
    count: sum(quantities.map((quantity) => tally.of('coverage', quantity, scatterMm, base))),
    least: 0.93,
    most: 0.97,
  });
  const rows: [what: string, quantities: readonly Quantity[], asked: boolean][] = [
    ['shift', ['shift'], true],
    ['twist', ['twist of a part', 'twist at a station'], true],
    ['bend start (where the metal begins to bend)', ['bend: start of the hinge'], true],
    ['bend start (the corner of its straight courses)', ['bend: corner'], true],
    ['recovery of a pull', ['recovery of a pull'], true],
    ['corner of a bend, by h ± 1.96 u(h) alone,', ['bend: corner, by h ± 1.96 u(h)'], false],
    ['spring-back ratio', ['spring-back ratio, one pull', 'spring-back ratio, more pulls'], false],
  ];
  return rows.map(([what, quantities, asked]) => ({
    asked,
    right: row(what, quantities, 'right'),
    settled: row(what, quantities, 'settled'),
  }));
}
