import type { Replacement } from '../../model/problem';
import type { Severity } from '../../model/read/settings';

/** Absolute offsets in the text of the file, half-open, UTF-16 units. */
export interface TextRange {
  readonly start: number;
  readonly end: number;
}

/** What is said of a file at a place. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly range: TextRange;
  readonly related: readonly { readonly uri: string; readonly message: string; readonly range: TextRange }[];
  /** The reason given where the line silences this rule. */
  readonly ignored: string | null;
  readonly replacements: readonly Replacement[];
}
