import type { Vec3 } from '../geometry/vector';
import type { Place } from '../text/tree';
import type { Axis, Limits } from './axes';
import type { Side } from './names';
import type { Overrides } from './overrides';
import type { Problem } from './problem';

import type { SheetAxes, Sign, Signs } from './sheet-axes';
import type { TypedNumber, TypedTriple } from './typed-numbers';
import type { Unit } from './units';

export { type Axis, axes, type Limits } from './axes';
export type AxisLimits = readonly [Limits, Limits, Limits];

type Steel = 'mild' | 'high-strength' | 'ultra-high-strength' | 'press-hardened' | 'aluminium' | 'other';
type Straighten = 'freely' | 'minor' | 'never';
export type Joining = 'welded' | 'bonded' | 'riveted' | 'bolted';
type SourceKind = 'published' | 'donor' | 'mirrored' | 'measured';
/** The maker's limit on heat: temperature in °C, time in s or null where none is recorded. */
export type HeatLimit = 'never' | { readonly toCelsius: number; readonly forSeconds: number | null };

export interface Source {
  readonly kind: SourceKind;
  readonly reference: string | null;
  readonly date: string | null;
}

/** Where something stands: the file and the place in it. */
export interface Origin {
  readonly uri: string;
  readonly place: Place;
}

/** Where three coordinates stand. */
export interface CoordinatesOrigin extends Origin {
  /** Their digits in the signs of the file: length, width, height; null where they are not all typed here (an alias). Made when asked for. */
  readonly typed: TypedTriple | null;
}

export interface Part {
  readonly id: string;
  readonly name: string;
  readonly side: Side | null;
  /** The axis along which the part runs. */
  readonly along: Axis;
  /** A place along it is, in the sheet that the job names, so many times the vehicle's. */
  readonly sheetSign: Sign;
  readonly steel: Steel | null;
  /** Null: the maker's procedure was not recorded. */
  readonly straighten: Straighten | null;
  /** The band along the part in which a cut is allowed, mm in vehicle axes, low first. */
  readonly section: readonly [number, number] | null;
  readonly heat: HeatLimit | null;
  /** How it is joined to the body. */
  readonly attached: readonly Joining[];
  /** Ids of the parts that it is welded or bonded to, as it or the other states. */
  readonly joined: readonly string[];
  readonly reference: string | null;
  readonly origin: Origin;
}

/** A stiff part that can be taken out: `conditions` say under its name whether it is in or out. */
export interface Member {
  readonly name: string;
  /** Ids of the points that it is bolted to. */
  readonly mounts: readonly string[];
}

export interface Point {
  readonly id: string;
  readonly name: string;
  readonly side: Side | null;
  /** Vehicle axes, mm. */
  readonly reference: Vec3;
  /** Its numbers in the sheet that the job names are so many times these. */
  readonly sheetSigns: Signs;
  /** Vehicle axes, mm: a lopsided width is already swapped on the right. */
  readonly limits: AxisLimits;
  /** Standard uncertainty of the reference itself, mm: on each axis, or the largest of three. */
  readonly uncertaintyMm: number;
  /** The three, where the file states each. */
  readonly uncertaintyByAxisMm: Vec3 | null;
  readonly part: string | null;
  /** A control point that a job may be aligned on. */
  readonly base: boolean;
  readonly fixing: string | null;
  readonly source: Source | null;
  /** The name's place; the coordinates' place. */
  readonly origin: Origin;
  readonly coordinates: CoordinatesOrigin;
}

/** Variance of a reference on one axis, mm². */
export const referenceVariance = (
  { uncertaintyMm, uncertaintyByAxisMm }: Pick<Point, 'uncertaintyMm' | 'uncertaintyByAxisMm'>,
  axis: Axis,
): number => (uncertaintyByAxisMm?.[axis] ?? uncertaintyMm) ** 2;

export interface Span {
  readonly from: string;
  readonly to: string;
  readonly distanceMm: number;
  readonly limits: Limits;
  /** Standard uncertainty of the listed distance, mm. */
  readonly uncertaintyMm: number;
  /** Read in the horizontal projection. */
  readonly level: boolean;
  readonly origin: Origin;
  /** The digits of its distance, in the file of its origin; null where they are not typed there (an alias). */
  readonly typedDistance: TypedNumber | null;
}

/** A distance that a parent lists and that does not hold for this body: it gives a position of its own to an end. */
export interface DroppedSpan extends Omit<Span, 'limits'> {
  /** The end with the new position; where both have one, the first. */
  readonly movedId: string;
  /** Null: what is in force otherwise. */
  readonly limits: Limits | null;
}

/** A distance that a file lists anew with a limit of its own, wider than the one of its parent. */
export interface WidenedSpan {
  readonly span: Span;
  readonly before: Span;
}

export interface Chassis extends Overrides {
  readonly uri: string;
  readonly vehicle: string;
  readonly unit: Unit;
  /** How the numbers of this very file count, and places along the car in the jobs that name it. */
  readonly axes: SheetAxes;
  readonly source: Source | null;
  readonly conditions: ReadonlyMap<string, string>;
  /** Scatter of control points on sound cars, standard, mm. */
  readonly buildMm: number;
  /** The same of all other points. */
  readonly buildElsewhereMm: number;
  /** What spans without a tolerance of their own are judged by, mm each way. */
  readonly spanToleranceMm: number;
  /** By id, in text order, parents first. */
  readonly parts: ReadonlyMap<string, Part>;
  readonly points: ReadonlyMap<string, Point>;
  readonly spans: readonly Span[];
  readonly members: readonly Member[];
  /** Of the parents', those whose ends this very file has moved, and that it does not list anew. */
  readonly droppedSpans: readonly DroppedSpan[];
  /** Of this very file. */
  readonly widenedSpans: readonly WidenedSpan[];
  /** Points that a span with `pairs` of this very file needs on a side where there are none, with their places in it. */
  readonly missingEnds: readonly { readonly id: string; readonly place: Place }[];
  /** The file and its `extends` parents, itself first; texts as read, for the content hash. */
  readonly chain: readonly { readonly uri: string; readonly text: string }[];
  /** Of the file itself, its own and those of its names. */
  readonly problems: readonly Problem[];
  /** Names of points and parts that stand in a file of the chain, but could not be read there. */
  readonly unread: { readonly points: ReadonlySet<string>; readonly parts: ReadonlySet<string> };
  /** A file of the chain has a syntax error, or a unit that is none: what needs the whole is held back. */
  readonly broken: boolean;
  /** Where a finding about the whole file stands: its first line of content; and the word of its unit, if it states one. */
  readonly head: Place;
  readonly unitPlace: Place | null;
  readonly axesPlace: Place | null;
}
