import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnlyPage, ofClosed } from './state';

export const noScope: Rule = {
  name: 'sign-off/no-scope',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off that does not say which parts it is about.',
    why: `Without \`scope\` only what was read or worked on is judged: a part that nobody looked at is missing in silence. A reader of the record cannot tell what was asked for.
Points outside the scope may also help to align the car; without a scope none does. ${coversDimensionsOnlyPage}`,
    example: `# no scope: above the timeline
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2, judged-by: 0.2 }`,
    exampleIn: { place: 'entry' },
    mend: 'Name the parts that the repair is about, above the timeline: `scope: [front-rail, radiator-support]`.',
    source: 'Common practice in the trade.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (_, signOff) =>
      context.inspection.job.scope !== null
        ? []
        : [
            {
              place: signOff.keyPlace,
              message:
                'signed off without a scope: only what was read or worked on is judged. Name the parts that the repair is about under `scope`.',
            },
          ],
    ),
};
