import type { TextRange } from '../../findings/rule/finding';
import type { CursorContext } from './cursor-context';

/** Something that may be written at the cursor. */
export interface Completion {
  readonly label: string;
  readonly kind: 'key' | 'point' | 'part' | 'rule' | 'word' | 'file' | 'entry';
  /** With `$1`, `${2:word}` … for places to fill where `snippet`; lines after the first are indented from the line's own indent. */
  readonly text: string;
  readonly snippet: boolean;
  readonly replaces: TextRange;
  readonly detail: string | null;
  /** What a page can be shown of. */
  readonly subject: Subject | null;
}

export type Subject =
  | { readonly kind: 'key'; readonly path: readonly string[]; readonly entryKind: string }
  | { readonly kind: 'point' | 'part' | 'rule'; readonly name: string };

export interface Abilities {
  /** The editor fills places in. */
  readonly snippets: boolean;
  /** The chassis files that belong together with the file, by URI; asked for only where one is to be named. */
  readonly chassisFiles: () => Promise<readonly string[]>;
}

/** A completion in the place of the word at the cursor. */
export const inPlace = (
  { word, needsSpace }: CursorContext,
  { text, ...rest }: Pick<Completion, 'label' | 'kind' | 'text'> & Partial<Completion>,
): Completion => ({
  snippet: false,
  detail: null,
  subject: null,
  replaces: word,
  text: needsSpace ? ` ${text}` : text,
  ...rest,
});

/** A text inside a snippet, in which a dollar and a closing brace mean something. */
export const inSnippet = (text: string): string => text.replace(/[\\$}]/g, '\\$&');
