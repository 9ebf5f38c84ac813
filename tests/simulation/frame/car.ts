import { add, scaled, type Vec3, zero } from '../../../server/src/geometry/vector';
import type { Point } from '../../../server/src/model/chassis';
import type { SeededRandom } from '../../published/seeded-random';
import { controlPoints } from '../body';
import { below, normalVec3, pick, unitVec3 } from '../random';
import { badBases, elsewhereMm, otherPoints, toleranceMm } from './body';
import type { FrameCell } from './scenarios';

/** One body as it stands, in the frame that it was built in. */
export interface StandingCar {
  readonly control: readonly Point[];
  /** Where the metal of each point is, by id. */
  readonly positions: ReadonlyMap<string, Vec3>;
  /** Control points that were displaced by more than half of the tolerance on some axis. */
  readonly movedIds: ReadonlySet<string>;
}

type Shift = (point: Point) => Vec3;

export function standingCar(cell: FrameCell, random: SeededRandom): StandingCar {
  const control = controlOf(cell);
  const built = builtScatter(cell, control, random);
  const shift = displacement(cell, control, random);
  const movedIds = new Set(
    control
      .filter((point) => shift(point).some((each) => Math.abs(each) > toleranceMm / 2))
      .map(({ id }) => id),
  );
  const positions = new Map(
    [...control, ...otherPoints].map((point) => [
      point.id,
      add(point.reference, add(built(point), shift(point))),
    ]),
  );
  return { control, positions, movedIds };
}

function controlOf({ scenario, controlCount }: FrameCell): Point[] {
  const bad =
    scenario === 'control points nearly on a line'
      ? badBases['nearly on a line']
      : scenario === 'control points at one end'
        ? badBases['at one end']
        : null;
  // of bad places six stand for more, and four for four
  return bad === null ? controlPoints(controlCount) : controlCount === 4 ? bad.slice(0, 4) : [...bad];
}

/** Control points by themselves, or as their neighbours; all else half by itself and half as all that has the name of its part. */
function builtScatter(cell: FrameCell, control: readonly Point[], random: SeededRandom): Shift {
  const smooth = cell.scenario === 'neighbours scatter alike' ? smoothField(random) : null;
  const half = Math.SQRT1_2;
  const own = new Map(
    control.map((point) => [
      point.id,
      smooth === null
        ? normalVec3(random, cell.scatterMm)
        : add(scaled(smooth(point), cell.scatterMm * half), normalVec3(random, cell.scatterMm * half)),
    ]),
  );
  const shared = new Map<string, Vec3>();
  for (const point of otherPoints) {
    const name = point.part?.replace(/\.[LR]$/, '') ?? point.name;
    if (!shared.has(name)) shared.set(name, normalVec3(random, elsewhereMm * half));
    own.set(point.id, add(shared.get(name)!, normalVec3(random, elsewhereMm * half)));
  }
  return ({ id }) => own.get(id)!;
}

/** A random field with unit variance on each axis that changes over half a metre: six waves of random direction and phase. */
function smoothField(random: SeededRandom): Shift {
  const waves = Array.from({ length: 6 }, () => ({
    way: scaled(unitVec3(random), (2 * Math.PI) / random.uniform(1500, 3000)),
    phase: [0, 1, 2].map(() => random.uniform(0, 2 * Math.PI)),
  }));
  return ({ reference: [x, y, z] }) => {
    const on = (k: number) =>
      waves.reduce(
        (total, { way, phase }) =>
          total + Math.cos(way[0] * x + way[1] * y + way[2] * z + phase[k]) / Math.sqrt(3),
        0,
      );
    return [on(0), on(1), on(2)];
  };
}

/** By 4–8 mm, in any direction, as one. */
const asOne = (random: SeededRandom, isMoved: (point: Point) => boolean): Shift => {
  const by = scaled(unitVec3(random), random.uniform(4, 8));
  return (point) => (isMoved(point) ? by : zero);
};

const sills = new Set(['sill']);
const partName = ({ part }: Point): string => part?.replace(/\.[LR]$/, '') ?? '';

