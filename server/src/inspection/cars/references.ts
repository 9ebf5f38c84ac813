import type { Vec3 } from '../../geometry/vector';
import { type Axis, axes, type Chassis, type Point } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import type { Job } from '../../model/job';
import { nameOf, type Side, sideOf } from '../../model/names';
import { mapAxes } from '../alignment/points';
import type { CarPoint, CarRead } from './car';
import { bothSides, type Combined, overCars, sidesApart } from './combined';
import { type Proof, partByName, proofOf } from './proof';
import { wasWorkedOn } from './sound-stages';

/** A car that is not refused, and what it is called. */
export interface Donor {
  readonly name: string;
  readonly car: Extract<CarRead, { kind: 'car' }>;
}

/** Its order, else its file's name. */
export const carName = ({ order, uri }: Pick<Job, 'order' | 'uri'>): string =>
  order ?? fileName(uri).replace(/\.readings\.ya?ml$/, '');

/** A position to write. Vehicle axes, mm; of `both` the left one. */
export interface Position {
  readonly key: 'both' | 'left' | 'right' | 'centre';
  readonly over: Combined;
}

/** A name with all that cars say of it. */
export interface Reference {
  readonly name: string;
  readonly positions: readonly Position[];
  /** Standard uncertainty, the larger of two sides. */
  readonly uncertainty: Vec3;
  /** Left less right, mirrored, where both were read and are not one. */
  readonly apart: Combined | null;
  readonly part: string | null;
  /** The cars that it is from, and the newest day on which one was read. */
  readonly from: readonly string[];
  readonly date: string | null;
  /** Points of cars that the rest of their part, or what stands beside them, shows to be off: they take no part. */
  readonly leftOut: readonly LeftOut[];
  /** Cars that show nothing of the part that it is on. */
  readonly unproven: readonly string[];
}

export interface LeftOut {
  readonly car: string;
  readonly id: string;
  readonly proof: Exclude<Proof, { kind: 'sound' }>;
}

/** A point that the chassis has already, as the cars have it. */
export interface Compared {
  readonly point: Point;
  /** Cars less chassis, with what both leave uncertain. */
  readonly apart: Vec3;
  readonly uncertainty: Vec3;
  readonly cars: number;
  /** One of the cars was worked on later. */
  readonly beforeRepair: boolean;
}

/** Chosen: sides that differ by more are not written as one, mm. */
const mostApartMm = 1.5;
/** 99 % of a normal variable: three axes are asked at once. */
const byChance = 2.58;

const scatterOf = (id: string, { points, buildMm, buildElsewhereMm }: Chassis): number =>
  points.get(id)?.base ? buildMm : buildElsewhereMm;

interface Taken {
  readonly car: string;
  readonly point: CarPoint;
}

/** The reference of a name by these cars; null where no car gives one. */
export function referenceOf(name: string, donors: readonly Donor[], chassis: Chassis): Reference | null {
  const leftOut: LeftOut[] = [];
  const unproven = new Set<string>();
  const bySide = new Map<Side | null, Taken[]>();
  for (const { name: car, car: read } of donors)
    for (const point of read.points.values()) {
      if (nameOf(point.id) !== name) continue;
      const proof = proofOf(point, read.inspection, read.points);
      if (proof.kind === 'unproven' && !proof.inScope) unproven.add(car);
      else if (proof.kind !== 'sound') {
        leftOut.push({ car, id: point.id, proof });
        continue;
      }
      const side = sideOf(point.id);
      bySide.set(side, [...(bySide.get(side) ?? []), { car, point }]);
    }
  const taken = [...bySide.values()].flat();
  if (taken.length === 0) return leftOut.length === 0 ? null : { ...nothing, name, leftOut };
  const { positions, apart } = positionsOf(name, bySide, chassis);
  const days = taken.flatMap(({ point }) => point.at ?? []).sort();
  return {
    name,
    positions,
    uncertainty: mapAxes((k) => Math.max(...positions.map(({ over }) => over.uncertainty[k]))),
    apart,
    part: partByName(taken[0].point.id, chassis),
    from: [...new Set(taken.map(({ car }) => car))],
    date: days.at(-1) ?? null,
    leftOut,
    unproven: [...unproven],
  };
}

