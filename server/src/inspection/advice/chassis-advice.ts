import { derived } from '../../memory/derived';
import type { Chassis, Part, Point } from '../../model/chassis';
import { markedPoints } from '../../model/resolve/resolved-job';
import { collinear } from '../alignment/control-points';
import { scatterElsewhere } from '../frame/frame-points';
import { type Asked, answered, type Left, leftAt, type MeasuringAdvice, tooCoarse, weakFrom } from './answer';
import { framePointOf, itemsOf, ownEnd, placeOf, varianceOf } from './frame-places';
import type { AdviceItem } from './items';
import { worstPlace } from './measuring-advice';

/** Parts of one name, judged with all control points of their body read once (server/README.md, "Measuring advice"). */
export interface PartName {
  readonly name: string;
  /** Both sides. */
  readonly parts: readonly Part[];
  readonly points: readonly Point[];
}

/** The parts that have points, in the order of the sheet. None where the control points that are marked hold no frame. */
export const judgedParts = derived((chassis: Chassis): readonly PartName[] => {
  const marked = markedPoints(chassis).map(({ reference }) => reference);
  if (chassis.broken || marked.length < 3 || collinear(marked)) return [];
  const byName = new Map<string, { name: string; parts: Part[]; points: Point[] }>();
  for (const part of chassis.parts.values()) {
    const known = byName.get(part.name);
    if (known === undefined) byName.set(part.name, { name: part.name, parts: [part], points: [] });
    else known.parts.push(part);
  }
  for (const point of chassis.points.values()) {
    const name = point.part === null ? undefined : chassis.parts.get(point.part)?.name;
    if (name !== undefined) byName.get(name)?.points.push(point);
  }
  return [...byName.values()].filter(({ points }) => points.length > 0);
});

/** All control points are read once, and nothing else is counted on: what a job reads besides is its own affair. */
function partQuestion(chassis: Chassis, { points }: PartName, uncertaintyMm: number): Asked {
  const readingVariance = uncertaintyMm ** 2;
  const control = (point: Point): number => varianceOf(point, readingVariance, chassis.buildMm);
  return {
    points,
    readingVariance,
    confinedTo: 'auto',
    unsettled: false,
    question: {
      base: markedPoints(chassis).map((point) => framePointOf(point, control(point))),
      witnesses: [],
      factor: 1,
      items: [],
      scope: points.map((point) => ({ ...placeOf(point), inBase: point.base ? control(point) : undefined })),
      scatter: scatterElsewhere(chassis.buildElsewhereMm),
    },
  };
}

/** What could be marked besides: points of other parts, not at the own end of this one. */
function markable(chassis: Chassis, { points }: PartName, uncertaintyMm: number): AdviceItem[] {
  const own = new Set(points);
  const isAtEnd = ownEnd(points, markedPoints(chassis));
  return itemsOf(
    [...chassis.points.values()]
      .filter((point) => !point.base && !own.has(point) && !isAtEnd(point))
      .map((point) => ({
        point,
        isControl: true,
        variance: varianceOf(point, uncertaintyMm ** 2, chassis.buildMm),
        partName: null,
      })),
  );
}

/** The point of a part that is placed worst, by an instrument; and whether that is enough. */
export interface PartDoubt {
  readonly worst: Left | null;
  readonly coarse: Left | null;
  readonly isDecidable: boolean;
}

export function partDoubt(chassis: Chassis, part: PartName, uncertaintyMm: number): PartDoubt {
  const asked = partQuestion(chassis, part, uncertaintyMm);
  const worst = worstPlace(asked.question, []);
  const coarse = tooCoarse(asked, []);
  return {
    worst: leftAt(asked.points, worst, asked.question),
    coarse,
    isDecidable: worst.share <= weakFrom && coarse === null,
  };
}

/** What else to mark as control points, so that the part can be decided. */
export function marksFor(chassis: Chassis, part: PartName, uncertaintyMm: number): MeasuringAdvice {
  const asked = partQuestion(chassis, part, uncertaintyMm);
  const items = markable(chassis, part, uncertaintyMm);
  return answered({ ...asked, question: { ...asked.question, items } });
}

/** No instrument of the trade is coarser, mm. */
const coarsestMm = 5;
/** Halvings: to a thousandth of that. */
const halvings = 12;

/** The largest standard uncertainty, mm, with which the part can be decided; null where even a perfect instrument could not. */
export function mostUncertainty(chassis: Chassis, part: PartName): number | null {
  const decides = (uncertaintyMm: number) => partDoubt(chassis, part, uncertaintyMm).isDecidable;
  if (decides(coarsestMm)) return coarsestMm;
  let [low, high] = [0, coarsestMm];
  for (let i = 0; i < halvings; i++) {
    const middle = (low + high) / 2;
    if (decides(middle)) low = middle;
    else high = middle;
  }
  return low > 0 ? low : null;
}
