import type { DrawingAnswer, DrawingSection } from '@framewright/schemas/wire';

/** What the editor's side and the page of the drawing say to each other. */

/** The tabs of the page, in their order. */
export const sections = ['drawing', 'history', 'solid'] as const satisfies readonly DrawingSection[];

/** What is to be shown again when the window was loaded anew. Stages are counted from 0; null: the newest, none. */
export interface PageState {
  readonly file: string;
  readonly section: DrawingSection;
  readonly stage: number | null;
  readonly over: number | null;
  readonly selected: string | null;
}

export type ToPage =
  /** `heard`: the newest choice of the page that is in it; what was chosen since goes before what it says of the choices. */
  | {
      readonly kind: 'shown';
      readonly section: DrawingSection;
      readonly answer: DrawingAnswer;
      readonly heard: number;
      readonly pageState: PageState;
    }
  | { readonly kind: 'obstacle'; readonly text: string };

export type FromPage =
  /** The page is there and empty. */
  | { readonly kind: 'ready'; readonly width: number }
  /** A patch did not fit what is shown: everything is wanted again. */
  | { readonly kind: 'lost' }
  | { readonly kind: 'width'; readonly width: number }
  | { readonly kind: 'section'; readonly section: DrawingSection }
  | { readonly kind: 'stage'; readonly stage: number; readonly turn: number }
  | { readonly kind: 'over'; readonly over: number | null; readonly turn: number }
  /** To where the text says something of a point, or of its distance to another. */
  | { readonly kind: 'go'; readonly point: string; readonly to: string | null }
  /** A picture of what is seen: text, or a PNG in base 64. */
  | { readonly kind: 'save'; readonly type: 'svg' | 'png'; readonly content: string };
