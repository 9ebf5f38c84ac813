import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnlyPage, ofClosed } from './state';

export const oldSeal: Rule = {
  name: 'sign-off/old-seal',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'standing',
  wholeJob: true,
  page: {
    summary: 'A sign-off holds the fingerprint of its chassis file, and no seals.',
    why: `The fingerprint (\`sha256-\`) shows that a character of the chassis file was changed, be it a comment, and nothing about the job itself: a reading could be changed after
the signature. The two seals of a newer signature are over what the job was judged by, and over what it uses of the chassis. ${coversDimensionsOnlyPage}`,
    example: `sign-off:
  by: rk
  date: 2026-03-05
  chassis: sha256-3f9a61c2        # no \`readings\` beside it`,
    exampleIn: { place: 'head' },
    mend: `Look in the history that nothing was changed since the signature, then take the fix: it writes both seals over the job and the chassis as they are now. It is offered only
while the fingerprint still fits.`,
    source: 'SHA-256: FIPS 180-4. Canonical JSON: RFC 8785.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (_, signOff) => {
      if (
        signOff.readings !== null ||
        !signOff.chassis?.startsWith('sha256-') ||
        signOff.chassisPlace === null
      )
        return [];
      return [
        {
          place: signOff.chassisPlace,
          message:
            'a fingerprint of the chassis file alone, as older signatures hold it: nothing shows whether the job itself was changed since',
        },
      ];
    }),
};
