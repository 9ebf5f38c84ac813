import { type JudgingVersion, judgingVersions } from '@framewright/schemas';
import type { Job } from '../job';

/** This program's own. */
export const newestJudging: JudgingVersion = judgingVersions[judgingVersions.length - 1];

/** Whether a job must pass what came with a version: an open one passes by all that there is, a closed one by what it was signed under. */
export const isHeldTo = (since: JudgingVersion, { signOff }: Pick<Job, 'signOff'>): boolean =>
  signOff === null || !isOlder(signOff.judgedBy, since);

export const isOlder = (version: JudgingVersion, than: JudgingVersion): boolean =>
  judgingVersions.indexOf(version) < judgingVersions.indexOf(than);
