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
import type { Point } from '../../server/src/model/chassis';
import type { SeededRandom } from '../published/seeded-random';
import { bodyPoints } from './body';
import type { DamageKind } from './grid';
import { normalVec3, pick } from './random';

/**
 * How metal is displaced. None of this is what the program assumes: a rail bends over a hinge of some length and keeps on curving
 * beyond it, conditions of the body grow like cantilevers and crush, twist grows faster than the way and warps, and everything
 * displaced is crumpled a little besides.
 */
export interface DamageField {
  /** Vehicle axes, mm. @param scale 1: as hit; less: what is left of it */
  displacement(point: Point, scale: number): Vec3;
  /** The rail that is bent and nothing else, mm forward; null where that cannot be said. */
  readonly bend: TrueBend | null;
  /** The rail that is straight but stands askew. */
  readonly yawedPart: string | null;
}

export interface TrueBend {
  readonly part: string;
  /** Where the metal begins to bend. */
  readonly startMm: number;
  /** Where its straight course before and its course just beyond the hinge meet: the middle of the hinge. */
  readonly cornerMm: number;
}

type Shape = (reference: Vec3, amountMm: number) => Vec3;

const firewallMm = 1600;
const tipMm = 2960;
const railAxis = { across: 430, up: 270 } as const;

/** How far along the front, 0 at the firewall. */
const alongFront = (x: number): number => Math.max(0, (x - firewallMm) / (tipMm - firewallMm));
const cantilever = (s: number): number => (s * s * (3 - Math.min(s, 1))) / 2;

/** The six conditions of the body; a turn about the body's way that grows with the 1.6th power and warps. */
function conditionShape(kind: DamageKind, sign: 1 | -1): Shape {
  return ([x, y, z], amount) => {
    const s = alongFront(x);
    if (s === 0) return zero;
    const a = amount * sign;
    switch (kind) {
      case 'mash': {
        const crush = amount * (0.25 * s + 0.75 * s ** 3);
        return [-crush, Math.sign(y) * 0.15 * amount * Math.sin(Math.PI * Math.min(s, 1)), 0];
      }
      case 'sidesway':
        return [-(a * s * y) / 1500, a * cantilever(s), 0];
      case 'sag':
        return [0, 0, -amount * cantilever(s)];
      case 'high':
        return [0, 0, amount * cantilever(s)];
      case 'diamond':
        return [(a / 2) * (y / railAxis.across) * Math.min(1, 2 * s) ** 1.5, 0, 0];
      default: {
        const angle = (a / railAxis.across) * s ** 1.6;
        const [c, n] = [Math.cos(angle) - 1, Math.sin(angle)];
        const h = z - 350;
        return [(0.2 * a * s * s * y * h) / (railAxis.across * 300), c * y - n * h, n * y + c * h];
      }
    }
  };
}

interface BentRail {
  readonly shape: Shape;
  readonly startMm: number;
  readonly cornerMm: number;
}

/** Bent over a hinge of 10–40 mm, curving on beyond it by a twentieth more at the tip; its sections turn with it. */
function bentRail(random: SeededRandom, side: 1 | -1): BentRail {
  const startMm = random.uniform(1830, 2600);
  const hingeMm = random.uniform(10, 40);
  const cornerMm = startMm + hingeMm / 2;
  const way = random.uniform(0, 2 * Math.PI);
  const shape: Shape = ([x, y, z], amount) => {
    const s = x - startMm;
    if (s <= 0) return zero;
    const course = amount / (tipMm - cornerMm);
    const lever = Math.max(0, (x - cornerMm) / (tipMm - cornerMm));
    const hinged = s < hingeMm ? s ** 2 / (2 * hingeMm) : s - hingeMm / 2;
    const offset = course * hinged * (1 + 0.05 * lever ** 2);
    const turn = course * Math.min(1, s / hingeMm) * (1 + 0.15 * lever ** 2);
    const [sideways, up] = [Math.cos(way), Math.sin(way)];
    const back = turn * (sideways * (y - side * railAxis.across) + up * (z - railAxis.up));
    return [-back - (course ** 2 * hinged) / 2, offset * sideways, offset * up];
  };
  return { shape, startMm, cornerMm };
}

