import type { Draft, JobContext, Rule } from '../rule/rule';
import { coversDimensionsOnly, coversDimensionsOnlyPage, ofClosed } from './state';

export const changed: Rule = {
  name: 'sign-off/changed',
  severity: 'error',
  since: '0.2',
  failsCheck: 'closed',
  inGate: 'always',
  inRecord: 'standing',
  unchangeable: true,
  aboutSignature: true,
  wholeJob: true,
  page: {
    summary: 'The job, or the chassis as it uses it, is no longer what was signed.',
    why: `A sign-off holds two seals. \`readings\` is over all that the job was judged by: the readings, the work, the instrument, base and scope, what was accepted, who signed
and when, the decision rule, and each ignored line with its reason. \`chassis\` is over the points, parts and distances that the job uses. Comments, layout, the order of
keys, the unit in which a number is written, notes, titles and points that the job does not use belong to neither. A seal shows slips and silent edits. It does not
prove who signed, for anybody can compute it: that is what signed commits are for. ${coversDimensionsOnlyPage}`,
    example: `sign-off:
  by: rk
  date: 2026-03-05
  readings: seal1-0badc0de0badc0de        # a reading has been changed since
  chassis: seal1-0badc0de0badc0de         # so has the sheet
  judged-by: 0.2`,
    exampleIn: { place: 'head' },
    mend: `See in the history of the file what was changed. Put it back, or have the job judged and signed again: *Reopen Job* in the editor, or
\`framewright sign JOB --by NAME --again\`, which keeps the old signature under \`earlier\`.`,
    source: 'SHA-256: FIPS 180-4. Canonical JSON: RFC 8785. What is sealed: the language page.',
  },
  ofJob: (context: JobContext): Draft[] =>
    ofClosed(context, (state, signOff) => {
      if (signOff.readings === null) return [];
      const path = context.inspection.job.chassisPath ?? 'the chassis file';
      const again = `Put it back, or judge the job again and sign anew. ${coversDimensionsOnly}`;
      return [
        ...(state.readingsChanged
          ? [
              {
                place: signOff.readingsPlace ?? signOff.keyPlace,
                message: `what was judged is no longer what was signed: something in this file, or the decision rule, was changed since. ${again}`,
              },
            ]
          : []),
        ...(state.chassisChanged
          ? [
              {
                place: signOff.chassisPlace ?? signOff.keyPlace,
                message: `what this job uses of ${path} is no longer what was signed. ${again}`,
              },
            ]
          : []),
      ];
    }),
};
