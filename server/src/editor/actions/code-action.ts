import type { Finding } from '../../findings/rule/finding';
import type { TextEdit } from '../../text/edits';

/** Something the editor offers to do at a place: edits to the file that was asked about. */
export interface Action {
  readonly title: string;
  readonly kind: 'quickfix' | 'refactor.rewrite' | 'source.refreshSummaries' | 'source.fixAll.framewright';
  /** May be a getter: what is dear to make is made when it is chosen. */
  readonly edits: readonly TextEdit[];
  readonly preferred: boolean;
  /** The finding that it mends. */
  readonly mends: Finding | null;
  /** What a person must say first; it takes the place of every mark in the edits. */
  readonly ask?: {
    readonly question: string;
    readonly of: 'name' | 'reason';
    /** What was signed is sealed once the answer stands in the file. */
    readonly thenSeals?: true;
  };
}

/** Stands in a comment of an edit for what only a person can say. */
export const reasonMark = '\uE000';

/** The same as a value, quoted. Left empty, it is reported as missing: nothing is signed in somebody's name. */
export const answerMark = `"${reasonMark}"`;

/** What an action needs to know of the world. */
export interface Moment {
  /** Such as 2026-03-05. */
  readonly today: string;
}
