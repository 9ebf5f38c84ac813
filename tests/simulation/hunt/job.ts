import type { Vec3 } from '../../../server/src/geometry/vector';
import { type HuntBody, type HuntPoint, huntBody, type Layout } from './body';
import { Chance } from './chance';
import { type Damage, damageOf, damages, type Shift, together } from './damage';
import { chassisText, readingsText } from './text';

/** One job of the hunt: its texts, and what is true of the car. */
export interface HuntJob {
  readonly chassis: string;
  /** Of the readings, what stands below its first two lines. */
  readonly readings: string;
  readonly traits: Traits;
  /** Points of the scope, stated or not, by id: how far each is from its reference, in the frame that the body was built in, mm. */
  readonly truth: ReadonlyMap<string, Vec3>;
  /** Control points that the damage displaced by over half of the tolerance on some axis. */
  readonly movedIds: ReadonlySet<string>;
}

export interface Traits {
  readonly damage: Damage;
  readonly layout: Layout;
  readonly controlCount: number;
  readonly scopeStated: boolean;
  readonly scatter: 'as stated' | 'more' | 'alike nearby';
  readonly frame: 'right' | 'mirrored';
  readonly unit: 'mm' | 'inch';
  readonly toleranceMm: number;
  readonly uncertaintyMm: number;
  /** Points off the scope that are no control points, and how many of them the damage displaced by over half of the tolerance. */
  readonly around: number;
  readonly aroundMoved: number;
  /** Nothing displaced a control point, and they scatter as stated. */
  readonly sound: boolean;
}

export function huntJob(seed: number, index: number): HuntJob {
  const chance = new Chance(seed, index);
  const body = huntBody(chance);
  const control = body.points.filter(({ base }) => base);
  const damage = damages[index % damages.length];
  const toleranceMm = chance.one([2, 3, 4]);
  const scatter = chance.one(['as stated', 'as stated', 'as stated', 'more', 'alike nearby'] as const);
  const shift = damageOf(damage, body, toleranceMm * chance.between(1.4, 4), chance);
  const isFar = (each: HuntPoint) => shift(each).some((mm) => Math.abs(mm) > toleranceMm / 2);
  const movedIds = new Set(control.filter(isFar).map(({ id }) => id));
  const inScope = new Set(body.scope.map(({ name }) => name));
  const around = body.points.filter(({ base, part }) => !base && !inScope.has(part));
  const traits: Traits = {
    damage,
    layout: body.layout,
    controlCount: control.length,
    scopeStated: chance.happens(0.85),
    scatter,
    frame: chance.happens(0.04) ? 'mirrored' : 'right',
    unit: chance.happens(0.2) ? 'inch' : 'mm',
    toleranceMm,
    uncertaintyMm: chance.one([0.3, 0.5, 0.8]),
    around: around.length,
    aroundMoved: around.filter(isFar).length,
    sound: control.every((each) => shift(each).every((mm) => mm === 0)),
  };
  const stands = together(builtScatter(body, scatter, chance), shift, scopeDamage(body, toleranceMm, chance));
  return {
    traits,
    movedIds,
    truth: new Map(
      body.points.filter(({ part }) => inScope.has(part)).map((point) => [point.id, stands(point)]),
    ),
    chassis: chassisText(body, traits),
    readings: readingsText(body, traits, stands, chance),
  };
}

/** Of control points and the scope 0.5 mm; of all else 1 mm, half of its variance shared by the name of a part. */
function builtScatter(body: HuntBody, scatter: Traits['scatter'], chance: Chance): Shift {
  const mm = scatter === 'more' ? 0.8 : 0.5;
  const inScope = new Set(body.scope.map(({ name }) => name));
  const wave = waves(chance);
  const shared = new Map(body.parts.map(({ name }) => [name, chance.normals(Math.SQRT1_2)]));
  const own = new Map<string, Vec3>();
  for (const point of body.points) {
    const { id, part, base } = point;
    if (!base && !inScope.has(part)) own.set(id, plus(shared.get(part)!, chance.normals(Math.SQRT1_2)));
    else if (scatter === 'alike nearby')
      own.set(id, plus(times(wave(point), mm * Math.SQRT1_2), chance.normals(mm * Math.SQRT1_2)));
    else own.set(id, chance.normals(mm));
  }
  return ({ id }) => own.get(id)!;
}

const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (v: Vec3, f: number): Vec3 => [v[0] * f, v[1] * f, v[2] * f];

/** A field of unit variance that changes over half a metre or more. */
function waves(chance: Chance): Shift {
  const each = Array.from({ length: 8 }, () => ({
    way: chance.along((2 * Math.PI) / chance.between(1200, 3500)),
    phase: chance.between(0, 2 * Math.PI),
    to: chance.normals(1),
  }));
  return ({ reference: [x, y, z] }) =>
    each.reduce<Vec3>(
      (sum, { way, phase, to }) =>
        plus(
          sum,
          times(to, Math.cos(way[0] * x + way[1] * y + way[2] * z + phase) * Math.sqrt(2 / each.length)),
        ),
      [0, 0, 0],
    );
}

/** What the job is about: in half of the jobs each part of the scope stands off by up to five tolerances, both its sides or one. */
function scopeDamage(body: HuntBody, toleranceMm: number, chance: Chance): Shift {
  if (chance.happens(0.5)) return () => [0, 0, 0];
  const by = new Map(
    body.scope.map(({ name }) => [name, chance.along(toleranceMm * chance.between(0.5, 5))]),
  );
  const left = chance.happens(0.4);
  return ({ part, reference }: HuntPoint) =>
    left && reference[1] < 0 ? [0, 0, 0] : (by.get(part) ?? [0, 0, 0]);
}
