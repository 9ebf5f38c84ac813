import type { DiffEntry } from '@framewright/schemas';
import type { Job, Measure, TimelineEntry } from '../model/job';
import { inWords, type Pair, paired, statedChanges } from './compared';

/** Work of a timeline: what is not a measure. It decides what an older reading still says. */
type WorkEntry = Exclude<TimelineEntry, Measure>;

/** `pull “left rail out”`, `release front-rail.L`, `note “tank out”`. */
export function entryName(entry: WorkEntry): string {
  switch (entry.kind) {
    case 'pull':
      return `pull “${entry.title}”`;
    case 'note':
      return `note “${entry.text}”`;
    case 'relieve':
    case 'release':
      return `${entry.kind} ${entry.parts === 'all' ? 'all' : (inWords(entry.parts) ?? '')}`.trim();
    case 'join':
      return `join ${inWords(entry.parts) ?? ''}`.trim();
    case 'observe':
      return `observe ${entry.what}${entry.part === null ? '' : ` on ${entry.part.id}`}`;
    default:
      return `${entry.kind} ${entry.part.id}`;
  }
}

const isSeenOnly = ({ kind }: TimelineEntry): boolean => kind === 'note' || kind === 'observe';

/** The last work before an entry, as it is called; null where there is none. */
export function workBefore({ timeline }: Job, index: number): string | null {
  for (let at = index - 1; at >= 0; at--) {
    const entry = timeline[at];
    if (entry.kind !== 'measure' && !isSeenOnly(entry)) return entryName(entry);
  }
  return null;
}

/** Two sides of the timeline, and which of their measures are one. */
interface Timelines {
  readonly before: Job;
  readonly after: Job;
  readonly measures: readonly Pair<Measure>[];
}

/** What is another in the work, and which measures stand behind it now, or no longer. */
export function entryChanges(timelines: Timelines): DiffEntry[] {
  const workIn = ({ timeline }: Job): WorkEntry[] =>
    timeline.filter((entry): entry is WorkEntry => entry.kind !== 'measure');
  const [before, after] = [workIn(timelines.before), workIn(timelines.after)];
  return paired(before, after, entryName, isSameWork).flatMap((pair) => entryChange(pair, timelines));
}

const isSameWork = (one: WorkEntry, other: WorkEntry): boolean =>
  one.kind === other.kind &&
  one.kind !== 'note' &&
  statedChanges(one, other).every(({ what }) => what === 'title');

function entryChange(pair: Pair<WorkEntry>, timelines: Timelines): DiffEntry[] {
  const told = pair.after ?? pair.before;
  if (told === null) return [];
  const { behind, ahead } = isSeenOnly(told) ? { behind: [], ahead: [] } : measuresPassed(pair, timelines);
  const entry = { entry: entryName(told), behind, ahead, changes: [] };
  if (pair.before === null) return [{ ...entry, status: 'added' }];
  if (pair.after === null) return [{ ...entry, status: 'dropped' }];
  const changes = statedChanges(pair.before, pair.after);
  if (behind.length + ahead.length > 0) return [{ ...entry, status: 'moved', changes }];
  return changes.length === 0 ? [] : [{ ...entry, status: 'changed', changes }];
}

/** The measures of both sides that stand behind an entry on one side only. An entry that is not there has none behind it. */
function measuresPassed(
  pair: Pair<WorkEntry>,
  { before, after, measures }: Timelines,
): Pick<DiffEntry, 'behind' | 'ahead'> {
  const isBehind = ({ timeline }: Job, work: WorkEntry | null, measure: Measure): boolean =>
    work !== null && timeline.indexOf(measure) > timeline.indexOf(work);
  const behind: string[] = [];
  const ahead: string[] = [];
  for (const { before: was, after: now } of measures) {
    if (was === null || now === null) continue;
    const [stood, stands] = [isBehind(before, pair.before, was), isBehind(after, pair.after, now)];
    if (stands && !stood) behind.push(now.name);
    if (stood && !stands) ahead.push(now.name);
  }
  return { behind, ahead };
}
