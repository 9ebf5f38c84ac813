import { holdReachMm, pullsWithoutHold } from '../../inspection/pulls/pull-checks';
import { seenInNames } from '../../wording/bend-words';
import { betweenText, placeText } from '../../wording/places';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const noHold: Rule = {
  name: 'procedure/no-hold',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'A bent part is pulled with nothing holding the straight metal behind the bend.',
    why: `A pull goes where the resistance is least. If nothing holds the part just behind the bend, the sound metal there gives way too, and the damage moves on
towards the middle of the car, with the control points. A hold or an anchor of the body counts if it stands on metal known to be straight
(before the start of the bend, less twice its uncertainty), within 600 mm of the bend, and not on the other side of the car.`,
    example: `  - pull: left rail out           # bent from 2280 on; nothing says hold
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.3, 1, 0] }`,
    exampleIn: {
      place: 'entry',
      before: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-root-lower.L: [1760, 441, 188]
      rail-second-lower.L: [2070, 443, 193]
      rail-middle-lower.L: [2381, 440, 199]
      rail-front-lower.L: [2690, 433.6, 205]
      rail-tip-lower.L: [3012, 418.7, 210]`,
    },
    mend: `Hold the part behind the bend, as the maker's procedure and the bench allow, and write it: \`hold: [{ part: front-rail.L, at: 2060 }]\`; or name the
points near which the body is anchored under \`anchors\`.`,
    source: 'Common practice in the trade; the reach of 600 mm is an assumption of the program.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    pullsWithoutHold(inspection).map(({ pull, part, known }) => {
      const { bend, stages, contradictory } = known;
      const { unit } = inspection.job;
      const farthest = bend.atMm - bend.away * holdReachMm;
      const range =
        bend.away * (bend.holdToMm - farthest) > 0
          ? betweenText([Math.min(farthest, bend.holdToMm), Math.max(farthest, bend.holdToMm)], part, unit)
          : `before ${placeText(bend.holdToMm, part, unit)}`;
      return {
        place: pull.keyPlace,
        message:
          `${part.id} is bent from ${placeText(bend.atMm, part, unit)} on, and neither a hold nor an anchor stands on straight metal behind that: hold it ` +
          `${range}, or the metal behind the bend moves too.${contradictory ? ` Where the bend starts is told differently ${seenInNames(stages)}: read the part again.` : ''}`,
        related: stages.map((stage) => ({
          message: `the bend was measured in "${stage.name}"`,
          place: stage.measure.keyPlace,
        })),
      };
    }),
};
