import { notJoined as notJoinedIn } from '../../inspection/gate/joins';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const notJoined: Rule = {
  name: 'sign-off/not-joined',
  severity: 'error',
  since: '0.2',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off with new metal of which nothing says that it was joined to the car.',
    why: `A part held in clamps can stand where it belongs, and move when it is welded. So a reading in the clamps is not the last one: the \`join\` of the part comes after
its \`replace\` or \`section\`, and the last measure after that. A part whose \`attached\` is only \`bolted\` needs no join when it was replaced. In a job signed under 0.1 a
\`section\` was a cut and its join, and stays so. ${coversDimensionsOnlyPage}`,
    example: `  - replace: front-rail.L         # and no join: front-rail.L
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2, judged-by: 0.2 }`,
    exampleIn: { place: 'entry' },
    mend: `Write the join where it was done, and measure after it: \`- join: front-rail.L\` with \`with: welded\`, and \`to:\` the parts that it was joined to. How to join, and what to test about it,
is the maker's to say.`,
    source: 'Common practice in the trade: measure again after joining.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (_, signOff) => {
      const open = notJoinedIn(context.inspection);
      if (open.length === 0) return [];
      const names = [...new Set(open.map(({ part }) => part.id))];
      return [
        {
          place: signOff.keyPlace,
          message: `signed off with new metal that was not joined: ${shortList(names)}. Write its \`join\`, and measure after it. ${coversDimensionsOnly}`,
          related: open.map(({ work }) => ({
            message: `${work.entry.kind === 'section' ? 'cut' : 'replaced'} here, and not joined since`,
            place: work.entry.keyPlace,
          })),
        },
      ];
    }),
};
