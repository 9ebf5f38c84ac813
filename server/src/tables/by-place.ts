import { rigidFit } from '../geometry/rigid-motion';
import { add, distance, transformed, type Vec3 } from '../geometry/vector';
import { inVehicleDirections, meanOf } from '../inspection/alignment/prepared';
import type { Chassis } from '../model/chassis';
import type { Direction } from '../model/job';
import { sideOf } from '../model/names';
import { mmPer, type Unit } from '../model/units';
import type { Digits } from './table-rows';

/** A name and its numbers, as the instrument has them. */
interface Placed {
  readonly name: string;
  readonly digits: Digits;
}

/** Farther from its reference a row is not found by place, mm (chosen: under the usual distance of two points, over most damage). */
const mostOffMm = 15;
/** Control points that fit worse do not align a stage, mm (chosen). */
const worstFitMm = 5;
/** Of the largest, below which the control points lie in a line: a share of their spread. */
const inLine = 1e-3;

/**
 * Which unread points the rows with unknown names may be: the car is aligned by the control points that are known, and a row belongs to
 * the one unread reference within 15 mm of it. Nothing where fewer than three control points are known, they lie in a line or do not
 * fit, or where two rows would be one point.
 * @returns by name: the id, and how far off it is, mm
 */
export function foundByPlace(
  chassis: Chassis,
  job: { readonly axes: readonly Direction[]; readonly unit: Unit },
  known: readonly (Placed & { readonly id: string })[],
  unknown: readonly Placed[],
): ReadonlyMap<string, { readonly id: string; readonly offMm: number }> {
  const inMm = (digits: Digits): Vec3 => {
    const [a, b, c] = digits.map((each) => Number(each) * mmPer[job.unit]);
    return [a, b, c];
  };
  const motion = alignedBy(chassis, job.axes, known, inMm);
  // whether an outboard number counts left or right is what its name would say
  if (motion === null || job.axes.includes('outboard')) return new Map();
  const read = new Set(known.map(({ id }) => id));
  const unread = [...chassis.points.values()].filter(({ id }) => !read.has(id));
  const found = new Map<string, { id: string; offMm: number }>();
  for (const [name, digits] of grouped(unknown)) {
    const at = motion(inVehicleDirections(meanOf(digits.map(inMm)), job.axes, null));
    const near = unread.flatMap(({ id, reference }) => {
      const offMm = distance(reference, at);
      return offMm <= mostOffMm ? [{ id, offMm }] : [];
    });
    if (near.length === 1) found.set(name, near[0]);
  }
  const claims = [...found.values()].map(({ id }) => id);
  return new Map([...found].filter(([, { id }]) => claims.filter((each) => each === id).length === 1));
}

function grouped(rows: readonly Placed[]): Map<string, Digits[]> {
  const groups = new Map<string, Digits[]>();
  for (const { name, digits } of rows) {
    const same = groups.get(name);
    if (same === undefined) groups.set(name, [digits]);
    else same.push(digits);
  }
  return groups;
}

/** From the instrument to the vehicle; null where what is known does not tell. */
function alignedBy(
  chassis: Chassis,
  axes: readonly Direction[],
  known: readonly (Placed & { readonly id: string })[],
  inMm: (digits: Digits) => Vec3,
): ((at: Vec3) => Vec3) | null {
  const pairs = known.flatMap(({ id, digits }) => {
    const point = chassis.points.get(id);
    if (!point?.base) return [];
    return [{ from: inVehicleDirections(inMm(digits), axes, sideOf(id)), to: point.reference }];
  });
  if (pairs.length < 3) return null;
  const fit = rigidFit(
    pairs.map(({ from }) => from),
    pairs.map(({ to }) => to),
    pairs.map(() => 1),
  );
  const [largest, second] = fit.singularValues;
  if (fit.rms > worstFitMm || fit.reflected || !(second > largest * inLine)) return null;
  return (at) => add(transformed(fit.rotation, at), fit.translation);
}
