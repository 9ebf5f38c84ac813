import type { Vec3 } from '../geometry/vector';
import { coverage95 } from '../inspection/alignment/verdict';
import type { Axis, Limits } from '../model/chassis';
import type { Side } from '../model/names';
import {
  degreesPerRadian,
  figure,
  lengthFigure,
  lengthText,
  mmPer,
  type Unit,
  unitWord,
} from '../model/units';

import { listPhrase } from '../text/lists';

export { listPhrase, shortList } from '../text/lists';

/** Numbers in the technician's words: a direction is a word, never a bare sign. */

const words: Record<Axis, readonly [positive: string, negative: string]> = {
  0: ['forward', 'rearward'],
  1: ['left', 'right'],
  2: ['up', 'down'],
};

/** The direction of a displacement along an axis: `right`. */
export const directionWord = (axis: Axis, value: number): string => words[axis][value < 0 ? 1 : 0];

/** `inboard` or `outboard` where a sided point moves across; null else. */
export function sideWord(axis: Axis, value: number, side: Side | null): 'inboard' | 'outboard' | null {
  if (axis !== 1 || side === null) return null;
  return value > 0 === (side === 'L') ? 'outboard' : 'inboard';
}

/** `right (inboard)`, `up`. */
export function directionPhrase(axis: Axis, value: number, side: Side | null): string {
  const inOrOut = sideWord(axis, value, side);
  return inOrOut === null ? directionWord(axis, value) : `${directionWord(axis, value)} (${inOrOut})`;
}

/** `11.2 mm right (inboard)`. */
export const movePhrase = (axis: Axis, mm: number, side: Side | null, unit: Unit): string =>
  `${lengthText(Math.abs(mm), unit)} ${directionPhrase(axis, mm, side)}`;

/** `11.2 mm too far right (inboard)`. */
export const offPhrase = (axis: Axis, mm: number, side: Side | null, unit: Unit): string =>
  `${lengthText(Math.abs(mm), unit)} too far ${directionPhrase(axis, mm, side)}`;

/** What a position's number is called. */
export const axisNames = { 0: 'length', 1: 'width', 2: 'height' } as const satisfies Record<Axis, string>;

/** `15.6 to 16.9 mm`; one figure where both read alike. */
export function lengthRangeText(fromMm: number, toMm: number, unit: Unit): string {
  const from = lengthFigure(fromMm, unit);
  const to = lengthText(toMm, unit);
  return lengthText(fromMm, unit) === to ? to : `${from} to ${to}`;
}

/** A length to the millimetre: `142 mm`. */
export const roundedText = (mm: number, unit: Unit): string => `${roundedFigure(mm, unit)} ${unitWord[unit]}`;

const roundedFigure = (mm: number, unit: Unit): string => figure(mm / mmPer[unit], unit === 'mm' ? 0 : 1);

/** The moves along three axes of any size worth saying, largest first: `11.2 mm left and 3.1 mm up`. */
export function movesPhrase(move: Vec3, side: Side | null, unit: Unit, leastMm = 0.05): string {
  const parts = ([0, 1, 2] as const)
    .filter((axis) => Math.abs(move[axis]) >= leastMm)
    .sort((a, b) => Math.abs(move[b]) - Math.abs(move[a]))
    .map((axis) => movePhrase(axis, move[axis], side, unit));
  return parts.length === 0 ? 'nothing' : listPhrase(parts);
}

/** `±3.0` or `−2.0 … +4.0`. */
export function limitsText([low, high]: Limits, unit: Unit): string {
  if (-low === high) return `±${lengthFigure(high, unit)}`;
  return `−${lengthFigure(-low, unit)} … +${lengthFigure(high, unit)}`;
}

/** `limit ±3.0`, or `limits 2.0 mm right (inboard) and 4.0 mm left (outboard)`. */
export function limitPhrase(axis: Axis, [low, high]: Limits, side: Side | null, unit: Unit): string {
  if (-low === high) return `limit ±${lengthFigure(high, unit)}`;
  const each = (mm: number, sign: number) => `${lengthText(mm, unit)} ${directionPhrase(axis, sign, side)}`;
  return `limits ${each(-low, -1)} and ${each(high, 1)}`;
}

/** `±1.1` at 95 %. */
export const certaintyText = (uncertaintyMm: number, unit: Unit): string =>
  `±${lengthFigure(coverage95 * uncertaintyMm, unit)}`;

/** Plain degrees: `2.31°`. */
export const degreesText = (rad: number): string => `${figure(rad * degreesPerRadian, 2)}°`;

/** `the top leans right`, `nose down`, `nose to the left`. */
export const turnWord = {
  twist: (rad: number): string => (rad < 0 ? 'top leans left' : 'top leans right'),
  pitch: (rad: number): string => (rad < 0 ? 'nose up' : 'nose down'),
  yaw: (rad: number): string => (rad < 0 ? 'nose to the right' : 'nose to the left'),
};
