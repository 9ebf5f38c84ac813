import { derived } from '../../memory/derived';
import type { Chassis } from '../chassis';
import type { Job, TimelineEntry } from '../job';
import { nameOf } from '../names';
import type { Problem } from '../problem';
import { closingMentions, entryMentions, headMentions, type NamedPlace } from './job-mentions';
import { mostSuggested, nameProblem } from './name-problems';

/** Names in a job that its chassis does not have, or that lack their side; each where it was typed. */
export function jobNameProblems(job: Job, chassis: Chassis): Problem[] {
  const problems: Problem[] = [];
  const look = (mention: NamedPlace): void => {
    const problem = problemOf(mention, chassis, problems.length < mostSuggested);
    if (problem !== null) problems.push(problem);
  };
  headMentions(job)
    .filter((mention) => !isKnown(mention, chassis))
    .forEach(look);
  for (const entry of job.timeline) strangersIn(entry, chassis).forEach(look);
  closingMentions(job)
    .filter((mention) => !isKnown(mention, chassis))
    .forEach(look);
  return problems;
}

const isKnown = ({ kind, id }: NamedPlace, chassis: Chassis): boolean =>
  (kind === 'point' ? chassis.points : chassis.parts).has(id);

/** The names of an entry that are not ids of the body as they stand. */
const strangersIn = derived((entry: TimelineEntry, chassis: Chassis): readonly NamedPlace[] =>
  // nearly all measures name known points only: then no mention of one is made
  namesKnownOnly(entry, chassis) ? [] : entryMentions(entry).filter((mention) => !isKnown(mention, chassis)),
);

const namesKnownOnly = (entry: TimelineEntry, { points }: Chassis): boolean =>
  entry.kind === 'measure' &&
  entry.readings.every(({ id }) => points.has(id)) &&
  entry.spans.every(({ from, to }) => points.has(from) && points.has(to));

function problemOf(mention: NamedPlace, chassis: Chassis, suggesting: boolean): Problem | null {
  const { kind, id, place } = mention;
  const known = kind === 'point' ? chassis.points : chassis.parts;
  const problem = nameProblem(mention, known, suggesting);
  if (problem === null || !chassis.unread[kind === 'point' ? 'points' : 'parts'].has(nameOf(id)))
    return problem;
  const { rule } = problem;
  return {
    rule,
    place,
    message: `${id} is in the chassis file, but could not be read there: correct it there first`,
  };
}
