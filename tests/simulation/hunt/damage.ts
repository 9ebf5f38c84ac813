import type { Vec3 } from '../../../server/src/geometry/vector';
import type { HuntBody, HuntPoint } from './body';
import type { Chance } from './chance';

/** What happened to a body besides what its scope says, as how far each point is displaced. */

export const damages = [
  'none',
  'pair',
  'random half',
  'end half',
  'ramp',
  'twist',
  'side impact',
  'one part undeclared',
  'two parts undeclared',
  'whole other end undeclared',
  'neighbour off with the scope',
] as const;
export type Damage = (typeof damages)[number];

export type Shift = (point: HuntPoint) => Vec3;

const zero: Vec3 = [0, 0, 0];
const asOne =
  (by: Vec3, isMoved: (point: HuntPoint) => boolean): Shift =>
  (point) =>
    isMoved(point) ? by : zero;
export const together =
  (...shifts: readonly Shift[]): Shift =>
  (point) =>
    shifts.reduce<Vec3>((sum, shift) => {
      const by = shift(point);
      return [sum[0] + by[0], sum[1] + by[1], sum[2] + by[2]];
    }, zero);

/** @param sizeMm how far the worst point is displaced, about */
export function damageOf(kind: Damage, body: HuntBody, sizeMm: number, chance: Chance): Shift {
  const control = body.points.filter(({ base }) => base);
  const inScope = new Set(body.scope.map(({ name }) => name));
  const unnamed = chance.shuffled(body.parts.filter(({ name }) => name !== 'floor' && !inScope.has(name)));
  switch (kind) {
    case 'none':
      return () => zero;
    case 'pair': {
      const { name } = chance.one(control);
      return asOne(chance.along(sizeMm), (point) => point.name === name && point.base);
    }
    case 'random half': {
      const half = new Set(chance.shuffled(control).slice(0, control.length >> 1));
      return asOne(chance.along(sizeMm), (point) => half.has(point));
    }
    case 'end half':
      return endHalf(control, sizeMm, chance);
    case 'ramp':
    case 'twist':
      return bentFloor(kind, body, sizeMm, chance);
    case 'side impact':
      return sideImpact(body, sizeMm, chance);
    case 'one part undeclared':
    case 'two parts undeclared':
      return together(
        ...unnamed
          .slice(0, kind === 'one part undeclared' ? 1 : 2)
          .map(({ name }) => asOne(chance.along(sizeMm), (point) => point.part === name)),
      );
    case 'whole other end undeclared': {
      const by = chance.along(sizeMm);
      const other = body.scopeEnd === 'front' ? 'rear' : 'front';
      const names = new Set(body.parts.filter(({ place }) => place === other).map(({ name }) => name));
      return asOne(by, (point) => names.has(point.part));
    }
    case 'neighbour off with the scope':
      return neighbour(body, sizeMm, chance, inScope);
  }
}

/** What stands at one end of the base, and all that is beyond it. */
function endHalf(control: readonly HuntPoint[], sizeMm: number, chance: Chance): Shift {
  const front = chance.happens(0.5);
  const sorted = [...control].sort((a, b) => b.reference[0] - a.reference[0]);
  const cut = sorted[control.length >> 1].reference[0];
  return asOne(chance.along(sizeMm), ({ reference: [x] }) => (front ? x > cut : x <= cut));
}

/** Beyond a hinge floor and what is welded low to it lean or turn; at times all that stands beyond the base too. */
function bentFloor(kind: 'ramp' | 'twist', body: HuntBody, sizeMm: number, chance: Chance): Shift {
  const [rear, front] = body.baseEnds;
  const hinge = rear + (front - rear) * chance.between(0.2, 0.8);
  const ahead = chance.happens(0.5);
  const span = ahead ? front - hinge : hinge - rear;
  const all = chance.happens(0.5);
  const low = new Set(body.parts.filter(({ place }) => place === 'floor').map(({ name }) => name));
  const beyond = (x: number) => Math.max(0, ahead ? x - hinge : hinge - x) / span;
  const sign = chance.one([1, -1]);
  const upwards = chance.happens(0.5);
  return ({ base, part, reference: [x, y, z] }) => {
    if (!(base || low.has(part) || all)) return zero;
    const mm = sign * sizeMm * beyond(x);
    if (kind === 'twist') return [0, (-mm * (z - 200)) / 450, (mm * y) / 450];
    return upwards ? [0, 0, mm] : [0, mm, 0];
  };
}

/** One side is pushed in, most beside the middle, and takes the floor's points of that side along. */
function sideImpact(body: HuntBody, sizeMm: number, chance: Chance): Shift {
  const [rear, front] = body.baseEnds;
  const centre = chance.between(rear, front);
  const width = chance.between(400, 1100);
  const left = chance.happens(0.5);
  return ({ reference: [x, y] }) => {
    if (left ? y <= 0 : y >= 0) return zero;
    const mm = sizeMm * Math.exp(-(((x - centre) / width) ** 2)) * Math.min(1, Math.abs(y) / 400);
    return [0, left ? -mm : mm, 0.3 * mm];
  };
}

/** Parts at the scope's end that nobody named share the scope's own shift. */
function neighbour(body: HuntBody, sizeMm: number, chance: Chance, inScope: ReadonlySet<string>): Shift {
  const by = chance.along(sizeMm);
  const names = new Set(
    body.parts
      .filter(({ place, name }) => place === body.scopeEnd || inScope.has(name))
      .map(({ name }) => name),
  );
  return asOne(by, (point) => names.has(point.part));
}
