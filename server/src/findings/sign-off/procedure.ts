import type { Breach } from '../../inspection/gate/procedure';
import type { Place } from '../../text/tree';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const procedure: Rule = {
  name: 'sign-off/procedure',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off although work on the car goes against the maker’s recorded procedure.',
    why: `Where a part was pulled, cut or heated against the maker's procedure, dimensions that are right prove nothing about its strength. As long as one of
procedure/never-straighten, procedure/kinked, procedure/section-band, procedure/section-in-straightened or procedure/heat stands as an
error, the job does not pass. ${coversDimensionsOnlyPage}`,
    example: `  - heat: front-rail.L            # heat: never
    to: 350 C
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: { place: 'entry' },
    mend: "Mend what each of those findings says, as a rule by renewing the part as the maker's procedure wants it; then measure and sign again.",
    source: "Common practice in the trade. The maker's procedure decides.",
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      if (state.procedure.length === 0) return [];
      const names = [...new Set(state.procedure.map(({ part, kind }) => `${part.id} (procedure/${kind})`))];
      return [
        {
          place: signOff.keyPlace,
          message: `signed off with work against the maker's procedure in ${shortList(names)}. ${coversDimensionsOnly}`,
          related: state.procedure.map((breach) => ({
            message: `procedure/${breach.kind}: ${breach.part.id}`,
            place: placeOf(breach),
          })),
        },
      ];
    }),
};

function placeOf(breach: Breach): Place {
  switch (breach.kind) {
    case 'never-straighten':
    case 'kinked':
      return breach.pull.entry.keyPlace;
    case 'section-band':
    case 'section-in-straightened':
      return breach.section.entry.keyPlace;
    case 'heat':
      return breach.heat.entry.keyPlace;
  }
}
