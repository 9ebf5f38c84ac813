import type { ToleranceEntry } from '@framewright/schemas';
import type { Limits } from '../chassis';
import type { PartialLimits } from '../chassis-sheet';

/** A tolerance as the file states it, in mm. `mm`: millimetres in one unit of the file. */
export const oneLimits = (tolerance: number | readonly [number, number], mm: number): Limits =>
  typeof tolerance === 'number' ? [-tolerance * mm, tolerance * mm] : [tolerance[0] * mm, tolerance[1] * mm];

/** A point's or a file's tolerance in the signs of the file, in mm; what it leaves open is null. */
export function limitsOf(tolerance: ToleranceEntry | undefined, mm: number): PartialLimits {
  if (tolerance === undefined) return [null, null, null];
  if (typeof tolerance === 'number') {
    const each = oneLimits(tolerance, mm);
    return [each, each, each];
  }
  const of = (axis: 'length' | 'width' | 'height') => {
    const value = tolerance[axis];
    return value === undefined ? null : oneLimits(value, mm);
  };
  return [of('length'), of('width'), of('height')];
}
