import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Chassis } from '../../model/chassis';
import type { Job, SignOff } from '../../model/job';
import type { DecisionRule } from '../../model/read/settings';
import { placedJob } from '../../model/resolve/job-places';
import { canonicalJson, type Plain } from './canonical';
import { sealedChassis } from './seal-chassis';
import { sealedReadings } from './seal-readings';

/** The two seals of a sign-off: over what was judged, and over the chassis as the job uses it. */
export interface Seals {
  readonly readings: string;
  readonly chassis: string;
}

/** What the seals of a job are, or would be under a signature that is not written yet. */
export const sealsOf = (
  job: Job,
  chassis: Chassis,
  signOff: Pick<SignOff, 'by' | 'date' | 'judgedBy' | 'accepted'>,
  rule: DecisionRule,
): Seals => ({
  readings: sealOf(sealedReadings(placedJob(job, chassis), chassis, signOff, rule)),
  chassis: sealOf(sealedChassis(job, chassis)),
});

/** `seal1-` and the first 16 digits of the SHA-256 (FIPS 180-4) of the canonical form (RFC 8785) in UTF-8. */
const sealOf = (content: Plain): string =>
  `seal1-${bytesToHex(sha256(utf8ToBytes(canonicalJson(content) ?? '{}'))).slice(0, 16)}`;

/** Which of the seals of a sign-off no longer agree. None where it has none. */
export function changedSince(job: Job, chassis: Chassis, rule: DecisionRule): readonly (keyof Seals)[] {
  const { signOff } = job;
  if (signOff?.readings == null) return [];
  const now = sealsOf(job, chassis, signOff, rule);
  return (['readings', 'chassis'] as const).filter((which) => signOff[which] !== now[which]);
}
