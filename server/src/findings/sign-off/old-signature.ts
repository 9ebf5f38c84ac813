import { isOlder } from '../../model/resolve/judging';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnlyPage, ofClosed } from './state';

export const oldSignature: Rule = {
  name: 'sign-off/old-signature',
  severity: 'error',
  since: '0.2',
  failsCheck: 'closed',
  aboutSignature: true,
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary: 'A job was signed under an older version of the program than this repository accepts.',
    why: `What was signed stays signed: rules that came later only warn. A shop may decide that this is not enough, and name in its settings the oldest version whose signatures
count (\`signed-since\`). \`judged-by\` of the sign-off is the version that it was judged by; where it is absent, that was 0.1. ${coversDimensionsOnlyPage}`,
    example: `# .framewright.yaml says signed-since: 0.2
sign-off: { by: rk, date: 2026-03-05, chassis: sha256-3f9a61c2 }`,
    exampleIn: {
      place: 'entry',
      files: { '.framewright.yaml': 'framewright: settings/1\nsigned-since: 0.2\n' },
    },
    mend: 'Look at what the newer rules say of the job, mend it, and sign it again; or accept the older signatures by taking `signed-since` out of the settings.',
    source: 'A choice of the shop.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (_, { keyPlace, judgedBy }) => {
      const { signedSince } = context.settings;
      if (signedSince === null || !isOlder(judgedBy, signedSince)) return [];
      return [
        {
          place: keyPlace,
          message: `signed under version ${judgedBy}; the settings ask for ${signedSince} or newer: look at it and sign again`,
        },
      ];
    }),
};