/** The amount is how far upper and lower points part. */
function twistedRail(random: SeededRandom, side: 1 | -1): Shape {
  const startMm = random.uniform(1830, 2600);
  const sign = pick(random, [1, -1] as const);
  return ([x, y, z], amount) => {
    const s = Math.max(0, (x - startMm) / (tipMm - startMm));
    const angle = ((sign * amount) / 140) * s ** 1.5;
    const [c, n] = [Math.cos(angle) - 1, Math.sin(angle)];
    const [across, up] = [y - side * railAxis.across, z - railAxis.up];
    return [0, c * across - n * up, n * across + c * up];
  };
}

/** Turned as a whole about a place behind its root: straight all along. */
function yawedRail(random: SeededRandom, side: 1 | -1): Shape {
  const pivot: Vec3 = [random.uniform(1300, 1750), side * railAxis.across, railAxis.up];
  const way = random.uniform(-0.6, 0.6) + pick(random, [0, Math.PI]);
  return (reference, amount) => {
    const angle = amount / (tipMm - pivot[0]);
    const turn = rotationFromAngles({ yaw: angle * Math.cos(way), pitch: angle * Math.sin(way), twist: 0 });
    const arm = subtract(reference, pivot);
    return subtract(transformed(turn, arm), arm);
  };
}

/** @param amountMm of the worst place when hit */
export function damageField(kind: DamageKind, amountMm: number, random: SeededRandom): DamageField {
  const sign = pick(random, [1, -1] as const);
  const side = pick(random, [1, -1] as const);
  const part = side === 1 ? 'front-rail.L' : 'front-rail.R';
  const onRail =
    (shape: Shape) =>
    (point: Point, amount: number): Vec3 =>
      point.part === part ? shape(point.reference, amount) : zero;
  const onFront =
    (of: DamageKind) =>
    (point: Point, amount: number): Vec3 =>
      conditionShape(of, sign)(point.reference, amount);
  const crumpled = (shape: (point: Point, amount: number) => Vec3) => {
    const grain = new Map(bodyPoints.map(({ id }) => [id, normalVec3(random, 1)]));
    return (point: Point, scale: number): Vec3 => {
      const d = shape(point, amountMm * scale);
      const size = length(d);
      return add(d, scaled(grain.get(point.id) ?? zero, Math.min(0.2, 0.1 * size) + 0.005 * size));
    };
  };
  const nothingElse = { bend: null, yawedPart: null };
  switch (kind) {
    case 'bent rail':
    case 'bent and twisted rail': {
      const { shape, startMm, cornerMm } = bentRail(random, side);
      const twist = kind === 'bent rail' ? () => zero : twistedRail(random, side);
      const both = onRail((at, amount) => add(shape(at, amount), twist(at, 0.6 * amount)));
      const bend = kind === 'bent rail' ? { part, startMm, cornerMm } : null;
      return { ...nothingElse, displacement: crumpled(both), bend };
    }
    case 'twisted rail':
      return { ...nothingElse, displacement: crumpled(onRail(twistedRail(random, side))) };
    case 'yawed rail': {
      const shape = onRail(yawedRail(random, side));
      return {
        ...nothingElse,
        displacement: (point, scale) => shape(point, amountMm * scale),
        yawedPart: part,
      };
    }
    case 'mash and sidesway': {
      const [mash, sidesway] = [onFront('mash'), onFront('sidesway')];
      return {
        ...nothingElse,
        displacement: crumpled((at, amount) => add(mash(at, amount), sidesway(at, 0.6 * amount))),
      };
    }
    case 'twist and bent rail': {
      const [twist, bend] = [onFront('twist'), onRail(bentRail(random, side).shape)];
      return {
        ...nothingElse,
        displacement: crumpled((at, amount) => add(twist(at, 0.6 * amount), bend(at, amount))),
      };
    }
    default:
      return { ...nothingElse, displacement: crumpled(onFront(kind)) };
  }
}
