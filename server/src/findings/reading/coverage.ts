import type { Inspection } from '../../inspection/job/inspect';
import { isMeasuredIn, isMentionedIn, pointsInScope, withoutSides } from '../../inspection/job/scope';
import type { Job } from '../../model/job';
import { type Place, placeBetween } from '../../text/tree';
import { shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const coverage: Rule = {
  name: 'reading/coverage',
  severity: 'information',
  since: '0.1',
  failsCheck: 'closed',
  wholeJob: true,
  page: {
    summary: 'Points that the job is about were never read.',
    why: 'What was not measured was not judged: a job can look finished because its worst point is missing. Points that are marked unreachable are listed separately, because somebody looked. Without a `scope` the job is about the parts worked on or ever read, and points of no part that were read.',
    example: 'scope: [front-rail.L]      # and rail-tip-upper.L is in no stage',
    exampleIn: { place: 'head', isAbsence: true },
    mend: 'Read them, or write `unreachable` where that is so, or narrow the `scope`.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }) => {
    const unread = unreadPoints(inspection);
    if (unread.never.length + unread.unreachable.length === 0) return [];
    return [{ place: placeOf(inspection.job), message: messageOf(unread) }];
  },
};

function unreadPoints(inspection: Inspection): { never: string[]; unreachable: string[] } {
  const isMentioned = isMentionedIn(inspection);
  const isMeasured = isMeasuredIn(inspection);
  const isAsBefore = (point: string) =>
    inspection.stages.some((stage) => stage.asBefore.some(({ id }) => id === point));
  const never: string[] = [];
  const unreachable: string[] = [];
  for (const id of pointsInScope(inspection)) {
    if (isMeasured(id)) continue;
    // `as-before` alone: there is nothing before
    if (isMentioned(id) && !isAsBefore(id)) unreachable.push(id);
    else never.push(id);
  }
  return { never, unreachable };
}

const placeOf = ({ scope, head }: Job): Place =>
  scope === null || scope.length === 0 ? head : placeBetween(scope[0].place, scope[scope.length - 1].place);

function messageOf({ never, unreachable }: { never: string[]; unreachable: string[] }): string {
  const sentences = [
    ...(never.length > 0
      ? [
          `${never.length === 1 ? 'one point' : `${never.length} points`} of the scope never read: ${shortList(withoutSides(never), 12)}.`,
        ]
      : []),
    ...(unreachable.length > 0 ? [`Marked unreachable: ${shortList(withoutSides(unreachable), 12)}.`] : []),
  ];
  return sentences.join(' ');
}
