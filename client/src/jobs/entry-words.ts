import type { ChassisEntry, Entry, JobEntry, JobState } from '@framewright/schemas/wire';
import { nameOf } from './job-entries';

/** A line of a view as plain data: what is drawn, and what a screen reader says in its place. */
interface Line {
  readonly label: string;
  readonly description: string;
  readonly tooltip: string;
  readonly spoken: string;
  /** Name of an icon of the editor's theme, and of a colour of it. */
  readonly icon: string;
  readonly colour: string | null;
  /** What the menus of the line go by. */
  readonly context: string;
}

interface Look {
  readonly words: string;
  readonly icon: string;
  readonly colour: string | null;
}

const good = 'testing.iconPassed';
const bad = 'list.errorForeground';
const doubtful = 'list.warningForeground';

/** The state is told by the words and the shape of the icon; the colour only repeats it. */
const looks: Readonly<Record<JobState, Look>> = {
  open: { words: 'open', icon: 'tools', colour: null },
  ready: { words: 'ready for sign-off', icon: 'pass', colour: good },
  signed: { words: 'signed off', icon: 'verified-filled', colour: good },
  'sign-off-fails': { words: 'signed off, but does not hold', icon: 'error', colour: bad },
  'text-errors': { words: 'errors in the text', icon: 'warning', colour: bad },
  'no-chassis': { words: 'no chassis file', icon: 'question', colour: doubtful },
  unmeasured: { words: 'nothing measured', icon: 'circle-large-outline', colour: null },
};

export const stateWords = (state: JobState): string => looks[state].words;

export const stateIcon = (state: JobState): string => looks[state].icon;

/** `3 outside, 1 undecided, 12 within`: what there is none of is left out, and all of it while the text has errors: it may not last. */
export const countWords = (
  { counts, state }: JobEntry,
  verdicts: readonly (keyof JobEntry['counts'])[] = ['outside', 'undecided', 'within', 'unjudged'],
): string => {
  if (state === 'text-errors') return '';
  const words = verdicts
    .filter((verdict) => counts[verdict] > 0)
    .map((verdict) => `${counts[verdict]} ${verdict}`);
  return words.join(', ');
};

export const worstWords = ({ worst, state }: JobEntry): string | null =>
  worst && state !== 'text-errors' ? `${worst.id} ${worst.words}` : null;

/** @param path of the file in its folder, as people read it */
export const lineOf = (entry: Entry, path: string): Line => {
  const label = nameOf(entry);
  switch (entry.kind) {
    case 'job':
      return jobLine(entry, label, path);
    case 'chassis':
      return chassisLine(entry, label, path);
    case 'unreadable':
      return {
        label,
        description: entry.message,
        tooltip: `${path}\n${entry.message}`,
        spoken: `${label}, cannot be read: ${entry.message}`,
        icon: 'circle-slash',
        colour: bad,
        context: 'unreadable',
      };
    case 'unchecked':
      return {
        label,
        description: 'not looked at yet',
        tooltip: path,
        spoken: `${label}, not looked at yet`,
        icon: 'ellipsis',
        colour: null,
        context: entry.of,
      };
  }
};

const jobLine = (entry: JobEntry, label: string, path: string): Line => {
  const { words, icon, colour } = looks[entry.state];
  const counts = countWords(entry);
  const worst = worstWords(entry);
  const told = (...parts: (string | null | false)[]): string[] => parts.flatMap((part) => part || []);
  const remaining =
    entry.state === 'open' && entry.remaining > 0
      ? `${entry.remaining} ${entry.remaining === 1 ? 'thing stands' : 'things stand'} against the sign-off`
      : null;
  return {
    label,
    // what is to be done first: the rest may not fit in
    description: told(words, countWords(entry, ['outside', 'undecided']), entry.stage).join(' · '),
    tooltip: told(
      path,
      words,
      entry.stage && `newest measure: ${entry.stage}`,
      counts,
      worst && `worst: ${worst}`,
      remaining,
    ).join('\n'),
    spoken: told(
      label,
      words,
      entry.stage && `newest measure ${entry.stage}`,
      counts,
      worst && `worst ${worst}`,
    ).join(', '),
    icon,
    colour,
    context: 'job',
  };
};

const chassisLine = (entry: ChassisEntry, label: string, path: string): Line => {
  const points = `${entry.points} ${entry.points === 1 ? 'point' : 'points'}`;
  const control = `${entry.controlPoints} of them control points`;
  return {
    label,
    description: points,
    tooltip: `${path}\n${points}, ${control}`,
    spoken: `${label}, chassis file, ${points}, ${control}`,
    icon: 'list-tree',
    colour: null,
    context: 'chassis',
  };
};

/** What is said where a job has no row to go to. Only what is known is said: nothing outside is not the same as nothing judged. */
export const nothingOutsideWords = (entry: Entry | undefined): string => {
  if (entry?.kind !== 'job') return 'Nothing is judged here: this file is not a job.';
  const { state, counts } = entry;
  if (state === 'text-errors') return 'The text has errors: nothing is judged until they are corrected.';
  if (state === 'no-chassis') return 'Without its chassis file nothing of this job can be judged.';
  if (state === 'unmeasured' || counts.within + counts.outside + counts.undecided === 0)
    return 'Nothing of this job can be judged yet.';
  if (counts.undecided > 0)
    return `No point is certainly outside its tolerance; ${counts.undecided} too near to tell.`;
  return 'No point is outside its tolerance as measured last.';
};
