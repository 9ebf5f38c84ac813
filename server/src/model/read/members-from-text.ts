import { memberSchema } from '@framewright/schemas';
import { entryOf, isNothing, type MapEntry } from '../../text/tree';
import type { MemberSheet, Removal } from '../chassis-sheet';
import type { Problem } from '../problem';
import { mentionsIn } from './mentions';
import { nameIn } from './names-from-text';
import { checked } from './schema-check';
import { named } from './top-level';

/** The removable members of a chassis file by name. One of which something cannot be read is reported and left out. */
export function memberSheets(
  entries: readonly MapEntry[],
  report: (problem: Problem) => void,
): Map<string, MemberSheet | Removal> {
  const members = new Map<string, MemberSheet | Removal>();
  for (const entry of entries) {
    const name = nameIn(entry, report);
    if (name === null) continue;
    if (isNothing(entry.value)) {
      members.set(name, { removed: entry.key.place });
      continue;
    }
    const value = checked(memberSchema, entry.value, entry.key.place, (problem) =>
      report(named(problem, name)),
    );
    if (value !== null)
      members.set(name, { name, mounts: mentionsIn(entryOf(entry.value, 'mounts')?.value) });
  }
  return members;
}
