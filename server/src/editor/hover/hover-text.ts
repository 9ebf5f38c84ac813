import type { Finding, TextRange } from '../../findings/rule/finding';

/** What is shown at a place, as Markdown. */
export interface HoverText {
  readonly markdown: string;
  readonly range: TextRange;
}

/** What findings say at an offset: an editor shows it in the same box, so a hover leaves it to them. */
export const toldAt = (findings: readonly Finding[], offset: number): readonly string[] =>
  findings
    .filter(({ ignored, range }) => ignored === null && offset >= range.start && offset <= range.end)
    .map(({ message }) => message);
