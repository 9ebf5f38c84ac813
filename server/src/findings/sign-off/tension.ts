import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const tension: Rule = {
  name: 'sign-off/tension',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job is signed off while something is still being pulled.',
    why: `By the timeline a pull was never released: the body is under load, and nobody knows yet where it will stay. Nothing else is reported about the points of such a part,
because nothing else is known. ${coversDimensionsOnlyPage}`,
    example: `  - pull: left rail, the last bit
    part: front-rail.L
  - measure: under load
    readings: { rail-tip-lower.L: [3014.2, 465.3, 210.0] }
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: { place: 'entry' },
    mend: 'Write the release where it was done (`- release: all`), measure, and sign again.',
    source: 'Common practice in the trade: measure after release.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      if (state.tension.length === 0) return [];
      const names = state.tension.map((id) => (id === '' ? 'a pull of no named part' : id));
      return [
        {
          place: signOff.keyPlace,
          message: `signed off with ${shortList(names)} still under tension: release, then measure. ${coversDimensionsOnly}`,
          related: context.inspection.work.pulls
            .filter(({ releasedAt }) => releasedAt === null)
            .map(({ pull }) => ({ message: 'pulled here, and not released since', place: pull.keyPlace })),
        },
      ];
    }),
};
