import { decisionRules } from './gate';
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

export function requirements(tally: Tally): Requirement[] {
  const passed = (rule: string, truth: string) => tally.of('gate', rule, truth, 'all');
  const atMost = (what: string, count: Count, most: number) => ({ what, count, least: 0, most });
  const atLeast = (what: string, count: Count, least: number) => ({ what, count, least, most: 1 });
  const soundWithGoodBase = sum(
    ['none', 'one', 'two'].map((state) => tally.of('gate', 'simple', 'repaired', 'good base', state)),
  );
  const control = (state: string, scatterMm: number, conclusion: string, count: string | number) =>
    tally.of('control', state, count, scatterMm, conclusion);
  const covered = (quantities: readonly string[], base: string) =>
    sum(quantities.map((quantity) => tally.of('coverage', quantity, 0.5, base)));
  const coverage = (what: string, quantities: readonly string[]) =>
    (['right', 'settled'] as const).map((base) => ({
      what: `${what} covered by its 95 % interval, ${base === 'right' ? 'base right' : 'base settled, right or wrong'}`,
      count: covered(quantities, base),
      least: 0.93,
      most: 0.97,
    }));
  return [
    ...decisionRules.map((rule) =>
      atMost(`out by > 5 mm, passed under \`${rule}\``, passed(rule, 'out by > 5'), 0.001),
    ),
    atMost('out by 1–3 mm, passed under `guarded`', passed('guarded', 'out by 1–3'), 0.05),
    atMost(
      'repaired to build scatter, refused under `simple` (scatter 0.5, u 0.3, eight or more control points, none to two moved)',
      rest(soundWithGoodBase),
      0.03,
    ),
    ...[0.5, 0.8].flatMap((scatterMm) => [
      atLeast(
        `one control point moved, of six or more: named (scatter ${scatterMm})`,
        control('one', scatterMm, 'all moved ones named', 'six or more'),
        0.99,
      ),
      atMost(
        `one control point moved, of six or more: a sound one accused (scatter ${scatterMm})`,
        control('one', scatterMm, 'a sound one accused', 'six or more'),
        0.01,
      ),
    ]),
    ...[6, 8, 12].map((count) =>
      atMost(
        `a whole zone moved, ${count} control points: some of it in a base that is taken as settled`,
        sum([0.5, 0.8].map((scatterMm) => control('zone', scatterMm, 'a moved one missed', count))),
        0.01,
      ),
    ),
    atMost(
      'a whole zone moved, the sound one stated: some of it in the base',
      sum(
        [0.5, 0.8].flatMap((scatterMm) =>
          [4, 6, 8, 12].map((count) => control('stated zone', scatterMm, 'a moved one missed', count)),
        ),
      ),
      0.01,
    ),
    ...coverage('shift', ['shift']),
    ...coverage('twist', ['twist of a part', 'twist at a station']),
    ...coverage('bend, start of the hinge,', ['bend: start of the hinge']),
    ...coverage('spring-back ratio', ['spring-back, one pull', 'spring-back, more pulls']),
    atMost(
      'a bend declared on a straight, yawed rail (scatter 0.5)',
      tally.of('bend declared', 'yawed', 0.5),
      0.05,
    ),
    atMost(
      'a bend declared on a straight, yawed rail (scatter 0.8)',
      tally.of('bend declared', 'yawed', 0.8),
      0.05,
    ),
  ];
}
