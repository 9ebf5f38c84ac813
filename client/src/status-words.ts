import type { Entry } from '@framewright/schemas/wire';
import { countWords, stateIcon, stateWords, worstWords } from './jobs/entry-words';
import { nameOf } from './jobs/job-entries';

/** What the status bar and the language status tell of the open job. */
export interface StatusWords {
  /** Name of an icon of the editor's theme. */
  readonly icon: string;
  readonly text: string;
  readonly state: string;
  /** The worst point, in words. */
  readonly worst: string | null;
  /** What else there is to say of it. */
  readonly detail: string;
  readonly spoken: string;
  readonly severity: 'information' | 'warning' | 'error';
  /** Where a click goes. */
  readonly goesTo: 'worst point' | 'problems' | 'sign-off' | 'jobs';
}

/** Null for what is no job, or not looked at yet. */
export const statusOf = (entry: Entry | undefined): StatusWords | null => {
  if (entry?.kind !== 'job') return null;
  const state = stateWords(entry.state);
  const worst = worstWords(entry);
  const counts = countWords(entry);
  const isBad = entry.state === 'sign-off-fails' || entry.state === 'text-errors';
  return {
    icon: stateIcon(entry.state),
    text: worst ? `${state} · ${worst}` : state,
    state,
    worst,
    detail: [entry.stage, counts].filter((part) => !!part).join(' · '),
    spoken: [`Job ${nameOf(entry)}`, state, counts, worst && `worst ${worst}`]
      .filter((part) => !!part)
      .join(', '),
    severity: isBad ? 'error' : entry.state === 'no-chassis' ? 'warning' : 'information',
    goesTo:
      entry.state === 'text-errors'
        ? 'problems'
        : entry.state === 'ready'
          ? 'sign-off'
          : worst
            ? 'worst point'
            : 'jobs',
  };
};