const nothing: Omit<Reference, 'name' | 'leftOut'> = {
  positions: [],
  uncertainty: [0, 0, 0],
  apart: null,
  part: null,
  from: [],
  date: null,
  unproven: [],
};

function positionsOf(
  name: string,
  bySide: ReadonlyMap<Side | null, readonly Taken[]>,
  chassis: Chassis,
): Pick<Reference, 'positions' | 'apart'> {
  const of = (side: Side | null) => (bySide.get(side) ?? []).map(({ point }) => point);
  const scatter = (id: string) => scatterOf(id, chassis);
  const centre = of(null);
  if (centre.length > 0)
    return { positions: [{ key: 'centre', over: overCars(centre, scatter(name)) }], apart: null };
  const rights = new Map((bySide.get('R') ?? []).map(({ car, point }) => [car, point]));
  const pairs = (bySide.get('L') ?? []).flatMap(({ car, point }) => {
    const right = rights.get(car);
    return right === undefined ? [] : [{ left: point, right }];
  });
  const scatterMm = scatter(`${name}.L`);
  const apart = pairs.length === 0 ? null : sidesApart(pairs, scatterMm);
  if (apart !== null && agree(apart))
    return { positions: [{ key: 'both', over: bothSides(pairs, scatterMm) }], apart: null };
  const sides = (
    [
      ['left', 'L'],
      ['right', 'R'],
    ] as const
  ).flatMap(([key, side]): Position[] => {
    const points = of(side);
    return points.length === 0 ? [] : [{ key, over: overCars(points, scatterMm) }];
  });
  return { positions: sides, apart };
}

const agree = ({ at, uncertainty }: Combined): boolean =>
  at.every((mm, k) => Math.abs(mm) <= Math.min(mostApartMm, byChance * uncertainty[k]));

/** A point of the chassis by these cars; null where none read it soundly. */
export function comparedPoint(point: Point, donors: readonly Donor[], chassis: Chassis): Compared | null {
  const having = donors.filter(({ car }) => car.points.has(point.id));
  const points = having.flatMap(({ car }) => car.points.get(point.id) ?? []);
  if (points.length === 0) return null;
  const over = overCars(points, scatterOf(point.id, chassis));
  const own = point.uncertaintyByAxisMm;
  return {
    point,
    apart: mapAxes((k) => over.at[k] - point.reference[k]),
    uncertainty: mapAxes((k) => Math.hypot(over.uncertainty[k], own?.[k] ?? point.uncertaintyMm)),
    cars: points.length,
    beforeRepair: having.some(({ car }) => wasWorkedOn(car.inspection)),
  };
}

/** Which axes tell that cars and chassis differ, at 95 % each. */
export const disagreeing = ({ apart, uncertainty }: Pick<Compared, 'apart' | 'uncertainty'>): Axis[] =>
  axes.filter((k) => Math.abs(apart[k]) > 1.96 * uncertainty[k]);

/** The axes on which they differ by more than that, and by more than the point's limits. */
export const beyondLimits = (compared: Pick<Compared, 'point' | 'apart' | 'uncertainty'>): Axis[] =>
  disagreeing(compared).filter((k) => {
    const [low, high] = compared.point.limits[k];
    return compared.apart[k] < low || compared.apart[k] > high;
  });

/** How far a reference to be written lies from the point that it takes the place of; null where it gives no position to it. */
export function apartFrom(
  { positions }: Reference,
  point: Point,
): Omit<Compared, 'cars' | 'beforeRepair'> | null {
  const keys = point.side === null ? ['centre'] : ['both', point.side === 'L' ? 'left' : 'right'];
  const position = positions.find(({ key }) => keys.includes(key));
  if (position === undefined) return null;
  const { at, uncertainty } = position.over;
  const isMirrored = position.key === 'both' && point.side === 'R';
  const own = point.uncertaintyByAxisMm;
  return {
    point,
    apart: mapAxes((k) => (isMirrored && k === 1 ? -at[k] : at[k]) - point.reference[k]),
    uncertainty: mapAxes((k) => Math.hypot(uncertainty[k], own?.[k] ?? point.uncertaintyMm)),
  };
}
