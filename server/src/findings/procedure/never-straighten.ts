import { breaches } from '../../inspection/gate/procedure';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { placeOfPull, recordOf, referenceOf } from './record';

export const neverStraighten: Rule = {
  name: 'procedure/never-straighten',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: { breach: 'never-straighten' },
  unchangeable: true,
  page: {
    summary: 'A part that must not be straightened was pulled, and has not been replaced since.',
    why: `Press-hardened parts, and others for which the maker says replace only, lose their strength when they are bent back: they crack, at
once or in the next collision, and that cannot be seen or measured. A hook on such a part loads it too, whatever the purpose of the pull.
Where a part is press-hardened and the file records nothing, the program assumes that it must not be straightened. The maker's procedure decides.`,
    example: `  - pull: right pillar out
    part: centre-pillar.R         # straighten: never`,
    exampleIn: { place: 'entry' },
    mend: `Stop pulling and replace the part as the maker's procedure says; \`- replace: centre-pillar.R\` in the timeline settles it. Where the
maker does allow straightening, record what the procedure says under \`straighten\` in the chassis file, with its \`reference\`.`,
    source: "Common practice in the trade. The maker's procedure decides.",
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    breaches(inspection).flatMap((breach): Draft[] => {
      if (breach.kind !== 'never-straighten') return [];
      const { part, pull } = breach;
      const reason =
        part.straighten === 'never'
          ? `the maker allows no straightening of it${referenceOf(part)}`
          : 'it is press-hardened, and no procedure for straightening it is recorded';
      return [
        {
          place: placeOfPull(pull.entry, part, inspection.chassis),
          message: `${part.id} is pulled, but ${reason}. Replace it; the maker's procedure decides.`,
          related: [recordOf(part)],
        },
      ];
    }),
};
