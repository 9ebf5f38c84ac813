import { rotationFromAngles } from '../../server/src/geometry/euler';
import {
  add,
  length,
  scaled,
  subtract,
  transformed,
  type Vec3,
  zero,
} from '../../server/src/geometry/vector';
import { axes, type Point } from '../../server/src/model/chassis';
import type { SeededRandom } from '../published/seeded-random';
import { bodyPoints, controlPoints, scopeParts, scopePoints, toleranceMm, zoneStartMm } from './body';
import { type DamageField, damageField } from './damage';
import { type Cell, damageSizesMm } from './grid';
import { below, normalVec3, pick, unitVec3 } from './random';
import type { State } from './recovery';

/**
 * One car as it truly is, in the frame that it was built in. A true deviation is where a point's metal is, its build scatter
 * included, less its reference position, in that frame: the one that the undamaged control points scatter about.
 */
export interface TrueCar {
  readonly received: State;
  readonly final: State;
  /** Control points that no longer stand where they were built, with how far. */
  readonly movedControl: ReadonlyMap<string, Vec3>;
  readonly field: DamageField | null;
  /** How far the worst judged point stands beyond its limit at the end, mm; negative: inside. */
  readonly worstExcessMm: number;
}

/** Normal on each axis, cut at the tolerance. */
function buildScatter(random: SeededRandom, standardDeviation: number): Vec3 {
  const one = (): number => {
    const x = random.normal(standardDeviation);
    return Math.abs(x) <= toleranceMm ? x : one();
  };
  return [one(), one(), one()];
}

export function trueCar(cell: Cell, random: SeededRandom): TrueCar {
  const control = controlPoints(cell.controlCount);
  const built = new Map(
    [...control, ...bodyPoints].map((point) => [
      point.id,
      add(point.reference, buildScatter(random, cell.scatterMm)),
    ]),
  );
  const movedOne = movedOneByOne(cell, control, random);
  const zone =
    cell.controlState === 'zone' || cell.controlState === 'stated zone' ? zoneMotion(random) : null;
  const { damage } = cell;
  const amountMm =
    damage === null ? 0 : random.uniform(damageSizesMm[damage.size][0], damageSizesMm[damage.size][1]);
  const field = damage === null ? null : damageField(damage.kind, amountMm, random);

  const shifted = (point: Point, by: Vec3, withZone: boolean): Vec3 => {
    const position = add(built.get(point.id)!, by);
    return zone !== null && withZone && point.reference[0] >= zoneStartMm ? zone(position) : position;
  };
  const movedControl = new Map<string, Vec3>();
  const controlState = control.map((point): [string, Vec3] => {
    const position = shifted(point, movedOne.get(point.id) ?? zero, true);
    const moved = subtract(position, built.get(point.id)!);
    if (length(moved) > 0) movedControl.set(point.id, moved);
    return [point.id, position];
  });
  const remainder = remainderOf(cell, field, built, random);
  // worst case of a zone that moved: the front was pulled right by its own displaced control points
  const zoneLeft = zone !== null && cell.outcome === 'out by > 5';
  const final = new Map([
    ...controlState,
    ...bodyPoints.map((point): [string, Vec3] => [
      point.id,
      shifted(point, zoneLeft ? zero : remainder(point), zoneLeft),
    ]),
  ]);
  return {
    received: new Map([
      ...controlState,
      ...bodyPoints.map((point): [string, Vec3] => [
        point.id,
        shifted(point, field?.displacement(point, 1) ?? zero, true),
      ]),
    ]),
    final,
    movedControl,
    field,
    worstExcessMm: worstExcessOf((point) => subtract(final.get(point.id)!, point.reference)),
  };
}

/** In any direction, by 6–30 mm: twice the tolerance and more. */
function movedOneByOne({ controlState }: Cell, control: readonly Point[], random: SeededRandom) {
  const count = controlState === 'one' ? 1 : controlState === 'two' ? 2 : 0;
  const left = [...control];
  return new Map(
    Array.from({ length: count }, (): [string, Vec3] => {
      const [{ id }] = left.splice(below(random, left.length), 1);
      return [id, scaled(unitVec3(random), random.uniform(2 * toleranceMm, 30))];
    }),
  );
}

/** A rigid motion of the whole front zone: 6–30 mm, and up to half a degree about any axis. */
function zoneMotion(random: SeededRandom): (position: Vec3) => Vec3 {
  const shift = scaled(unitVec3(random), random.uniform(2 * toleranceMm, 30));
  const [twist, pitch, yaw] = scaled(unitVec3(random), (random.uniform(0, 0.5) * Math.PI) / 180);
  const rotation = rotationFromAngles({ twist, pitch, yaw });
  const centre: Vec3 = [1200, 0, 200];
  return (position) => add(add(centre, shift), transformed(rotation, subtract(position, centre)));
}

function worstExcessOf(deviation: (point: Point) => Vec3): number {
  let worst = Number.NEGATIVE_INFINITY;
  for (const point of scopePoints)
    for (const k of axes) worst = Math.max(worst, Math.abs(deviation(point)[k]) - toleranceMm);
  return worst;
}

/** How far beyond the limit the worst judged point is to stand. */
function targetOf({ outcome, fullyRepaired }: Cell, random: SeededRandom): number | null {
  switch (outcome) {
    case 'sound':
      return fullyRepaired ? null : random.uniform(-1, 0);
    case 'out by 0–1':
      return random.uniform(0, 1);
    case 'out by 1–3':
      return random.uniform(1, 3);
    case 'out by 3–5':
      return random.uniform(3, 5);
    default:
      return random.uniform(5, 15);
  }
}

/** What is left of the damage at the end, sized so that the worst judged point stands as far out as the cell says. */
function remainderOf(
  cell: Cell,
  field: DamageField | null,
  built: State,
  random: SeededRandom,
): (point: Point) => Vec3 {
  const target = targetOf(cell, random);
  const one = pick(random, scopePoints);
  const axis = below(random, 3);
  const sign = pick(random, [1, -1]);
  const part = pick(random, scopeParts);
  const partWay = unitVec3(random);
  const bent = normalVec3(random, 0.3);
  if (field === null || target === null) return () => zero;
  const left = (scale: number) => (point: Point) => {
    if (cell.remainder === 'point')
      return point === one ? scaled([+(axis === 0), +(axis === 1), +(axis === 2)], 10 * sign * scale) : zero;
    if (cell.remainder === 'part')
      return point.part === part
        ? scaled(add(partWay, scaled(bent, (point.reference[0] - 2400) / 600)), 10 * scale)
        : zero;
    return field.displacement(point, scale);
  };
  const excess = (scale: number) =>
    worstExcessOf((point) => subtract(add(built.get(point.id)!, left(scale)(point)), point.reference));
  let [low, high] = [0, 1];
  while (excess(high) < target && high < 1000) high *= 2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) < target) low = middle;
    else high = middle;
  }
  return left(low);
}
