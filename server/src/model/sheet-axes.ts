import type { Vec3 } from '../geometry/vector';
import type { Axis, Direction, Limits } from './axes';
import type { Side } from './names';

/** How the three numbers of a chassis file count, in their order. */
export type SheetAxes = readonly [Direction, Direction, Direction];
export const defaultSheetAxes: SheetAxes = ['forward', 'outboard', 'up'];

/** 1 where a number counts as the vehicle does (forward, left, up), −1 where it counts the other way. */
export type Sign = 1 | -1;
export type Signs = readonly [Sign, Sign, Sign];

/** How the numbers of one file are read: millimetres in one unit of it, and how they count. */
export interface SheetNumbers {
  readonly mm: number;
  readonly axes: SheetAxes;
}

/** The keys that say where a point is. */
export type PositionKey = 'both' | 'left' | 'right' | 'centre';

/** The axis of each direction, and the way that it counts; `outboard` depends on the side. */
export const signedAxis: Record<Exclude<Direction, 'outboard'>, readonly [Axis, Sign]> = {
  forward: [0, 1],
  rearward: [0, -1],
  left: [1, 1],
  right: [1, -1],
  up: [2, 1],
  down: [2, -1],
};

export const axisOf = (direction: Direction): Axis =>
  direction === 'outboard' ? 1 : signedAxis[direction][0];

export const opposite: Record<Exclude<Direction, 'outboard'>, Exclude<Direction, 'outboard'>> = {
  forward: 'rearward',
  rearward: 'forward',
  left: 'right',
  right: 'left',
  up: 'down',
  down: 'up',
};

const wordOf = (axes: SheetAxes, axis: Axis): Direction => axes.find((word) => axisOf(word) === axis)!;

/** Which of the three numbers of a sheet is its length, its width, its height. */
export const orderOf = (axes: SheetAxes): readonly [Axis, Axis, Axis] => [
  placeOf(axes, 0),
  placeOf(axes, 1),
  placeOf(axes, 2),
];

const placeOf = (axes: SheetAxes, axis: Axis): Axis => {
  const found = axes.findIndex((word) => axisOf(word) === axis);
  return found === 0 || found === 1 ? found : 2;
};

/** A number of the sheet along an axis is so many times the vehicle's, on this side. */
export function signAlong(axes: SheetAxes, axis: Axis, side: Side | null): Sign {
  const word = wordOf(axes, axis);
  return word === 'outboard' ? outward(side) : signedAxis[word][1];
}

/** Away from the centre plane is left, but on the right. */
export const outward = (side: Side | null): Sign => (side === 'R' ? -1 : 1);

/**
 * The same for a position. What `both` states is the left point where the sheet counts to the left, the right one where to the right:
 * either way its width is + outboard.
 */
export const positionSigns = (axes: SheetAxes, key: PositionKey, side: Side | null): Signs => [
  signAlong(axes, 0, side),
  key === 'both' ? outward(side) : signAlong(axes, 1, side),
  signAlong(axes, 2, side),
];

/** Three numbers of a sheet, sorted to length, width and height, in vehicle axes. No −0. */
export const inVehicleAxes = (sorted: Vec3, signs: Signs): Vec3 => [
  signed(signs[0], sorted[0]),
  signed(signs[1], sorted[1]),
  signed(signs[2], sorted[2]),
];

export const signed = (sign: Sign, mm: number): number => (sign === 1 ? mm : 0 - mm);

/** Two numbers that count a way, low first, in vehicle axes, low first; and back. */
export const signedBand = (sign: Sign, [low, high]: Limits): Limits =>
  sign === 1 ? [low, high] : [0 - high, 0 - low];

/** A place along the vehicle or a part, and how the sheet counts there. */
export interface Way {
  readonly along: Axis;
  readonly side: Side | null;
  /** A number of the sheet is so many times the vehicle's. */
  readonly sheetSign: Sign;
}

export const lengthOf = ({ axes }: { readonly axes: SheetAxes }): Way => ({
  along: 0,
  side: null,
  sheetSign: signAlong(axes, 0, null),
});

/** Whether the sheet counts as one without `axes` does: then nothing is said of it. */
export const countsAsUsual = ({ along, side, sheetSign }: Way): boolean =>
  sheetSign === signAlong(defaultSheetAxes, along, side);

/** `axes` with one of its directions the other way; null where it counts outboard. */
export function turnedRound(axes: SheetAxes, axis: Axis): SheetAxes | null {
  const turn = (direction: SheetAxes[number]) =>
    axisOf(direction) === axis && direction !== 'outboard' ? opposite[direction] : direction;
  const [a, b, c] = axes;
  return axes.some((direction) => axisOf(direction) === axis && direction === 'outboard')
    ? null
    : [turn(a), turn(b), turn(c)];
}
