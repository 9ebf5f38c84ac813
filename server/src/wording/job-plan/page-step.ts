/** A step of a plan in words: its title, and a line of text for each label. */
export interface PageStep {
  readonly title: string;
  readonly lines: readonly (readonly [label: string, text: string])[];
}

/** Where the text of a line begins, in characters. */
export const stepIndent = 11;
