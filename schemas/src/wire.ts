/**
 * What the language server and the VS Code side say to each other besides the protocol's own messages: types alone, written once. How each
 * is asked for stands at its feature in `server/src/protocol/features/`.
 */

/** A place in a text, lines and characters counted from 0. */
export interface LinePosition {
  readonly line: number;
  readonly character: number;
}

export interface LineRange {
  readonly start: LinePosition;
  readonly end: LinePosition;
}

/** Where the only cursor of a document is. */
export interface CursorNote {
  readonly uri: string;
  /** Null: in none of its lines, or what was typed is to be judged at once. */
  readonly line: number | null;
}

/** Where a job stands. `ready`: nothing stands against a sign-off of its dimensions. */
export type JobState =
  | 'open'
  | 'ready'
  | 'signed'
  | 'sign-off-fails'
  | 'text-errors'
  | 'no-chassis'
  | 'unmeasured';

/** A job in a line: what a list of jobs shows. Counts are of newest released readings, points and distances. */
export interface JobEntry {
  readonly kind: 'job';
  readonly uri: string;
  /** The number of the work order. */
  readonly order: string | null;
  readonly state: JobState;
  /** The newest measure's title. */
  readonly stage: string | null;
  readonly counts: Readonly<Record<'within' | 'outside' | 'undecided' | 'unjudged', number>>;
  /** The point farthest past its limit: `20.0 mm too far left (outboard)`, and the place of its row. */
  readonly worst: { readonly id: string; readonly words: string; readonly range: LineRange } | null;
  /** How many things stand against a sign-off. */
  readonly remaining: number;
  /** The chassis file that it names, be it there or not. */
  readonly chassis: string | null;
  /** Findings shown of each severity. */
  readonly errors: number;
  readonly warnings: number;
}

export interface ChassisEntry {
  readonly kind: 'chassis';
  readonly uri: string;
  readonly vehicle: string;
  readonly points: number;
  readonly controlPoints: number;
  readonly errors: number;
  readonly warnings: number;
}

/** A job or chassis file as a list of them shows it. */
export type Entry =
  | JobEntry
  | ChassisEntry
  /** It could not be read, or not be judged; `message` says why. */
  | { readonly kind: 'unreadable'; readonly uri: string; readonly message: string }
  /** It was not looked at yet, or will not be. */
  | { readonly kind: 'unchecked'; readonly uri: string; readonly of: 'job' | 'chassis' };

export interface Listing {
  readonly entries: readonly Entry[];
  /** How many files beyond the most that are listed. */
  readonly left: number;
  /** Folders and links that were not looked into, and why. */
  readonly unread: readonly { readonly uri: string; readonly message: string }[];
  /** Whether the workspace is still being gone through. */
  readonly checking: boolean;
}

/** What changed in a listing: `gone` is dropped first, then entries take the place of those with the same URI. */
export interface ListingChange extends Listing {
  readonly gone: readonly string[];
}

/** A point of a chassis file as a list shows it. */
export interface PointLine {
  readonly id: string;
  /** `1200 forward, 420 left, 95 up`, in the file's unit. */
  readonly position: string;
  readonly part: string | null;
  readonly base: boolean;
  /** Null where it stands in a file that this one extends. */
  readonly range: LineRange | null;
}

export interface ChassisPoints {
  /** In the order of the file. */
  readonly points: readonly PointLine[];
  /** Ids, in the order in which they are read. */
  readonly order: readonly string[];
}

/** A row that is outside tolerance, and what a person is told on coming to it. */
export interface OutsidePlace {
  readonly range: LineRange;
  readonly words: string;
}

/** How a job stands to its sign-off, for who asks to sign it. */
export interface StandingAnswer {
  /** The job is signed; then `against` is what no longer holds. */
  readonly isSigned: boolean;
  /** What stands against it, each with a way to it. */
  readonly against: readonly OutsidePlace[];
  /** The signature: with who signs to be asked for, or where points are accepted with reasons that are filled in afterwards, as it is. */
  readonly signature:
    | EditsWithQuestion
    | { readonly uri: string; readonly ask: null; readonly edits: readonly WireEdit[] }
    | null;
}

