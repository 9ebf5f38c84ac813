import type { Alternative } from '../inspection/frame/alignment-fault';
import { lengthOf, type SheetAxes } from '../model/sheet-axes';
import type { Unit } from '../model/units';
import { placeText } from './places';

/** `the floor leans to the left ahead of 300 mm`; null where who has moved says it all. */
export function floorPhrase(
  { kind, growth }: Pick<Alternative, 'kind' | 'growth'>,
  sheet: { readonly axes: SheetAxes },
  unit: Unit,
): string | null {
  if (growth === undefined) return null;
  const where = `${growth.to === 'front' ? 'ahead of' : 'behind'} ${placeText(growth.beyondMm, lengthOf(sheet), unit)}`;
  if (kind === 'turn')
    return `the floor is twisted ${where}, its ${growth.perMetre[0] > 0 ? 'left' : 'right'} side up`;
  const [left, up] = growth.perMetre;
  return Math.abs(left) > Math.abs(up)
    ? `the floor leans to the ${left > 0 ? 'left' : 'right'} ${where}`
    : `the floor bends ${up > 0 ? 'up' : 'down'} ${where}`;
}
