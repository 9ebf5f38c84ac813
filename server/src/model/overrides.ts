import type { Place } from '../text/tree';
import type { Axis, Limits } from './axes';
import type { LimitsInForce, PartialLimits } from './limits';
import type { PositionKey } from './sheet-axes';

/** A point of this very file that stands in its parent, too: the parent's entry is replaced whole. */
export interface Overridden {
  readonly name: string;
  readonly place: Place;
  readonly keys: readonly PositionKey[];
  readonly limits: LimitsInForce;
  readonly before: {
    readonly part: string | null;
    readonly base: boolean;
    readonly fixing: string | null;
    readonly uri: string;
    readonly place: Place;
    /** What the parent's entry states itself. */
    readonly own: PartialLimits;
    readonly limits: LimitsInForce;
  };
}

/** The tolerance of this very file as a whole, and the one that was in force in its parent. */
interface FileTolerance {
  readonly now: LimitsInForce;
  readonly before: LimitsInForce;
  readonly uri: string;
}

/** A limit of the body that is wider than in the first file that has the point. Vehicle axes, mm. */
export interface Widened {
  readonly id: string;
  readonly axis: Axis;
  readonly before: Limits;
  readonly now: Limits;
}

export interface Overrides {
  readonly overridden: readonly Overridden[];
  readonly fileTolerance: FileTolerance | null;
  readonly widened: readonly Widened[];
}