function displacement(cell: FrameCell, control: readonly Point[], random: SeededRandom): Shift {
  const lengths = control.map(({ reference }) => reference[0]);
  switch (cell.scenario) {
    case 'end pair moved': {
      const end = pick(random, [Math.min(...lengths), Math.max(...lengths)]);
      const pair = [...control].sort((a, b) => distanceTo(end, a) - distanceTo(end, b)).slice(0, 2);
      return asOne(random, (point) => pair.includes(point));
    }
    case 'left half moved':
      // pushed in from the side, and a pillar with it
      return asOne(random, ({ side, base, part }) => side === 'L' && (base || part === 'centre-pillar.L'));
    case 'random half moved':
    case 'listed base, half of it moved': {
      const left = [...control];
      const half = new Set(
        Array.from({ length: control.length >> 1 }, () => left.splice(below(random, left.length), 1)[0]),
      );
      return asOne(random, (point) => half.has(point));
    }
    case 'floor bent as a ramp':
      return ramp(random, lengths, (point) => point.base || sills.has(partName(point)));
    case 'floor bent as a ramp, sills straight':
      return ramp(random, lengths, ({ base }) => base);
    case 'floor twisted':
      return twisted(random, lengths);
    case 'both ends moved apart': {
      const [ahead, behind] = [asOne(random, isAhead(lengths)), asOne(random, isBehind(lengths))];
      return (point) => add(ahead(point), behind(point));
    }
    case 'rear rails off, not in the scope':
      return asOne(random, (point) => partName(point) === 'rear-rail');
    case 'rear rails and pillars off, not in the scope': {
      const shifts = ['rear-rail', 'centre-pillar'].map((name) =>
        asOne(random, (point) => partName(point) === name),
      );
      return (point) => add(shifts[0](point), shifts[1](point));
    }
    default:
      return () => zero;
  }
}

const distanceTo = (end: number, { reference }: Point): number => Math.abs(reference[0] - end);

/** Ends of a base: what stands within 100 mm of the foremost and of the rearmost control point. */
const isAhead =
  (lengths: readonly number[]) =>
  ({ base, reference }: Point): boolean =>
    base && reference[0] >= Math.max(...lengths) - 100;
const isBehind =
  (lengths: readonly number[]) =>
  ({ base, reference }: Point): boolean =>
    base && reference[0] <= Math.min(...lengths) + 100;

/** How far a place lies beyond a hinge in the middle of the base, as a share of what is beyond it; to the front or the rear. */
function beyondHinge(random: SeededRandom, lengths: readonly number[]): (x: number) => number {
  const [rear, front] = [Math.min(...lengths), Math.max(...lengths)];
  const hinge = rear + (front - rear) * random.uniform(0.3, 0.7);
  return pick(random, [true, false])
    ? (x) => Math.max(0, (x - hinge) / (front - hinge))
    : (x) => Math.max(0, (hinge - x) / (hinge - rear));
}

/** Beyond the hinge the floor climbs, falls or sets off sideways, by 4–8 mm at its end. */
function ramp(random: SeededRandom, lengths: readonly number[], follows: (point: Point) => boolean): Shift {
  const beyond = beyondHinge(random, lengths);
  const mm = random.uniform(4, 8) * pick(random, [1, -1]);
  const way: Vec3 = pick(random, [[0, 0, 1] as const, [0, 1, 0] as const]);
  return (point) => (follows(point) ? scaled(way, mm * beyond(point.reference[0])) : zero);
}

/** Beyond the hinge the floor and its sills turn about the length, more and more: 4–8 mm at 450 mm beside the axis, at its end. */
function twisted(random: SeededRandom, lengths: readonly number[]): Shift {
  const beyond = beyondHinge(random, lengths);
  const angle = (random.uniform(4, 8) / 450) * pick(random, [1, -1]);
  return (point) => {
    if (!(point.base || sills.has(partName(point)))) return zero;
    const [x, y, z] = point.reference;
    const turn = angle * beyond(x);
    return [0, -turn * (z - 180), turn * y];
  };
}
