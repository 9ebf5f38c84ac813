import { createHash } from 'node:crypto';
import type { JudgingVersion } from '@framewright/schemas';
import { sealsOf } from '../../../../tests/seal/seal.mjs';
import { type SignOffState, signOffState } from '../../inspection/gate/sign-off';
import { newestJudging } from '../../model/resolve/judging';
import { chassisWith, job } from '../../testing/body';
import { analysed } from './analysed';

/** For the tests of the sign-off rules: the Marten of the procedure tests, and a sign-off against it. */

const settingsFile = (decisionRule: string): string =>
  `framewright: settings/1\ndecision-rule: ${decisionRule}\n`;

export const hashOf = (...texts: string[]): string =>
  `sha256-${createHash('sha256').update(texts.join('')).digest('hex').slice(0, 12)}`;

/** A sign-off block of this version; `marks` are the comments that expect findings at its key. */
export const signed = (
  marks = '',
  accepted = '',
  hash = hashOf(chassisWith()),
  judgedBy: JudgingVersion = newestJudging,
): string =>
  `sign-off:\n${marks}  by: rk\n  date: 2026-03-05\n  chassis: ${hash}\n  judged-by: ${judgedBy}\n${accepted}`;

/** A job with `seal of the readings` and `seal of the chassis` where its sign-off holds seals; they are filled in. */
export function sealed(text: string, chassis = chassisWith(), rule = 'simple'): string {
  const seals = sealsOf(text, [chassis], rule);
  return text.replace('seal of the readings', seals.readings).replace('seal of the chassis', seals.chassis);
}

/** The sign-off block that `sealed` fills in. */
export const sealsToBe = (accepted = ''): string =>
  `sign-off:\n  by: rk\n  date: 2026-03-05\n  readings: seal of the readings\n  chassis: seal of the chassis\n  judged-by: 0.2\n${accepted}`;

/** A job signed off; the scope is the left rail and both pillars unless `head` says otherwise. */
export const signedJob = (
  timeline: string,
  marks = '',
  accepted = '',
  head = 'scope: [front-rail.L, centre-pillar]\n',
): string => job(timeline, head, signed(marks, accepted));

export const filesOf = (text: string, decisionRule = 'simple'): Record<string, string> => ({
  'body.chassis.yaml': chassisWith(),
  'job.readings.yaml': text,
  '.framewright.yaml': settingsFile(decisionRule),
});

/** The gate of a job about the small body. */
export async function stateOf(text: string, decisionRule = 'simple'): Promise<SignOffState> {
  const analysis = await analysed(filesOf(text, decisionRule), 'job.readings.yaml');
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('the job is not judged');
  return signOffState(analysis.inspection, analysis.settings);
}

/** The sign-off rules that stand against a job, with their severities; what is said for information does not. */
export async function against(text: string, decisionRule = 'simple'): Promise<string[]> {
  const { findings } = await analysed(filesOf(text, decisionRule), 'job.readings.yaml');
  return findings
    .filter(({ rule, severity }) => rule.startsWith('sign-off/') && severity !== 'information')
    .map(({ rule, severity }) => `${severity} ${rule}`)
    .sort();
}
