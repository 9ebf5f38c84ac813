import type { Part } from '../chassis';
import type { PartSheet } from '../chassis-sheet';
import { idsNamed } from '../names';
import type { Problem } from '../problem';
import { nameProblem } from './name-problems';

interface Stated extends Pick<PartSheet, 'name' | 'joined'> {
  /** Of the file itself: a parent's slips are reported there. */
  readonly isOwn: boolean;
}

/**
 * What each part is welded or bonded to, both ways, by id: a part of one side to the same side's; one without a side to both. What
 * names no part is reported.
 * @param unread names of parts that stand in a file, but could not be read there: nothing is said of them
 */
export function joinedIds(
  stated: readonly Stated[],
  parts: ReadonlyMap<string, Part>,
  unread: ReadonlySet<string>,
  problems: Problem[],
): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  const note = (from: string, to: string): void => {
    found.set(from, (found.get(from) ?? new Set()).add(to));
  };
  for (const { name, joined, isOwn } of stated)
    for (const { id, place } of joined) {
      const others = idsNamed(id, parts);
      const problem = nameProblem({ kind: 'part', id, place, bothSides: true }, parts);
      if (problem !== null && isOwn && !unread.has(id)) problems.push(problem);
      for (const one of idsNamed(name, parts))
        for (const other of others) {
          const [a, b] = [parts.get(one)?.side ?? null, parts.get(other)?.side ?? null];
          if (one === other || (a !== null && b !== null && a !== b)) continue;
          note(one, other);
          note(other, one);
        }
    }
  return found;
}
