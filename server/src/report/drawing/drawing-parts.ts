import { polygonHull } from 'd3-polygon';
import type { Vec3 } from '../../geometry/vector';
import type { Inspection } from '../../inspection/job/inspect';
import { groupedAlong } from '../../inspection/shape/stations';
import { derived } from '../../memory/derived';
import type { Chassis, Part, Point } from '../../model/chassis';
import { type Frame, type Px, projected, projections, type View } from './drawing-views';

/** A part as its points show it; metal between and beyond them is not known. */
export interface DrawnPart {
  readonly id: string;
  /** Two points make a line, three and more a closed outline. */
  readonly outline: readonly Px[];
  /** The same through the magnified readings, where each of its corners was read and some point of the part is not within. */
  readonly measured: readonly Px[] | null;
}

/** Where points of a part end up, vehicle axes, mm; undefined where that is not known. */
type Placed = (id: string) => Vec3 | undefined;

/**
 * @param placed where the magnified readings of a stage stand
 * @param shown parts whose measured outline is drawn
 */
export function drawnParts(
  { chassis }: Inspection,
  frame: Frame,
  placed: Placed,
  shown: ReadonlySet<string>,
): DrawnPart[] {
  return [...cornersByPart(chassis)[frame.view]].map(([id, corners]): DrawnPart => {
    const ends = shown.has(id) ? corners.map((point) => placed(point.id)) : [undefined];
    return {
      id,
      outline: corners.map(({ reference }) => projected(frame, reference)),
      measured: ends.every((each) => each !== undefined) ? ends.map((each) => projected(frame, each)) : null,
    };
  });
}

/** By view and part: the points that are the corners of its outline, in order. */
export const cornersByPart = derived(
  (chassis: Chassis): Record<View, ReadonlyMap<string, readonly Point[]>> => {
    const of = (view: View) => {
      const corners = new Map<string, readonly Point[]>();
      for (const part of chassis.parts.values()) {
        const found = cornersOf(pointsOf(chassis, part.id, view), part, view);
        if (found.length > 1) corners.set(part.id, found);
      }
      return corners;
    };
    return { plan: of('plan'), left: of('left'), right: of('right'), front: of('front') };
  },
);

export const pointsOf = (chassis: Chassis, partId: string, view: View): Point[] =>
  [...chassis.points.values()].filter(
    ({ part, side }) => part === partId && (side === null || side !== projections[view].hidden),
  );

/** A part of one side that is seen along its length is a chain of its stations; anything else the hull of its points. */
function cornersOf(points: readonly Point[], part: Part, view: View): readonly Point[] {
  const { across, up } = projections[view];
  if (part.side !== null && (part.along === across || part.along === up)) return chain(points, part, view);
  const hull = polygonHull(points.map(({ reference }) => [reference[across], reference[up]]));
  // flat or too few for a hull: from end to end
  if (hull === null)
    return [...new Set([extreme(points, -1, across, up), extreme(points, 1, across, up)])].filter(
      (each) => each !== null,
    );
  const left = [...points];
  return hull.map(([x, y]) => {
    const index = left.findIndex(({ reference }) => reference[across] === x && reference[up] === y);
    return left.splice(index, 1)[0];
  });
}

function chain(points: readonly Point[], part: Part, view: View): Point[] {
  const { across, up } = projections[view];
  const side = part.along === across ? up : across;
  const stations = groupedAlong(
    points.map((point) => ({ point })),
    part.along,
  );
  const ends = stations.map((station) => {
    const sorted = station.map(({ point }) => point).sort((a, b) => a.reference[side] - b.reference[side]);
    return { low: sorted[0], high: sorted[sorted.length - 1] };
  });
  return [...new Set([...ends.map(({ low }) => low), ...ends.map(({ high }) => high).reverse()])];
}

function extreme(points: readonly Point[], sign: 1 | -1, across: 0 | 1 | 2, up: 0 | 1 | 2): Point | null {
  const sorted = [...points].sort(
    (a, b) => a.reference[across] - b.reference[across] || a.reference[up] - b.reference[up],
  );
  return (sign < 0 ? sorted[0] : sorted[sorted.length - 1]) ?? null;
}
