import { derived } from '../../memory/derived';
import { type Axis, axes, type Chassis, type Part, type Point } from '../../model/chassis';
import { nameOf } from '../../model/names';
import type { TypedNumber, TypedTriple } from '../../model/typed-numbers';
import { mmPer } from '../../model/units';
import { offsetsOf } from '../../text/tree';
import { withDigitsSwapped, withOtherSign } from './digit-slips';

/** Chosen: so far off a number must stand, and so near a slip must bring it. */
const leastOffMm = 100;
const settledMm = 40;
/** Chosen: others that stand farther apart say nothing of where one more belongs. */
const mostSpreadMm = 200;
const fewestOthers = 3;

interface SheetSlip {
  readonly point: Point;
  readonly axis: Axis;
  readonly offMm: number;
  readonly number: TypedNumber;
  /** The slip in words: `a lost or added sign`. */
  readonly slip: string;
  /** What may have been meant, the likeliest first; none where the slip leaves too many. */
  readonly texts: readonly string[];
  /** The number in whose place this one stands. */
  readonly exchangedWith: TypedNumber | null;
  /** The points that it is compared with. */
  readonly others: string;
}

type Range = readonly [low: number, high: number];
type Numbers = readonly [number, number, number];

/** A number far from those of its part or station that one named slip of the hand explains. Of the file's own numbers. */
export const sheetSlips = derived((chassis: Chassis): readonly SheetSlip[] =>
  [...chassis.parts.values()].flatMap((part) => {
    const points = [...chassis.points.values()].filter((point) => point.part === part.id);
    const told = points.filter((point) => point.side !== 'R' || !isShared(point, chassis));
    return told.flatMap((point) => slipOf(point, points, part, chassis) ?? []);
  }),
);

const isShared = ({ name, reference }: Point, { points }: Chassis): boolean => {
  const left = points.get(`${name}.L`)?.reference;
  return left !== undefined && axes.every((k) => Math.abs(left[k]) === Math.abs(reference[k]));
};

/** Typed for each side, and the two agree: nobody makes the same slip twice. */
function isTwice(point: Point, axis: Axis, { points }: Chassis): boolean {
  const other = points.get(`${point.name}.${point.side === 'L' ? 'R' : 'L'}`);
  if (point.side === null || other === undefined) return false;
  if (offsetsOf(other.coordinates.place).start === offsetsOf(point.coordinates.place).start) return false;
  const [a, b] = [point, other].map(({ reference }) => reference[axis]);
  return Math.abs(axis === 1 ? a + b : a - b) <= settledMm;
}

const offFrom = ([low, high]: Range, mm: number): number => Math.max(0, low - mm, mm - high);

function slipOf(point: Point, points: readonly Point[], part: Part, chassis: Chassis): SheetSlip | null {
  const typed = point.coordinates.uri === chassis.uri ? point.coordinates.typed : null;
  if (typed === null) return null;
  const ranges = axes.map((axis) => rangeOf(point, axis, points, part));
  for (const axis of axes) {
    const range = ranges[axis];
    const offMm = range === null ? 0 : offFrom(range, point.reference[axis]);
    if (range === null || offMm <= leastOffMm || isTwice(point, axis, chassis)) continue;
    const mm = mmPer[chassis.unit];
    const found =
      explained(
        typed[axis],
        axis,
        (sheet) => offFrom(range, sheet * mm * point.sheetSigns[axis]) <= settledMm,
      ) ?? exchanged(point, typed, axis, ranges, mm);
    if (found !== null)
      return { point, axis, offMm, number: typed[axis], ...found, others: othersText(part, axis) };
  }
  return null;
}

const othersText = (part: Part, axis: Axis): string =>
  axis === part.along ? 'the point above or below it' : `the other points of ${nameOf(part.id)}`;

