import type { Chassis } from './chassis';
import type { Job } from './job';
import { jobMentions, type NamedPlace } from './job-mentions';
import { mostSuggested, nameProblem } from './name-problems';
import { nameOf } from './names';
import type { Problem } from './problem';

/** Names in a job that its chassis does not have, or that lack their side; each where it was typed. */
export function jobNameProblems(job: Job, chassis: Chassis): Problem[] {
  const problems: Problem[] = [];
  for (const mention of jobMentions(job)) {
    const known: ReadonlyMap<string, unknown> = mention.kind === 'point' ? chassis.points : chassis.parts;
    if (known.has(mention.id)) continue;
    const problem = problemOf(mention, chassis, problems.length < mostSuggested);
    if (problem !== null) problems.push(problem);
  }
  return problems;
}

function problemOf({ kind, id, place, bothSides }: NamedPlace, chassis: Chassis, suggesting: boolean): Problem | null {
  const known = kind === 'point' ? chassis.points : chassis.parts;
  const problem = nameProblem(kind, id, place, known, bothSides, suggesting);
  if (problem === null || !chassis.unread[kind === 'point' ? 'points' : 'parts'].has(nameOf(id))) return problem;
  const { rule } = problem;
  return {
    rule,
    place,
    message: `${id} stands in the chassis file, but could not be read there: mend it there first`,
  };
}
