import { derived } from '../../memory/derived';
import { type Axis, axes, type Chassis, type Point } from '../../model/chassis';
import { axisOf, type SheetAxes } from '../../model/sheet-axes';
import { namePairs } from '../frame/name-pairs';

/** The numbers of a sheet stand in another order than its `axes` says. */
export interface AxesOrder {
  /** What to write. */
  readonly mended: SheetAxes;
  /** Points that would stand farther from the centre plane than any car is wide. */
  readonly tooWide: readonly Point[];
  /** Pairs of names that differ most along another axis than the one that they speak of. */
  readonly pairs: readonly { readonly names: string; readonly says: Axis; readonly differ: Axis }[];
}

/** Chosen: no half of a car reaches so far, and none is so high, mm. */
const mostWideMm = 1300;
const mostHighMm = 2200;
/** Chosen: fewer points than that, or pairs, are no evidence. */
const fewestPoints = 4;
const fewest = 2;
/** Chosen: so far two points of a pair stand apart along an axis to speak of it, and so many times farther than along another. */
const leastApartMm = 100;
const clearly = 2;

/** By axis as the file has it now: the axis that the number belongs to. */
type Order = readonly [Axis, Axis, Axis];
const orders: readonly Order[] = [
  [1, 0, 2],
  [0, 2, 1],
  [2, 1, 0],
  [1, 2, 0],
  [2, 0, 1],
];

/** Of the file's own points; null where it is as it says, where nothing shows it, or where two orders would be as likely. */
export const axesOrder = derived((chassis: Chassis): AxesOrder | null => {
  const points = ownPoints(chassis);
  if (points.length < fewestPoints) return null;
  const pairs = clearPairs(points);
  const tooWide = points.filter(({ reference: [, width] }) => Math.abs(width) > mostWideMm);
  const shown = axes.flatMap((axis) => {
    const speaking = pairs.filter(({ says }) => says === axis);
    return speaking.length >= fewest && speaking.every(({ differ }) => differ !== axis) ? speaking : [];
  });
  if (shown.length === 0 && tooWide.length < fewest) return null;
  const fitting = orders.filter(
    (order) => pairs.every(({ says, differ }) => order[differ] === says) && isCar(points, order),
  );
  // two numbers exchanged are likelier than three
  const exchanges = fitting.filter((order) => axes.some((axis) => order[axis] === axis));
  const likeliest = exchanges.length > 0 ? exchanges : fitting;
  if (likeliest.length !== 1) return null;
  return { mended: rewritten(chassis.axes, likeliest[0]), tooWide, pairs: shown };
});

/** One of each name, as both sides have the same numbers. */
function ownPoints({ points, uri }: Chassis): Point[] {
  const byName = new Map<string, Point>();
  for (const point of points.values())
    if (point.coordinates.uri === uri && !byName.has(point.name)) byName.set(point.name, point);
  return [...byName.values()];
}

/** Pairs of front and rear, upper and lower, that differ clearly along one axis. */
function clearPairs(points: readonly Point[]): AxesOrder['pairs'] {
  return namePairs(points).flatMap(({ axis: says, positive, negative }) => {
    if (says === 1) return [];
    const apart = axes.map((k) => Math.abs(positive.reference[k] - negative.reference[k]));
    const differ = axes.reduce((most, k) => (apart[k] > apart[most] ? k : most));
    const isClear =
      apart[differ] > leastApartMm && axes.every((k) => k === differ || apart[differ] > clearly * apart[k]);
    return isClear ? [{ names: `${positive.name} and ${negative.name}`, says, differ }] : [];
  });
}

/** Whether the numbers in that order make the shape of a car. */
function isCar(points: readonly Point[], order: Order): boolean {
  const along = (axis: Axis): number[] => points.map(({ reference }) => reference[whereIs(order, axis)]);
  const reach = (axis: Axis): number => Math.max(...along(axis)) - Math.min(...along(axis));
  const isNarrow = along(1).every((width) => Math.abs(width) <= mostWideMm);
  return isNarrow && reach(2) <= mostHighMm && reach(0) >= reach(2);
}

const whereIs = (order: Order, axis: Axis): Axis => axes.find((k) => order[k] === axis) ?? axis;

/** Each axis keeps the way that it counts. The word `outboard` stands in the middle alone: elsewhere `left` says nearly the same. */
function rewritten(written: SheetAxes, order: Order): SheetAxes {
  const [a, b, c] = written.map((direction, i) => {
    const word = written.find((each) => axisOf(each) === order[axisOf(direction)]) ?? direction;
    return word === 'outboard' && i !== 1 ? 'left' : word;
  });
  return [a, b, c];
}
