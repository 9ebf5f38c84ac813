import type { Limits } from './axes';

/** Limits of width: + outboard on points that one position gives to both sides, else + left. */
export interface WidthLimits {
  readonly both: Limits;
  readonly left: Limits;
  readonly right: Limits;
  readonly centre: Limits;
}

/** The same each way, whatever way the file counts. */
export const sameWidth = (each: Limits): WidthLimits => ({
  both: each,
  left: each,
  right: each,
  centre: each,
});

/** Limits in vehicle axes, mm, but for the width of `both`. */
export type LimitsInForce = readonly [Limits, WidthLimits, Limits];
/** The same; null: what is in force otherwise. */
export type PartialLimits = readonly [Limits | null, WidthLimits | null, Limits | null];
