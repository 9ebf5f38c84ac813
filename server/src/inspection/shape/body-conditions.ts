import type { Side } from '../../model/names';
import type { Quantity } from '../alignment/displacements';
import { isKnownLength } from '../alignment/known-figures';
import type { ZoneFigures, ZoneRoots } from './zone';

/** What a zone has, in the words of the trade; `left-mash` and `right-mash`: one side is shortened and the other is not. */
export type Condition =
  | 'mash'
  | 'left-mash'
  | 'right-mash'
  | 'sidesway'
  | 'sag'
  | 'high'
  | 'diamond'
  | 'twist';

/** Beyond twice its uncertainty. */
export const isReal = ({ mm, uncertaintyMm }: Quantity): boolean =>
  isKnownLength(mm, uncertaintyMm) && Math.abs(mm) > 2 * uncertaintyMm;

/** Of the two figures of a zone the one that is told: that of its tips, unless the mean alone is real. */
export const toldFirst = (tips: Quantity, mean: Quantity): Quantity =>
  isReal(tips) || !isReal(mean) ? tips : mean;

/** @param outside whether a point of the left side is outside there, and of the right */
export function conditionsOf(
  zone: ZoneFigures,
  end: 'front' | 'rear',
  outside: Record<Side, boolean>,
): Condition[] {
  const conditions: Condition[] = [];
  const diamond = isDiamond(zone);
  const mash = mashOf(zone, end, diamond ? null : outside);
  if (mash !== null) conditions.push(mash);
  if (isReal(toldFirst(zone.tips.sideways, zone.sideways))) conditions.push('sidesway');
  const height = toldFirst(zone.tips.height, zone.height);
  if (isReal(height)) conditions.push(height.mm < 0 ? 'sag' : 'high');
  if (diamond) conditions.push('diamond');
  if (zone.twist && Math.abs(zone.twist.angleRad) > 2 * zone.twist.uncertaintyRad) conditions.push('twist');
  return conditions;
}

/** Out of square down to the roots: both sides have moved there, one forward and one rearward, as the whole zone has. */
const isDiamond = ({ diamond, roots }: ZoneFigures): boolean =>
  isReal(diamond) && roots !== null && areOpposite(roots) && diamond.mm * roots.left.mm > 0;

const areOpposite = ({ left, right }: ZoneRoots): boolean =>
  isReal(left) && isReal(right) && left.mm * right.mm < 0;

/**
 * Shortened: the front has come rearward, the rear forward.
 * @param outside null: the sides are not looked at, the zone is a diamond
 */
function mashOf(
  { tips, length }: ZoneFigures,
  end: 'front' | 'rear',
  outside: Record<Side, boolean> | null,
): Condition | null {
  const shortened = (quantity: Quantity): boolean =>
    isReal(quantity) && (end === 'front' ? quantity.mm < 0 : quantity.mm > 0);
  const [sides] = tips.sides;
  if (outside !== null && isReal(sides.apart)) {
    const [left, right] = [shortened(sides.left), shortened(sides.right)];
    if (left && !right) return outside.L ? 'left-mash' : null;
    if (right && !left) return outside.R ? 'right-mash' : null;
  }
  return shortened(toldFirst(tips.length, length)) ? 'mash' : null;
}
