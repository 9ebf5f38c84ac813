import { chassisHash } from '../../inspection/gate/chassis-hash';
import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const chassisChanged: Rule = {
  name: 'sign-off/chassis-changed',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  wholeJob: true,
  page: {
    summary:
      'The chassis file is no longer the one that a job was signed against; of signatures without seals.',
    why: `A sign-off says that a car had the dimensions of one sheet. When that sheet, or one that it extends, has been changed since, nobody has judged the car by
its present figures. The sign-off keeps the first digits of the SHA-256 of the chassis file and its parents in order; line ends (LF or CRLF)
make no difference. A newer signature holds seals in its place, which sign-off/changed looks after. ${coversDimensionsOnlyPage}`,
    example: `sign-off:
  by: rk
  date: 2026-03-05
  chassis: sha256-0badc0de        # the sheet has been changed since`,
    exampleIn: { place: 'head' },
    mend: 'See in the history of the chassis file what was changed. Put it back, or judge the job by the new sheet and have it signed again.',
    source: 'SHA-256: FIPS 180-4. Keeping the sheet with the record is common practice in the trade.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      if (!state.chassisChanged || signOff.readings !== null) return [];
      const { chassis, job } = context.inspection;
      const now = chassisHash(chassis).slice(0, 'sha256-'.length + 8);
      const written =
        signOff.chassis === null ? 'names no chassis file' : `was made against ${signOff.chassis}`;
      return [
        {
          place: signOff.chassisPlace ?? signOff.keyPlace,
          message: `the sign-off ${written}, but ${job.chassisPath ?? 'the chassis file'} is ${now} now: judge the job again and sign anew. ${coversDimensionsOnly}`,
        },
      ];
    }),
};
