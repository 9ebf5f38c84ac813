import type { Vec3 } from '../geometry/vector';
import type { Axis } from '../model/chassis';
import type { Side } from '../model/names';
import { degreesPerRadian } from '../model/units';
import { directionPhrase, directionWord } from './wording';

/** Which way a chain pulls, so that someone beside the car can set it up without knowing any axes. */

/** A component more than 30° off the largest counts in full, less is slight. */
const full = Math.tan(30 / degreesPerRadian);
/** Under 5° off is not worth a word. */
const worthSaying = Math.tan(5 / degreesPerRadian);

/**
 * `left (outboard)`, `left (outboard) and slightly forward`, `forward and up, slightly right`.
 * @param least a component under this share of the largest is left out
 */
export function directionWords(way: Vec3, side: Side | null, least = worthSaying): string {
  const sorted = ([0, 1, 2] as const)
    .map((axis) => ({ axis, size: Math.abs(way[axis]) }))
    .sort((a, b) => b.size - a.size || a.axis - b.axis);
  const share = (size: number) => size / sorted[0].size;
  const word = ({ axis }: { axis: Axis }) => directionPhrase(axis, way[axis], side);
  const main = sorted.filter(({ size }) => share(size) >= full).map(word);
  const slight = sorted.filter(({ size }) => share(size) < full && share(size) >= least).map(word);
  const mainWords = main.length === 3 ? `${main[0]}, ${main[1]} and ${main[2]}` : main.join(' and ');
  if (slight.length === 0) return mainWords;
  return `${mainWords}${main.length === 1 ? ' and' : ','} slightly ${slight.join(' and ')}`;
}

/** Seen from above: 0° along the car's centreline, 90° square to it; null where the way is up or down. Degrees. */
export function angleToCentrelineDegrees([x, y, z]: Vec3): number | null {
  const flat = Math.hypot(x, y);
  return flat < worthSaying * Math.abs(z) ? null : Math.atan2(Math.abs(y), Math.abs(x)) * degreesPerRadian;
}

/** Seen from the side: + rising, − falling. Degrees. */
export const angleToFloorDegrees = ([x, y, z]: Vec3): number =>
  Math.atan2(z, Math.hypot(x, y)) * degreesPerRadian;

/** `79° to the centreline, level with the floor`. */
export function angleWords(way: Vec3): string {
  const centreline = angleToCentrelineDegrees(way);
  if (centreline === null) return `straight ${directionWord(2, way[2])}`;
  return `${centrelineWords(Math.round(centreline))}, ${floorWords(Math.round(angleToFloorDegrees(way)))}`;
}

/** No chain is set up to a degree, and no reading tells one. */
const asGoodAsNone = 2;

function centrelineWords(degrees: number): string {
  if (degrees <= asGoodAsNone) return 'along the centreline';
  return degrees >= 90 - asGoodAsNone ? 'square to the centreline' : `${degrees}° to the centreline`;
}

function floorWords(degrees: number): string {
  if (Math.abs(degrees) <= asGoodAsNone) return 'level with the floor';
  return degrees > 0 ? `rising ${degrees}° from the floor` : `falling ${-degrees}° to the floor`;
}
