import type { Member, Point } from '../chassis';
import type { ChassisSheet, MemberSheet } from '../chassis-sheet';
import { idsNamed } from '../names';
import type { Problem } from '../problem';
import { nameProblem } from './name-problems';

/** The removable members of a body with the points that they are bolted to; what names no point is reported. */
export const membersOf = (
  stated: Iterable<{ readonly sheet: MemberSheet; readonly uri: string }>,
  points: ReadonlyMap<string, Point>,
  own: ChassisSheet,
  problems: Problem[],
): Member[] =>
  [...stated].map(({ sheet: { name, mounts }, uri }) => ({
    name,
    mounts: mounts.flatMap(({ id, place }) => {
      const problem = nameProblem({ kind: 'point', id, place, bothSides: true }, points);
      if (problem !== null && uri === own.uri && !own.unread.points.has(id)) problems.push(problem);
      return idsNamed(id, points);
    }),
  }));
