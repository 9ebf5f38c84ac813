import type { Place } from '../text/tree';

/** The rules that reading a file can break; the findings room gives each its page and severity. */
export type ReadingRule =
  | 'text/syntax'
  | 'text/unknown-key'
  | 'text/wrong-type'
  | 'text/missing-key'
  | 'text/duplicate-key'
  | 'text/too-large'
  | 'name/unknown-point'
  | 'name/unknown-part'
  | 'name/needs-side'
  | 'name/file-not-found'
  | 'name/extends-cycle'
  | 'settings/ignore-matches-nothing';

/** A ready replacement of the text at a place. */
export interface Replacement {
  readonly title: string;
  readonly place: Place;
  readonly text: string;
  /** Other places that change with it. */
  readonly also?: readonly { readonly place: Place; readonly text: string }[];
}

/** Another place that belongs to the story; `uri` absent: the same file. */
export interface Related {
  readonly message: string;
  readonly place: Place;
  readonly uri?: string;
}

/** What was wrong where, found while text became a model. */
export interface Problem {
  readonly rule: ReadingRule;
  readonly message: string;
  readonly place: Place;
  readonly related?: readonly Related[];
  readonly replacements?: readonly Replacement[];
  /** No figure, no base, no tension and no renewal follows from what is wrong here: the rest of the job may be concluded from. */
  readonly local?: true;
}
