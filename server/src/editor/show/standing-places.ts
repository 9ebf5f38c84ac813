import type { TextRange } from '../../findings/rule/finding';
import { ruleNamed } from '../../findings/rule-list';
import { standingOf } from '../../findings/standing';
import type { Reason } from '../../inspection/gate/sign-off';
import { newestReleased } from '../../inspection/job/newest';
import { offsetsOf } from '../../text/tree';
import type { JobAnalysis } from '../../workspace/workspace';
import { mentionsOf } from '../mentions';

/** What stands against a sign-off, with where the file says the most of it. */
interface AgainstIt {
  readonly words: string;
  readonly range: TextRange;
}

/** One line for each thing that stands against the sign-off of a job, with a way to it. Empty where nothing does. */
export function standingPlaces(analysis: JobAnalysis): AgainstIt[] {
  const { inspection, settings, findings } = analysis;
  if (inspection === null)
    return [{ words: 'without its chassis file nothing is judged', range: head(analysis) }];
  const { reasons } = standingOf({ inspection, settings, findings });
  const told = new Map<string, AgainstIt>();
  for (const reason of reasons)
    for (const each of placesOf(analysis, reason)) told.set(`${each.words} ${each.range.start}`, each);
  return [...told.values()];
}

function placesOf(analysis: JobAnalysis, { name, why }: Reason): AgainstIt[] {
  const words = name === null ? why : `${name}: ${why}`;
  if (name === null) return [{ words, range: signOffOf(analysis) }];
  // an error of a rule that the gate does not ask itself: each where it was found
  if (ruleNamed(name) !== undefined)
    return analysis.findings
      .filter(({ rule, severity, ignored }) => rule === name && severity === 'error' && ignored === null)
      .map(({ message, range }) => ({ words: firstSentence(message), range }));
  return [{ words, range: readingOf(analysis, name) ?? lastMention(analysis, name) ?? head(analysis) }];
}

/** The row of a point's newest reading that counts. */
function readingOf({ inspection }: JobAnalysis, id: string): TextRange | null {
  const newest = inspection && newestReleased(inspection).get(id);
  return newest ? offsetsOf(newest.judged.reading.key) : null;
}

/** Where a point, a part or the first end of a distance was named last. */
function lastMention(analysis: JobAnalysis, name: string): TextRange | null {
  const [first] = name.split(' to ');
  const found = mentionsOf(analysis).findLast(({ id }) => id === first);
  return found ? offsetsOf(found.place) : null;
}

/** A job that is signed is spoken of at its signature, another at its head. */
const signOffOf = (analysis: JobAnalysis): TextRange =>
  analysis.job.signOff === null ? head(analysis) : startOf(offsetsOf(analysis.job.signOff.place));

function head({ job }: JobAnalysis): TextRange {
  const place = job.orderPlace ?? job.head;
  return place ? startOf(offsetsOf(place)) : { start: 0, end: 0 };
}

const startOf = ({ start }: TextRange): TextRange => ({ start, end: start });

const firstSentence = (message: string): string =>
  /^[\s\S]*?[.;](?=\s|$)/.exec(message)?.[0].slice(0, -1) ?? message;
