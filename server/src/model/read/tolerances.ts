import type { ToleranceEntry } from '@framewright/schemas';
import type { Limits } from '../chassis';
import { type PartialLimits, sameWidth, type WidthLimits } from '../chassis-sheet';
import { positionSigns, type SheetAxes, type SheetNumbers, signAlong, signedBand } from '../sheet-axes';

/** A tolerance as the file states it, in mm. `mm`: millimetres in one unit of the file. */
export const oneLimits = (tolerance: number | readonly [number, number], mm: number): Limits =>
  typeof tolerance === 'number' ? [-tolerance * mm, tolerance * mm] : [tolerance[0] * mm, tolerance[1] * mm];

/** A point's or a file's tolerance in vehicle axes, in mm; what it leaves open is null. */
export function limitsOf(tolerance: ToleranceEntry | undefined, { mm, axes }: SheetNumbers): PartialLimits {
  if (tolerance === undefined) return [null, null, null];
  if (typeof tolerance === 'number') {
    const each = oneLimits(tolerance, mm);
    return [each, sameWidth(each), each];
  }
  const { length, width, height } = tolerance;
  const along = (axis: 0 | 2, value: typeof length) =>
    value === undefined ? null : signedBand(signAlong(axes, axis, null), oneLimits(value, mm));
  return [
    along(0, length),
    width === undefined ? null : widthLimits(oneLimits(width, mm), axes),
    along(2, height),
  ];
}

function widthLimits(width: Limits, axes: SheetAxes): WidthLimits {
  const given = (key: 'left' | 'right' | 'centre', side: 'L' | 'R' | null): Limits =>
    signedBand(positionSigns(axes, key, side)[1], width);
  return {
    both: width,
    left: given('left', 'L'),
    right: given('right', 'R'),
    centre: given('centre', null),
  };
}
