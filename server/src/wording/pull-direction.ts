import type { Vec3 } from '../geometry/vector';
import type { Axis } from '../model/chassis';
import type { Side } from '../model/names';
import { degreesPerRadian } from '../model/units';
import { directionPhrase } from './wording';

/** Which way a chain pulls, so that someone beside the car can set it up without knowing any axes. */

/** A component more than 30° off the largest counts in full, less is slight. */
const full = Math.tan(30 / degreesPerRadian);
/** A way that is less than this off another is not told: nobody sets up a chain to fewer degrees. Chosen. */
const leastDegrees = 10;

/** Without what is too little to be told, by the angles that are told beside it. */
function worthSaying(way: Vec3): Vec3 {
  const [x, y, z] = way;
  const rise = Math.round(Math.abs(angleToFloorDegrees(way)));
  if (rise > 90 - leastDegrees) return [0, 0, z];
  const turn = Math.round(angleToCentrelineDegrees(way));
  return [turn > 90 - leastDegrees ? 0 : x, turn < leastDegrees ? 0 : y, rise < leastDegrees ? 0 : z];
}

/** `left (outboard)`, `left (outboard) and slightly forward`, `forward and up, slightly right`. */
export function directionWords(way: Vec3, side: Side | null): string {
  const told = worthSaying(way);
  const sorted = ([0, 1, 2] as const)
    .map((axis) => ({ axis, size: Math.abs(told[axis]) }))
    .sort((a, b) => b.size - a.size || a.axis - b.axis);
  const share = (size: number) => size / sorted[0].size;
  const word = ({ axis }: { axis: Axis }) => directionPhrase(axis, way[axis], side);
  const main = sorted.filter(({ size }) => share(size) >= full).map(word);
  const slight = sorted.filter(({ size }) => share(size) < full && size > 0).map(word);
  const mainWords = main.length === 3 ? `${main[0]}, ${main[1]} and ${main[2]}` : main.join(' and ');
  if (slight.length === 0) return mainWords;
  return `${mainWords}${main.length === 1 ? ' and' : ','} slightly ${slight.join(' and ')}`;
}

/** Seen from above: 0° along the car's centreline, 90° square to it. Degrees. */
export const angleToCentrelineDegrees = ([x, y]: Vec3): number =>
  Math.atan2(Math.abs(y), Math.abs(x)) * degreesPerRadian;

/** Seen from the side: + rising, − falling. Degrees. */
export const angleToFloorDegrees = ([x, y, z]: Vec3): number =>
  Math.atan2(z, Math.hypot(x, y)) * degreesPerRadian;

/** `79° to the centreline, rising 13° from the floor`: to the centreline only where it is not mostly up or down, to the floor only where it rises or falls. */
export function angleWords(way: Vec3): string {
  const floor = angleToFloorDegrees(way);
  const rise = Math.round(Math.abs(floor));
  return [
    ...(rise > 45 ? [] : [centrelineWords(Math.round(angleToCentrelineDegrees(way)))]),
    ...(rise < leastDegrees || rise > 90 - leastDegrees
      ? []
      : [floor > 0 ? `rising ${rise}° from the floor` : `falling ${rise}° to the floor`]),
  ].join(', ');
}

function centrelineWords(degrees: number): string {
  if (degrees < leastDegrees) return 'along the centreline';
  return degrees > 90 - leastDegrees ? 'square to the centreline' : `${degrees}° to the centreline`;
}
