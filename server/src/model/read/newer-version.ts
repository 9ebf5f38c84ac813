import { judgingVersions } from '@framewright/schemas';
import type { Place } from '../../text/tree';
import type { Problem } from '../problem';

/** This program's version, as people call it. */
export const ownVersion: string = judgingVersions[judgingVersions.length - 1];

const newer = 'written for a newer Framewright';

/** Where a file says a later version of its format than this program reads; null elsewhere. @param wanted such as `readings/1` */
export function newerVersion(said: string, wanted: string, place: Place): Problem | null {
  const [kind, number] = wanted.split('/');
  const version = new RegExp(`^${kind}/([1-9]\\d{0,5})$`).exec(said)?.[1];
  if (version === undefined || Number(version) <= Number(number)) return null;
  return {
    rule: 'text/wrong-type',
    place,
    message: `${newer}: this file says ${said}, and version ${ownVersion} reads ${wanted}. Nothing is concluded from it; use a newer Framewright`,
  };
}

/** Of such a file nothing else is said: what this program takes for wrong may be right in that version. */
export const unlessNewer = (problems: readonly Problem[]): Problem[] => {
  const problem = problems.find(({ message }) => message.startsWith(newer));
  return problem === undefined ? [...problems] : [problem];
};
