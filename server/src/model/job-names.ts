import type { Chassis } from './chassis';
import type { Job, Mention } from './job';
import { mostSuggested, nameProblem } from './name-problems';
import { nameOf } from './names';
import type { Problem } from './problem';

/** Names in a job that its chassis does not have, or that lack their side; each where it was typed. */
export function jobNameProblems(job: Job, chassis: Chassis): Problem[] {
  const problems: Problem[] = [];
  const check = (what: 'point' | 'part', bothSides: boolean) => (mention: Mention | null) => {
    if (mention === null) return;
    const problem = problemOf(what, mention, chassis, bothSides, problems.length < mostSuggested);
    if (problem !== null) problems.push(problem);
  };
  const point = check('point', false);
  const part = check('part', false);
  const partOnBothSides = check('part', true);

  if (job.base.kind === 'ids') job.base.ids.forEach(point);
  job.anchors.forEach(check('point', true));
  job.scope?.forEach(partOnBothSides);
  for (const entry of job.timeline) {
    switch (entry.kind) {
      case 'measure':
        for (const reading of entry.readings) point({ id: reading.id, place: reading.key });
        for (const span of entry.spans) {
          point({ id: span.from, place: span.fromPlace });
          point({ id: span.to, place: span.toPlace });
        }
        break;
      case 'pull':
        part(entry.part);
        for (const chain of entry.chains) point(chain.hook);
        for (const hold of entry.holds) hold.kind === 'part' ? part(hold.part) : point(hold.point);
        break;
      case 'relieve':
      case 'release':
        if (entry.parts !== 'all') entry.parts.forEach(partOnBothSides);
        break;
      case 'observe':
      case 'section':
      case 'replace':
      case 'heat':
        part(entry.part);
        break;
    }
  }
  for (const accepted of job.signOff?.accepted ?? []) point(accepted.point);
  return problems;
}

function problemOf(
  what: 'point' | 'part',
  { id, place }: Mention,
  chassis: Chassis,
  bothSides: boolean,
  suggesting: boolean,
): Problem | null {
  const known = what === 'point' ? chassis.points : chassis.parts;
  const problem = nameProblem(what, id, place, known, bothSides, suggesting);
  if (problem === null || !chassis.unread[what === 'point' ? 'points' : 'parts'].has(nameOf(id)))
    return problem;
  const { rule } = problem;
  return {
    rule,
    place,
    message: `${id} stands in the chassis file, but could not be read there: mend it there first`,
  };
}
