import type { TextRange } from '../../findings/rule/finding';

/** What is shown at a place, as Markdown. */
export interface HoverText {
  readonly markdown: string;
  readonly range: TextRange;
}