/** Where the others stand on an axis: across the part all of them, along it the one at the other level of its station. */
function rangeOf(point: Point, axis: Axis, points: readonly Point[], part: Part): Range | null {
  if (axis === part.along) {
    const same = points.filter(({ side }) => side === point.side);
    const wanted = otherLevel(point.name);
    const other = same.find(({ name }) => name === wanted);
    const rest = same
      .filter((each) => each !== point && each !== other)
      .map(({ reference }) => reference[axis]);
    if (other === undefined || rest.length < fewestOthers) return null;
    // of the two it is the one that stands farther from the rest of the part
    const away = (each: Point) => offFrom([Math.min(...rest), Math.max(...rest)], each.reference[axis]);
    return away(point) > away(other) ? [other.reference[axis], other.reference[axis]] : null;
  }
  const others = points.filter(({ name, side }) => name !== point.name && side === point.side);
  if (others.length < fewestOthers) return null;
  // where both levels of a station stand apart from the rest, the part is made so
  const wanted = otherLevel(point.name);
  const level = others.find(({ name }) => name === wanted);
  if (level && Math.abs(level.reference[axis] - point.reference[axis]) <= mostSpreadMm) return null;
  const values = others.map(({ reference }) => reference[axis]);
  const range: Range = [Math.min(...values), Math.max(...values)];
  return range[1] - range[0] <= mostSpreadMm ? range : null;
}

function otherLevel(name: string): string | null {
  const words = name.split('-');
  const at = words.findIndex((word) => word === 'upper' || word === 'lower');
  return at < 0 ? null : words.with(at, words[at] === 'upper' ? 'lower' : 'upper').join('-');
}

type Explained = Pick<SheetSlip, 'slip' | 'texts' | 'exchangedWith'>;

/** Chosen: of more numbers that may be meant none is offered. */
const mostMeant = 3;

const meaning = (slip: string, texts: readonly string[]): Explained => {
  const different = [...new Set(texts)];
  return { slip, texts: different.length > mostMeant ? [] : different, exchangedWith: null };
};

/** One number, by a slip of its own. */
function explained({ source }: TypedNumber, axis: Axis, fits: (sheet: number) => boolean): Explained | null {
  const one = (slip: string, text: string | undefined): Explained | null =>
    text !== undefined && fits(Number(text)) ? meaning(slip, [text]) : null;
  const sign = one('a lost or added sign', withOtherSign(source));
  if (sign !== null) return sign;
  for (const text of withDigitsSwapped(source)) {
    const swap = one('two digits exchanged', text);
    if (swap !== null) return swap;
  }
  const half = axis === 1 ? one('the full width in place of the half', String(Number(source) / 2)) : null;
  if (half !== null) return half;
  const digits = [...source].flatMap((digit, i) => (/\d/.test(digit) ? [i] : []));
  const shorter = digits
    .map((i) => source.slice(0, i) + source.slice(i + 1))
    .filter((text) => /\d/.test(text) && fits(Number(text)));
  if (shorter.length > 0) return meaning('a digit too many', shorter);
  const end = digits.length === 0 ? 0 : digits[digits.length - 1] + 1;
  const longer = [...digits, end].flatMap((i) =>
    [...'0123456789']
      .map((digit) => source.slice(0, i) + digit + source.slice(i))
      .filter((text) => fits(Number(text))),
  );
  return longer.length > 0 ? meaning('a digit dropped', longer) : null;
}

/** Two of the three numbers in each other's place: both must fit then. */
function exchanged(
  { sheetSigns }: Point,
  typed: TypedTriple,
  axis: Axis,
  ranges: readonly (Range | null)[],
  mm: number,
): Explained | null {
  const sheet: Numbers = [Number(typed[0].source), Number(typed[1].source), Number(typed[2].source)];
  const fits = (k: Axis, number: number) => {
    const range = ranges[k];
    return range !== null && offFrom(range, number * mm * sheetSigns[k]) <= settledMm;
  };
  const other = axes.find((k) => k !== axis && fits(axis, sheet[k]) && fits(k, sheet[axis]));
  return other === undefined
    ? null
    : { slip: 'two of its numbers exchanged', texts: [], exchangedWith: typed[other] };
}
