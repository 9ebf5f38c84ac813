import type { Vec3 } from '../geometry/vector';
import type { Node, Place } from '../text/tree';
import type { AxisLimits, CoordinatesOrigin, Limits, Origin, Part, Source } from './chassis';
import type { Side } from './names';
import type { Problem } from './problem';
import { type TypedNumber, type TypedTriple, typedTriple } from './typed-numbers';
import type { Unit } from './units';

/** One chassis file by itself, before its parents are taken in. Names are not resolved yet. */
export interface ChassisSheet {
  readonly uri: string;
  readonly text: string;
  readonly vehicle: string | null;
  readonly unit: Unit;
  readonly source: Source | null;
  readonly conditions: ReadonlyMap<string, string> | null;
  readonly buildMm: number | null;
  readonly buildElsewhereMm: number | null;
  readonly tolerance: PartialLimits;
  readonly sourceUncertaintyMm: number | null;
  readonly extendsPath: string | null;
  readonly extendsPlace: Place | null;
  /** By name; null removes the parent's. */
  readonly parts: ReadonlyMap<string, PartSheet | Removal>;
  readonly points: ReadonlyMap<string, PointSheet | Removal>;
  readonly spans: readonly SpanSheet[];
  /** Names that are given, but could not be read. */
  readonly unread: { readonly points: ReadonlySet<string>; readonly parts: ReadonlySet<string> };
  /** Its first line says that it is a chassis file, or nothing at all. */
  readonly isChassis: boolean;
  readonly problems: readonly Problem[];
  readonly broken: boolean;
  readonly head: Place;
  readonly unitPlace: Place | null;
}

/** `name: ~`: the parent's entry of that name goes. */
export interface Removal {
  readonly removed: Place;
}

/** Limits in the signs of the file (width outboard on a sided point); null: what is in force otherwise. */
export type PartialLimits = readonly [Limits | null, Limits | null, Limits | null];

export interface PartSheet extends Omit<Part, 'id' | 'side' | 'origin'> {
  readonly sided: boolean;
  readonly place: Place;
}

export interface PointSheet {
  readonly name: string;
  /** Positions in the signs of the file, mm. */
  readonly positions: readonly {
    readonly side: Side | null;
    readonly position: Vec3;
    /** The three numbers in the text. */
    readonly node: Node;
  }[];
  readonly part: string | null;
  readonly partPlace: Place | null;
  readonly base: boolean;
  readonly limits: PartialLimits;
  readonly fixing: string | null;
  readonly uncertaintyMm: number | null;
  readonly source: Source | null;
  readonly place: Place;
}

export interface SpanSheet {
  readonly from: string;
  readonly to: string;
  readonly fromPlace: Place;
  readonly toPlace: Place;
  readonly distanceMm: number;
  /** Its digits; null where they are not typed here (an alias). */
  readonly typedDistance: TypedNumber | null;
  readonly limits: Limits | null;
  readonly level: boolean;
  readonly pairs: 'straight' | 'crossed' | null;
  readonly place: Place;
}

export const originOf = (uri: string, place: Place): Origin => ({ uri, place });

export class Coordinates implements CoordinatesOrigin {
  constructor(
    readonly uri: string,
    private readonly node: Node,
  ) {}

  get place(): Place {
    return this.node.place;
  }
  get typed(): TypedTriple | null {
    return typedTriple(this.node);
  }
}

/** Limits in vehicle axes of a right point, from those in the signs of the file: a lopsided width changes its ends. */
export const swapped = ([length, width, height]: AxisLimits): AxisLimits => [
  length,
  [0 - width[1], 0 - width[0]],
  height,
];
