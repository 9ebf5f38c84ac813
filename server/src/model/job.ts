import type { JudgingVersion } from '@framewright/schemas';
import type { Vec3 } from '../geometry/vector';
import type { Place } from '../text/tree';
import type { Direction } from './axes';
import type { Joining } from './chassis';
import type { Problem } from './problem';
import type { TypedTriple } from './typed-numbers';
import type { Unit } from './units';

export type { Direction } from './axes';

/** All standard uncertainties in mm; null where the file does not state it. */
export interface Instrument {
  readonly name: string | null;
  readonly serial: string | null;
  /** A date, as written. */
  readonly calibrated: string | null;
  readonly uncertaintyMm: number | null;
  readonly repeatabilityMm: number | null;
  readonly spanUncertaintyMm: number | null;
  readonly place: Place;
}

export interface Reading {
  readonly id: string;
  /** Repeats in mm in the instrument's own axes and order; empty where it has none. */
  readonly triplesMm: readonly Vec3[];
  readonly unreachable: boolean;
  /** Not read again: the earlier reading counts, and stays as old as it is. */
  readonly asBefore: boolean;
  readonly key: Place;
  readonly value: Place;
  /** The digits of each repeat; null where they are not all typed here (an alias, a repeat that was left out). Made when asked for. */
  readonly typed: readonly TypedTriple[] | null;
  /** The name is typed here as it is: neither in quotes nor an alias. */
  readonly hasPlainKey: boolean;
}

/** Whether a row says where its point stands, and not only a word. */
export const hasNumbers = ({ triplesMm }: Pick<Reading, 'triplesMm'>): boolean => triplesMm.length > 0;

export interface SpanReading {
  readonly from: string;
  readonly to: string;
  readonly distancesMm: readonly number[];
  readonly unreachable: boolean;
  readonly fromPlace: Place;
  readonly toPlace: Place;
  readonly place: Place;
}

/** A line of text that the technician chose to insert: `front-rail.L twist`: `2.3° …`. */
export interface SummaryLine {
  readonly key: string;
  readonly text: string;
  readonly keyPlace: Place;
  readonly valuePlace: Place;
}

/** An id as written somewhere, with its place. */
export interface Mention {
  readonly id: string;
  readonly place: Place;
}

/** A row of readings that stands as a comment. `mark`: what makes it one. */
export interface LeftOutRow {
  readonly id: string;
  readonly place: Place;
  readonly mark: Place;
}

interface EntryBase {
  /** The whole entry; its first key. */
  readonly place: Place;
  readonly keyPlace: Place;
  readonly note: string | null;
}

export interface Measure extends EntryBase {
  readonly kind: 'measure';
  readonly name: string;
  readonly by: string | null;
  readonly at: string | null;
  readonly setUp: 'same' | 'new' | null;
  readonly instrument: Instrument | null;
  readonly conditions: ReadonlyMap<string, { text: string; place: Place }> | null;
  readonly readings: readonly Reading[];
  readonly spans: readonly SpanReading[];
  readonly summary: readonly SummaryLine[];
}

export interface Observe extends EntryBase {
  readonly kind: 'observe';
  readonly what: 'kink' | 'buckle' | 'tear' | 'crack' | 'corrosion' | 'gap';
  readonly part: Mention | null;
  readonly atMm: number | null;
  /** What became of it; null where the file does not say, or not by whom, when and how. */
  readonly answered: Answer | null;
}

export interface Answer {
  readonly by: string;
  readonly date: string;
  readonly how: string;
}

export interface Chain {
  readonly hook: Mention;
  /** Vehicle axes, any length. */
  readonly direction: Vec3 | null;
  readonly forceKn: number | null;
  readonly place: Place;
}

export type Hold =
  | { readonly kind: 'part'; readonly part: Mention; readonly atMm: number }
  | { readonly kind: 'point'; readonly point: Mention };

