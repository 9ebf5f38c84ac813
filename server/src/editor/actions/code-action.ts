import type { Finding } from '../../findings/rule/finding';
import type { TextEdit } from '../../text/edits';

/** Something the editor offers to do at a place: edits to the file that was asked about. */
export interface Action {
  readonly title: string;
  readonly kind: 'quickfix' | 'refactor.rewrite' | 'source.refreshSummaries' | 'source.fixAll.framewright';
  /** May be a getter: what is dear to make is made when it is chosen. */
  readonly edits: readonly TextEdit[];
  /** Of another file, with what is to be known before they are made: an editor shows them for consent first, where it can. */
  readonly elsewhere?: {
    readonly uri: string;
    readonly text: string;
    readonly edits: readonly TextEdit[];
    readonly told: string;
  };
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
  /** What it may be made of, one of which a person chooses, for an editor that asks: then these stand in the place of the edits. */
  readonly choices?: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
  /** What it writes is to be filled in or read: an editor brings it to front, with the cursor in it. */
  readonly reveals?: true;
  /** Something to look at in the place of edits: a command of the editor's side, with what it is called with behind the file's URI. */
  readonly shows?: { readonly command: ShowingCommand; readonly with: readonly (string | number)[] };
}

/** What an editor's side may say that it can show. */
export type ShowingCommand =
  | 'framewright.showDrawing'
  | 'framewright.showPlan'
  | 'framewright.goToReference'
  | 'framewright.signOff'
  | 'framewright.showUses'
  | 'framewright.choose'
  | 'framewright.reveal';

/** Stands in a comment of an edit for what only a person can say. */
export const reasonMark = '\uE000';

/** The same as a value, quoted. Left empty, it is reported as missing: nothing is signed in somebody's name. */
export const answerMark = `"${reasonMark}"`;

/** What an action needs to know of the world. */
export interface Moment {
  /** Such as 2026-03-05. */
  readonly today: string;
  /** What the editor's side can show. */
  readonly shows: ReadonlySet<string>;
}