/** Reference points by the car of a job, for a person to agree to; or, in words, why there are none. */
export type ReferencePointsAnswer =
  | { readonly message: string }
  | {
      /** The chassis file that takes them. */
      readonly uri: string;
      /** Its version in the editor; null where it is not open there. */
      readonly version: number | null;
      /** How many points are given; of none there are no edits. */
      readonly given: number;
      readonly edits: readonly WireEdit[];
      /** What is to be known of the car, then of each new point: how well it is known, and what is not. */
      readonly said: readonly string[];
      /** Points that are not given, and why. */
      readonly refused: readonly string[];
      /** Points that the file has, as the car has them: those that do not agree first. */
      readonly compared: readonly string[];
    };

/** A place in a file. */
export interface FilePlace {
  readonly uri: string;
  readonly range: LineRange;
}

export type DrawingSection = 'drawing' | 'history' | 'solid';

/** What somebody looks at. Stages are counted from 0. */
export interface DrawingQuestion {
  readonly uri: string;
  /** Names the view that asks; what it shows is kept in mind. */
  readonly view: string;
  /** The revision that it shows; null: nothing. */
  readonly known: number | null;
  readonly section: DrawingSection;
  /** Null: the newest. */
  readonly stage: number | null;
  /** The stage that it is laid over. */
  readonly over: number | null;
  readonly selected: string | null;
  /** The cursor in the text; null where it is elsewhere. */
  readonly cursor: LinePosition | null;
  /** The stage that the cursor stood in when it was last asked: only where it enters another does the drawing follow. */
  readonly cursorStage: number | null;
  /** Room for the widest picture, px. */
  readonly width: number;
}

/** What is to be shown; stages and selection as they came out. */
export interface DrawingAnswer {
  readonly revision: number;
  readonly title: string;
  /** What stands in the way of a drawing, in words; null where nothing does. */
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
  /** The style sheet of the pictures, to a view that shows nothing yet. */
  readonly styles: string | null;
}

/** What has to be done to a picture or a table that is shown. */
export interface SheetPatch {
  readonly name: string;
  /** The outer element without its content where it is made anew; null: it stays. */
  readonly shell: string | null;
  /** All keys in their order, where keys went, came or changed places; null: as before. */
  readonly order: readonly string[] | null;
  /** The pieces that are new or differ. */
  readonly pieces: readonly (readonly [key: string, markup: string])[];
}

/** Vehicle axes, mm. */
export type Place = readonly [number, number, number];
export type Line = readonly [Place, Place];

/**
 * The drawing in space: vehicle axes, mm, deviations times `factor`. A view turns and draws it and works nothing out about the car.
 */
export interface Solid {
  readonly factor: number;
  readonly stage: string | null;
  readonly over: string | null;
  readonly cautions: readonly string[];
  /** What is drawn lies between these. */
  readonly least: Place;
  readonly most: Place;
  readonly points: readonly SolidPoint[];
  readonly parts: readonly SolidPart[];
  /** The datum plane: a grid, the centreline and length zero. */
  readonly ground: readonly { readonly kind: 'grid' | 'zero' | 'centreline'; readonly line: Line }[];
  /** Between two lines of the grid, in the file's unit: `500 mm`. */
  readonly gridText: string;
  /** Outline of each kind of mark about 0, path data in px. */
  readonly symbols: Readonly<Record<string, string>>;
}

export interface SolidPoint {
  readonly id: string;
  /** The kind of its mark: a verdict, or why there is none. */
  readonly state: string;
  readonly at: Place;
  /** Where its magnified deviation ends; null where none is known. */
  readonly tip: Place | null;
  /** Longer than there was room for: it ends short of its tip. */
  readonly cut: boolean;
  /** Something of it could not be judged: the arrow shows the rest. */
  readonly partial: boolean;
  /** The same in the stage that this one is laid over. */
  readonly earlier: Place | null;
  /** Its name is shown. */
  readonly named: boolean;
  readonly selected: boolean;
  readonly text: string;
}

export interface SolidPart {
  readonly id: string;
  readonly lines: readonly Line[];
  /** The same through the magnified readings, of a part that has moved, as far as both ends were read on all axes. */
  readonly measured: readonly Line[];
}

/** The record of a job, and what its page may be called; or why there is none, in words for a person. */
export type RecordAnswer = { readonly html: string; readonly name: string } | { readonly message: string };

/** The pull plans of a job, of one part or of all that need work; or why there are none, in words for a person. */
export type PlanAnswer =
  | { readonly text: string; readonly links: readonly PlanLink[] }
  | { readonly message: string };

