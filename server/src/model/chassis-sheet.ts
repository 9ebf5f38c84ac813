import type { Vec3 } from '../geometry/vector';
import type { Node, Place } from '../text/tree';
import type { CoordinatesOrigin, Limits, Origin, Part, Source } from './chassis';
import type { Mention } from './job';
import type { PartialLimits } from './limits';
import type { Side } from './names';
import type { Problem } from './problem';
import { orderOf, type PositionKey, type SheetAxes } from './sheet-axes';
import { type TypedNumber, type TypedTriple, typedTriple } from './typed-numbers';
import type { Unit } from './units';

export { type LimitsInForce, type PartialLimits, sameWidth, type WidthLimits } from './limits';

/** One chassis file by itself, before its parents are taken in. Names are not resolved yet. */
export interface ChassisSheet {
  readonly uri: string;
  readonly text: string;
  readonly vehicle: string | null;
  readonly unit: Unit;
  readonly axes: SheetAxes;
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
  readonly members: ReadonlyMap<string, MemberSheet | Removal>;
  /** Names that are given, but could not be read. */
  readonly unread: { readonly points: ReadonlySet<string>; readonly parts: ReadonlySet<string> };
  /** Its first line says that it is a chassis file, or nothing at all. */
  readonly isChassis: boolean;
  readonly problems: readonly Problem[];
  readonly broken: boolean;
  readonly head: Place;
  readonly unitPlace: Place | null;
  readonly axesPlace: Place | null;
}

/** `name: ~`: the parent's entry of that name goes. */
export interface Removal {
  readonly removed: Place;
}

/** Of a sided part the band is the left one's. */
export interface PartSheet extends Omit<Part, 'id' | 'side' | 'origin' | 'sheetSign' | 'joined'> {
  readonly sided: boolean;
  readonly joined: readonly Mention[];
  readonly place: Place;
}

export interface MemberSheet {
  readonly name: string;
  readonly mounts: readonly Mention[];
}

export interface PointSheet {
  readonly name: string;
  /** Positions in vehicle axes, mm. */
  readonly positions: readonly {
    readonly side: Side | null;
    readonly key: PositionKey;
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
  readonly uncertaintyByAxisMm: Vec3 | null;
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
    private readonly axes: SheetAxes,
  ) {}

  get place(): Place {
    return this.node.place;
  }
  get typed(): TypedTriple | null {
    const typed = typedTriple(this.node);
    const [length, width, height] = orderOf(this.axes);
    return typed && [typed[length], typed[width], typed[height]];
  }
}
