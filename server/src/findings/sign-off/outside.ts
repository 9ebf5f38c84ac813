import { type JudgedPoint, judgementsOf } from '../../inspection/alignment/points';
import { type Axis, axes } from '../../model/chassis';
import { lengthText, type Unit } from '../../model/units';
import { limitPhrase, limitsText, offPhrase, shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const outside: Rule = {
  name: 'sign-off/outside',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off while a point of its scope is outside its limit.',
    why: `Structure that is out of its dimensions holds wheels, doors and restraints in the wrong place and folds differently from what was tested. Each point is
judged by its newest released reading. A distance that is outside counts as well, where one of its points is in the scope and neither end was
worked on since it was read. No reason given under \`accepted\` clears what is outside. ${coversDimensionsOnlyPage}`,
    example: `scope: [front-rail.L]
# … and in the last measure rail-tip-upper.L stands 4.1 mm too far right
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: {
      place: 'head',
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-tip-upper.L: [3012, 447.9, 352]`,
    },
    mend: 'Take the sign-off out, bring the points into their limits as the maker’s procedure allows, measure, and sign again.',
    source: 'Decision rules after ISO 14253-1 and JCGM 106:2012.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      const { unit } = context.inspection.job;
      const points = state.outside.map(({ judged }) => `${judged.id} (${worst(judged, unit)})`);
      const spans = state.spansOutside.map(
        ({ span }) =>
          `the distance ${span.from} to ${span.to} (${lengthText(Math.abs(span.deviationMm), unit)} too ${span.deviationMm < 0 ? 'short' : 'long'}, limit ${limitsText(span.limits, unit)})`,
      );
      if (points.length + spans.length === 0) return [];
      return [
        {
          place: signOff.keyPlace,
          message: `signed off with ${shortList([...points, ...spans])} outside. ${coversDimensionsOnly}`,
          related: [
            ...state.outside.map(({ judged, stage }) => ({
              message: `${judged.id} in "${stage.name}"`,
              place: judged.reading.key,
            })),
            ...state.spansOutside.map(({ span, stage }) => ({
              message: `this distance in "${stage.name}"`,
              place: span.reading.place,
            })),
          ],
        },
      ];
    }),
};

/** The axis farthest beyond its limit. */
function worst(judged: JudgedPoint, unit: Unit): string {
  const excess = (axis: Axis): number => {
    const { deviationMm, limits } = judgementsOf(judged)[axis];
    return deviationMm === null
      ? Number.NEGATIVE_INFINITY
      : Math.max(deviationMm - limits[1], limits[0] - deviationMm);
  };
  const axis = [...axes].sort((a, b) => excess(b) - excess(a))[0];
  const { side, limits } = judged.point;
  return `${offPhrase(axis, judged.deviation[axis] ?? 0, side, unit)}, ${limitPhrase(axis, limits[axis], side, unit)}`;
}
