/** What the editor's side and the page of the drawing say to each other. */

/** The tabs of the page, in their order. */
export const sections = ['drawing', 'history', 'solid'] as const;
export type Section = (typeof sections)[number];

/** What has to be done to a picture or a table that the page shows; made by the server. */
export interface SheetPatch {
  readonly name: string;
  /** The outer element without its content where it is made anew; null: it stays. */
  readonly shell: string | null;
  /** All keys in their order, where that changed. */
  readonly order: readonly string[] | null;
  readonly pieces: readonly (readonly [key: string, markup: string])[];
}

export type Place = readonly [number, number, number];
export type Line = readonly [Place, Place];

/** The drawing in space; vehicle axes, mm, deviations magnified. */
export interface Solid {
  readonly factor: number;
  readonly stage: string | null;
  readonly over: string | null;
  readonly cautions: readonly string[];
  readonly least: Place;
  readonly most: Place;
  readonly points: readonly SolidPoint[];
  readonly parts: readonly {
    readonly id: string;
    readonly lines: readonly Line[];
    readonly measured: readonly Line[];
  }[];
  /** The datum plane. */
  readonly ground: readonly { readonly kind: 'grid' | 'zero' | 'centreline'; readonly line: Line }[];
  readonly gridText: string;
  /** Outline of each kind of mark about 0, path data in px. */
  readonly symbols: Readonly<Record<string, string>>;
}

export interface SolidPoint {
  readonly id: string;
  /** Its arrow is longer than there was room for. */
  readonly cut: boolean;
  /** Something of it could not be judged: the arrow shows the rest. */
  readonly partial: boolean;
  readonly state: string;
  readonly at: Place;
  readonly tip: Place | null;
  readonly earlier: Place | null;
  readonly named: boolean;
  readonly selected: boolean;
  readonly text: string;
}

/** What the server answers to `framewright/drawing`. Stages are counted from 0. */
export interface Answer {
  readonly revision: number;
  readonly title: string;
  readonly obstacle: string | null;
  readonly stages: readonly { readonly name: string; readonly underTension: boolean }[];
  readonly stage: number | null;
  readonly over: number | null;
  readonly selected: string | null;
  readonly cursorStage: number | null;
  readonly sheets: readonly SheetPatch[];
  /** Names of all sheets that are to be shown. */
  readonly names: readonly string[];
  readonly solid: Solid | null;
  /** The style sheet of the pictures, in the first answer to a view. */
  readonly styles: string | null;
}

/** What is to be shown again when the window was loaded anew. Stages are counted from 0; null: the newest, none. */
export interface PageState {
  readonly file: string;
  readonly section: Section;
  readonly stage: number | null;
  readonly over: number | null;
  readonly selected: string | null;
}

export type ToPage =
  /** `heard`: the newest choice of the page that is in it; what was chosen since goes before what it says of the choices. */
  | {
      readonly kind: 'shown';
      readonly section: Section;
      readonly answer: Answer;
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
  | { readonly kind: 'section'; readonly section: Section }
  | { readonly kind: 'stage'; readonly stage: number; readonly turn: number }
  | { readonly kind: 'over'; readonly over: number | null; readonly turn: number }
  /** To where the text says something of a point, or of its distance to another. */
  | { readonly kind: 'go'; readonly point: string; readonly to: string | null }
  /** A picture of what is seen: text, or a PNG in base 64. */
  | { readonly kind: 'save'; readonly type: 'svg' | 'png'; readonly content: string };
