import type { Side } from '../model/names';
import { axisOf, type SheetAxes, signAlong } from '../model/sheet-axes';
import { mmPer, type Unit } from '../model/units';
import type { TableLayout } from './table-layout';
import type { Digits } from './table-rows';

/** How the numbers of a file count that rows go into: of a job as its instrument does, of a body as its sheet does. */
interface Target {
  readonly axes: SheetAxes;
  readonly unit: Unit;
}

interface Step {
  /** Which of the row's numbers. */
  readonly from: 0 | 1 | 2;
  /** It counts the other way there. */
  readonly isTurned: boolean;
}

/** Three numbers of a row as the target file has them, digit by digit where the units are the same. */
export function targetDigits(
  layout: TableLayout,
  target: Target,
): (digits: Digits, side: Side | null) => Digits {
  const convert = unitConversion(layout.unit ?? target.unit, target.unit);
  const steps = (side: Side | null) => target.axes.map((_, i) => stepOf(layout, target.axes, i, side));
  const bySide = { L: steps('L'), R: steps('R'), none: steps(null) };
  return (digits, side) => {
    const [a, b, c] = bySide[side ?? 'none'].map(({ from, isTurned }) =>
      convert(isTurned ? turned(digits[from]) : digits[from]),
    );
    return [a, b, c];
  };
}

/** A distance has no axes. */
export const targetDistance = (layout: TableLayout, unit: Unit): ((digits: string) => string) =>
  unitConversion(layout.unit ?? unit, unit);

/** @param side on it `outboard` is left or right */
function stepOf(layout: TableLayout, target: SheetAxes, i: number, side: Side | null): Step {
  const axis = axisOf(target[i]);
  // by their words the columns are in the order of the axes, and count as the target does
  if (layout.axes === null)
    return { from: layout.columns.length === undefined ? place(i) : axis, isTurned: false };
  const from = place(layout.axes.findIndex((direction) => axisOf(direction) === axis));
  return { from, isTurned: signAlong(layout.axes, axis, side) !== signAlong(target, axis, side) };
}

const place = (i: number): 0 | 1 | 2 => (i === 1 || i === 2 ? i : 0);

const turned = (digits: string): string =>
  digits.startsWith('-') ? digits.slice(1) : Number(digits) === 0 ? digits : `-${digits}`;

/** Inches have one decimal more in mm, exactly; mm are taken to a thousandth of what an instrument shows. */
function unitConversion(from: Unit, to: Unit): (digits: string) => string {
  if (from === to) return (digits) => digits;
  return (digits) => {
    const decimals = /\.(\d*)/.exec(digits)?.[1].length ?? 0;
    const value = (Number(digits) * mmPer[from]) / mmPer[to];
    return value.toFixed(to === 'mm' ? decimals + 1 : decimals + 3);
  };
}