/** A name in the text of a plan, and the row of the job that it was read in last; lines and characters count from 0. */
export interface PlanLink {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly row: { readonly line: number; readonly character: number };
}

/** In Markdown; null where there is no such rule. */
export interface RulePageAnswer {
  readonly markdown: string | null;
}

/** What stands in a file of the editor; null where there is no such file. */
export interface FileText {
  readonly text: string | null;
}

export interface FileUris {
  readonly uris: readonly string[];
}

/** Edits that wait for something only a person can say, such as who signs: what `framewright.applyWithAnswer` is called with. */
export interface EditsWithQuestion {
  readonly uri: string;
  readonly ask: string;
  readonly of: 'name' | 'reason';
  /** What stands in the edits where the answer belongs. */
  readonly mark: string;
  readonly edits: readonly WireEdit[];
  /** What was signed is sealed afterwards. */
  readonly thenSeals?: true;
}

/** Edits of which a person chooses one set: what `framewright.choose` is called with. */
export interface EditChoices {
  readonly uri: string;
  readonly title: string;
  readonly choices: readonly { readonly title: string; readonly edits: readonly WireEdit[] }[];
}

export interface WireEdit {
  readonly range: LineRange;
  readonly newText: string;
}

/** Text that is pasted in the place of a range of one of our files. */
export interface PasteQuestion {
  readonly uri: string;
  readonly range: LineRange;
  readonly text: string;
}

/** The rows that a pasted table becomes; or why a table stays as it is, in words for a person. Null for what is no table. */
export type PasteAnswer =
  | { readonly title: string; readonly edits: readonly WireEdit[] }
  | { readonly message: string }
  | null;

/** A table on its way into a job or a chassis file. */
export interface TableQuestion {
  readonly uri: string;
  /** Text of a file that is not there yet. */
  readonly begun: string | null;
  /** The table's bytes in base64. */
  readonly bytes: string;
  /** A layout of the settings by its name; null: the one that fits, else one that is guessed. */
  readonly layout: string | null;
  /** Rows with unknown names are taken for the point that lies there. */
  readonly byPlace: boolean;
}

/** What a table was understood as; or why it is not read, in words for a person. */
export type TableAnswer = { readonly message: string } | TableUnderstood;

export interface TableUnderstood {
  /** What parts its cells, and which column holds what. */
  readonly understood: string;
  /** The layout of the settings by which it was read; null: it was guessed. */
  readonly layout: string | null;
  /** The guessed layout as it would stand in the settings, below its name. */
  readonly guessed: readonly string[];
  /** Names of all layouts of the settings. */
  readonly layouts: readonly string[];
  /** `as received: 30 points in 33 rows, 0 distances`. */
  readonly said: string;
  /** Rows that were not understood, with row and column; they become comments. The first ones. */
  readonly refused: readonly string[];
  readonly refusedCount: number;
  /** How many of these lie where one point is that was not read. */
  readonly byPlace: number;
  /** Rows that hold no point. */
  readonly leftOut: readonly string[];
  /** The whole file afterwards, where it was begun. */
  readonly text: string | null;
  readonly edits: readonly WireEdit[];
}

/** How far a table was followed. */
export interface FollowMark {
  readonly row: number;
  readonly check: number;
}

export interface FollowQuestion {
  readonly uri: string;
  readonly bytes: string;
  readonly layout: string | null;
  /** Null: from the beginning of the table; `now`: only what is written from now on. */
  readonly since: FollowMark | 'now' | null;
}

/** What came to a table that grows; `waits`: why nothing can be read in it yet; `ended`: why it is no longer followed. */
export type FollowAnswer =
  | {
      readonly kind: 'followed';
      readonly mark: FollowMark;
      readonly rows: number;
      readonly left: number;
      readonly edits: readonly WireEdit[];
    }
  | { readonly kind: 'waits' | 'ended'; readonly message: string };

/** A guessed layout that a person agrees to. */
export interface LayoutQuestion {
  /** Of the file that the table went into. */
  readonly uri: string;
  readonly name: string;
  readonly lines: readonly string[];
}

/** The settings with it: edits of the file that there is, or the text of a new one; or why not, in words for a person. */
export type LayoutAnswer =
  | { readonly message: string }
  | { readonly uri: string; readonly text: string | null; readonly edits: readonly WireEdit[] };