export interface Pull extends EntryBase {
  readonly kind: 'pull';
  readonly title: string;
  readonly part: Mention | null;
  readonly chains: readonly Chain[];
  readonly holds: readonly Hold[];
  /** Something under `hold` cannot be read: there may be a hold that is not in the list. */
  readonly holdsUnclear: boolean;
  readonly plan: readonly SummaryLine[];
}

/** `all`: everything under tension. */
export interface RelieveOrRelease extends EntryBase {
  readonly kind: 'relieve' | 'release';
  readonly parts: 'all' | readonly Mention[];
}

export interface Section extends EntryBase {
  readonly kind: 'section';
  readonly part: Mention;
  /** Along the part: none where it is not stated, one, or two with the lower first. */
  readonly cutsMm: readonly number[];
  /** With one cut: on which side of it the metal is new, where the file says so. */
  readonly beyond: 'low' | 'high' | null;
}

export interface Replace extends EntryBase {
  readonly kind: 'replace';
  readonly part: Mention;
}

export interface Join extends EntryBase {
  readonly kind: 'join';
  readonly parts: readonly Mention[];
  /** Null: as each part is attached. */
  readonly how: readonly Joining[] | null;
  /** Null: not stated. */
  readonly to: readonly Mention[] | null;
}

export interface Heat extends EntryBase {
  readonly kind: 'heat';
  readonly part: Mention;
  readonly toCelsius: number | null;
  readonly forSeconds: number | null;
}

interface Note extends EntryBase {
  readonly kind: 'note';
  readonly text: string;
}

export type TimelineEntry =
  | Measure
  | Observe
  | Pull
  | RelieveOrRelease
  | Section
  | Replace
  | Join
  | Heat
  | Note;

export type BaseSetting =
  | { readonly kind: 'auto' }
  | { readonly kind: 'ids'; readonly ids: readonly Mention[] }
  | { readonly kind: 'between'; readonly fromMm: number; readonly toMm: number };

export interface SignOff {
  readonly by: string | null;
  readonly date: string | null;
  /** What the chassis was when it was signed: its seal, or the SHA-256 of its files in an older signature. */
  readonly chassis: string | null;
  readonly chassisPlace: Place | null;
  /** The seal over what was judged; null in an older signature. */
  readonly readings: string | null;
  readonly readingsPlace: Place | null;
  /** The version of the program that judged the job when it was signed. */
  readonly judgedBy: JudgingVersion;
  readonly accepted: readonly { readonly point: Mention; readonly reason: string }[];
  readonly place: Place;
  readonly keyPlace: Place;
}

/** A line that is silenced with a reason in words. */
export interface GivenIgnore {
  readonly rule: string;
  /** `3 rail-tip.L`: entry and row; `3`: entry; else a key at the top of the file. */
  readonly at: string;
  readonly reason: string;
}

export interface Job {
  readonly uri: string;
  readonly unit: Unit;
  /** Whether places along the car are still numbers of its sheet, or counted as vehicle axes are: `placedJob`. */
  readonly places: 'sheet' | 'vehicle';
  /** As written, relative to the job file. */
  readonly chassisPath: string | null;
  readonly chassisPlace: Place | null;
  readonly order: string | null;
  readonly orderPlace: Place | null;
  readonly technician: string | null;
  readonly instrument: Instrument | null;
  readonly axes: readonly [Direction, Direction, Direction];
  readonly base: BaseSetting;
  readonly basePlace: Place | null;
  readonly conditions: ReadonlyMap<string, { text: string; place: Place }>;
  readonly anchors: readonly Mention[];
  /** Null where the file states none. */
  readonly scope: readonly Mention[] | null;
  readonly timeline: readonly TimelineEntry[];
  readonly signOff: SignOff | null;
  readonly ignores: readonly GivenIgnore[];
  /** Rows that stand as comments, with all their numbers. */
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
  /** A syntax error anywhere, or a wrong type or duplicate in the timeline that figures or work depend on: what needs the whole job is held back. */
  readonly broken: boolean;
  /** Where a finding about the whole file stands: its first line of content. */
  readonly head: Place;
}
