import { breaches } from '../../inspection/gate/procedure';
import { fromToText, placeText } from '../../wording/places';
import { roundedText } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { recordOf, referenceOf } from './record';

export const sectionBand: Rule = {
  name: 'procedure/section-band',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: { breach: 'section-band' },
  unchangeable: true,
  page: {
    summary: 'A part was cut outside the band in which the maker allows a cut.',
    why: `A part folds in a collision in an order that the maker has tried out. A joint in the wrong place, over a reinforcement or in the crush
zone, changes where it folds, and may stand where two sheets cannot be welded through. The maker's procedure decides where a cut may be.`,
    example: `  - section: front-rail.R         # section: [2450, 2700]
    at: 2310`,
    exampleIn: { place: 'entry' },
    mend: `Correct the place if it was written wrong. Else renew the joint as the maker's procedure says: a cut farther towards the base that takes
it out and lies in the band, or a new part.`,
    source: "Common practice in the trade: the maker's sectioning procedure for the part decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    breaches(inspection).flatMap((breach): Draft[] => {
      if (breach.kind !== 'section-band') return [];
      const { part, section, atMm, band } = breach;
      const { unit } = inspection.job;
      const [from, to] = band;
      const missed = atMm < from ? from - atMm : atMm - to;
      return [
        {
          place: section.entry.part.place,
          message:
            `${part.id} is cut at ${placeText(atMm, part, unit)}, ${roundedText(missed, unit)} outside the band from ` +
            `${fromToText(band, part, unit)} that the maker allows${referenceOf(part)}. The maker's procedure decides.`,
          related: [recordOf(part)],
        },
      ];
    }),
};
