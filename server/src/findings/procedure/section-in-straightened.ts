import { type BreachOf, breaches } from '../../inspection/gate/procedure';
import type { Unit } from '../../model/units';
import { seenInPhrase } from '../../wording/bend-words';
import { betweenText, placeText } from '../../wording/places';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const sectionInStraightened: Rule = {
  name: 'procedure/section-in-straightened',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: { breach: 'section-in-straightened' },
  unchangeable: true,
  page: {
    summary:
      'A part was cut and joined in metal that had been bent and pulled straight, or is pulled after it was joined there.',
    why: `A joint belongs in sound metal: metal that was bent and pulled back is hardened, may carry fine cracks, and keeps stress that the weld sets
free. So a bent part is cut on the base's side of where the bend starts. The bend that counts is the one that all released measures before
each pull show together, less twice its uncertainty; where they contradict each other, the one nearest to the base. What was cut away or replaced in between does not count. Where no bend start is known, any part
that was pulled is suspect: that is a warning. The maker's procedure decides.`,
    example: `  - pull: left rail out           # the rail is bent from 2280 on
    part: front-rail.L
  - section: front-rail.L
    at: 2600`,
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
    mend: `Cut nearer to the base, before the bend starts and in the band that the maker allows; where the band does not reach that far, the part is
replaced. Where no bend start is known, measure the part at four or more places along it before pulling, two of them beyond the bend.`,
    source:
      "Common practice in the trade: sections are joined in undamaged metal. The maker's procedure decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    breaches(inspection).flatMap((breach): Draft[] => {
      if (breach.kind !== 'section-in-straightened') return [];
      const { section, pull, known, severe } = breach;
      return [
        {
          place: section.entry.part.place,
          message: messageOf(breach, inspection.job.unit),
          severity: severe ? 'error' : 'warning',
          related: [
            { message: 'the pull', place: pull.entry.keyPlace },
            ...(known === null
              ? []
              : known.stages.map((stage) => ({
                  message: 'where the bend was measured',
                  place: stage.measure.keyPlace,
                }))),
          ],
        },
      ];
    }),
};

function messageOf(
  { part, atMm, section, pull, known, severe }: BreachOf<'section-in-straightened'>,
  unit: Unit,
): string {
  const cut = `${part.id} is joined at ${placeText(atMm, part, unit)}`;
  const ending = "The maker's procedure decides.";
  const order = pull.index < section.index ? 'it was pulled before' : 'it is pulled after that';
  if (known === null)
    return `${cut}, and ${order} with no bend start known: the joint may stand in straightened metal. ${ending}`;
  const { bend } = known;
  const bent = `bent from ${placeText(bend.atMm, part, unit)} on (${betweenText(bend.startsBetweenMm, part, unit)} at 95 %, ${seenInPhrase(known)})`;
  if (severe)
    return `${cut}, in metal that was ${bent} and pulled straight. Join it nearer to the base, in sound metal. ${ending}`;
  return `${cut}, and ${order}, ${bent} by an alignment that is not decided: the joint may stand in straightened metal. ${ending}`;
}
