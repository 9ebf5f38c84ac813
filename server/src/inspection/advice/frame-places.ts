import { zero } from '../../geometry/vector';
import type { Point } from '../../model/chassis';
import { halfBand } from '../alignment/control-points';
import type { FramePoint } from '../frame/frame-points';
import type { AdviceItem, ScopePlace } from './items';

/** Points of a chassis as a search for advice takes them. */

export const placeOf = ({ reference, limits }: Point): ScopePlace => ({
  place: reference,
  half: [halfBand(limits[0]), halfBand(limits[1]), halfBand(limits[2])],
});

export const framePointOf = (point: Point, variance: number): FramePoint => ({
  ...placeOf(point),
  id: point.id,
  off: zero,
  variance,
  name: point.name,
  side: point.side,
});

/** u² of a point that is to be read so well, mm²: as a control point with how far sound cars scatter there. */
export const varianceOf = (point: Point, readingVariance: number, buildMm: number): number =>
  readingVariance + point.uncertaintyMm ** 2 + buildMm ** 2;

/** What could be read, and as what. */
export interface Offer {
  readonly point: Point;
  readonly isControl: boolean;
  readonly variance: number;
  /** Of a witness, the name of its part; null: none. */
  readonly partName: string | null;
}

/** Both sides of a name are read together; in the order of the sheet. */
export function itemsOf(offers: readonly Offer[]): AdviceItem[] {
  const items = new Map<string, AdviceItem & { points: FramePoint[] }>();
  for (const { point, isControl, variance, partName } of offers) {
    const key = `${point.name} ${isControl}`;
    const known = items.get(key);
    if (known === undefined)
      items.set(key, { name: point.name, isControl, partName, points: [framePointOf(point, variance)] });
    else known.points.push(framePointOf(point, variance));
  }
  return [...items.values()];
}

/**
 * Whether a place lies at the scope's own end: where all of the scope lies on one side of the middle of the control points, whatever is as
 * far out as its nearest point. What was hit there may have moved as well.
 */
export function ownEnd(scope: readonly Point[], control: readonly Point[]): (point: Point) => boolean {
  const lengths = scope.map(({ reference }) => reference[0]);
  const known = control.map(({ reference }) => reference[0]);
  const [rear, front] = [Math.min(...lengths), Math.max(...lengths)];
  const middle = (Math.min(...known) + Math.max(...known)) / 2;
  if (rear > middle) return ({ reference }) => reference[0] >= rear;
  if (front < middle) return ({ reference }) => reference[0] <= front;
  return () => false;
}
