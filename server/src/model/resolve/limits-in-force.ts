import type { AxisLimits, Limits } from '../chassis';
import { type LimitsInForce, type PartialLimits, type PointSheet, sameWidth } from '../chassis-sheet';
import { outward, signedBand } from '../sheet-axes';

/** Common practice in the trade where the maker states none; a default of the format. */
const defaultToleranceMm = 3;

const each = (mm: number): Limits => [-mm, mm];

export const defaultLimits: LimitsInForce = [
  each(defaultToleranceMm),
  sameWidth(each(defaultToleranceMm)),
  each(defaultToleranceMm),
];

export const limitsFrom = (given: PartialLimits, otherwise: LimitsInForce): LimitsInForce => [
  given[0] ?? otherwise[0],
  given[1] ?? otherwise[1],
  given[2] ?? otherwise[2],
];

/** In vehicle axes: a lopsided width of `both` changes its ends on the right. */
export const limitsOn = (
  { side, key }: Pick<PointSheet['positions'][number], 'side' | 'key'>,
  [length, width, height]: LimitsInForce,
): AxisLimits => [length, key === 'both' ? signedBand(outward(side), width.both) : width[key], height];

/** Whether one allows more than another, on either side; what rounding makes of an inch does not count. */
export const isWider = ([low, high]: Limits, before: Limits): boolean =>
  low < before[0] - 1e-6 || high > before[1] + 1e-6;
