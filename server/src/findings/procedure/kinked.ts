import { breaches } from '../../inspection/gate/procedure';
import { placeText } from '../../wording/places';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { placeOfPull, recordOf, referenceOf } from './record';

export const kinked: Rule = {
  name: 'procedure/kinked',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: { breach: 'kinked' },
  unchangeable: true,
  page: {
    summary: 'A part that may be straightened only where it is bent was pulled with a kink or buckle in it.',
    why: `Where metal folds sharply it has been stretched past what it can take back. Pulled straight it looks right and is weak or cracked
just there. That is why makers say of many parts: bent may be straightened, kinked may not (\`straighten: minor\`). The maker's procedure
decides what counts as a kink.`,
    example: `  - observe: kink
    part: front-rail.L            # straighten: minor
    at: 2400
  - pull: left rail out
    part: front-rail.L`,
    exampleIn: { place: 'entry' },
    mend: `Replace the part, or section it so that the kink is cut away, where the maker's procedure allows it. Such an entry in the timeline
settles it: a \`section\` where the place of the kink (\`at\`) is known and lies beyond the cut, seen from the base. It does not where the
part runs past the base on both sides, such as a sill, because then it cannot be told which end was renewed.`,
    source:
      "Common practice in the trade: bent may be repaired, kinked is replaced. The maker's procedure decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    breaches(inspection).flatMap((breach): Draft[] => {
      if (breach.kind !== 'kinked') return [];
      const { part, pull, kink } = breach;
      const { what, atMm, keyPlace } = kink.entry;
      const where = atMm === null ? '' : ` at ${placeText(atMm, part, inspection.job.unit)}`;
      return [
        {
          place: placeOfPull(pull.entry, part, inspection.chassis),
          message:
            `${part.id} is pulled with a ${what} in it${where}; the maker allows straightening only where it is bent` +
            `${referenceOf(part)}. Renew the metal; the maker's procedure decides.`,
          related: [{ message: `the ${what} was seen here`, place: keyPlace }, recordOf(part)],
        },
      ];
    }),
};
