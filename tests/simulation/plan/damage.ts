import { rotationFromAngles } from '../../../server/src/geometry/euler';
import { add, scaled, subtract, transformed, type Vec3, zero } from '../../../server/src/geometry/vector';
import type { Point } from '../../../server/src/model/chassis';
import type { SeededRandom } from '../../published/seeded-random';
import { pick, unitVec3 } from '../random';
import { world } from './world';

/** What a hit did to one car, without the scatter that it was built with. Vehicle axes, mm. */
export interface PlanDamage {
  readonly kind: DamageKind;
  readonly field: (point: Point) => Vec3;
  /** Metal that moved as one rigid body each, by part. */
  readonly bodies: readonly ReadonlySet<string>[];
  /** Where a part begins to bend, mm along it, and +1 where the bent metal lies up its axis. */
  readonly bends: ReadonlyMap<string, { readonly startMm: number; readonly away: 1 | -1 }>;
  /** About the part's own way, as it turned: sign. */
  readonly twists: ReadonlyMap<string, 1 | -1>;
}

export const damageKinds = [
  'bent rail',
  'both rails bent',
  'twisted rail',
  'rail pushed back',
  'front end as one',
  'front end askew',
  'apron',
  'bent rail, other apron',
  'radiator support',
  'pillar bent in',
  'sill and pillar pushed in',
  'sill pushed in',
  'crossmember bent',
  'rear rail bent',
  'rear end as one',
  'rear panel',
  'rail and support apart',
  'front end in two',
  'sill and pillar apart',
  'rear rail and panel apart',
] as const;
/** Metal that was crushed along the car besides, so that no part moved as a rigid body: what seams are for. */
const crushedKinds = ['rail and apron crushed', 'rail crushed, apron turned'] as const;
export const kindsWithSeams = [...damageKinds, ...crushedKinds] as const;
export type DamageKind = (typeof kindsWithSeams)[number];

type Field = (point: Point) => Vec3;
interface Parts {
  field: Field;
  bodies?: PlanDamage['bodies'];
  bends?: [string, { startMm: number; away: 1 | -1 }][];
  twists?: [string, 1 | -1][];
}

const beside =
  (...fields: Field[]): Field =>
  (point) =>
    fields.reduce((total, field) => add(total, field(point)), zero);

/** Over a hinge of 20 mm all that lies beyond leans off as one body. */
function hinged(
  part: string,
  along: 0 | 1 | 2,
  startMm: number,
  away: 1 | -1,
  way: Vec3,
  slope: number,
): Parts {
  const hinge = 20;
  const field: Field = (point) => {
    const s = away * (point.reference[along] - startMm);
    if (point.part !== part || s <= 0) return zero;
    const arm = s < hinge ? s ** 2 / (2 * hinge) : s - hinge / 2;
    return scaled(way, slope * arm);
  };
  return { field, bends: [[part, { startMm, away }]] };
}

/** A rigid motion of the points that a test picks. */
function rigid(shift: Vec3, turn: Vec3, pivot: Vec3, picked: (point: Point) => boolean): Field {
  const [twist, pitch, yaw] = turn;
  const rotation = rotationFromAngles({ twist, pitch, yaw });
  return (point) => {
    if (!picked(point)) return zero;
    const arm = subtract(point.reference, pivot);
    return add(shift, subtract(transformed(rotation, arm), arm));
  };
}

function twisted(
  part: string,
  axis: readonly [number, number],
  startMm: number,
  endMm: number,
  rad: number,
): Parts {
  const field: Field = (point) => {
    const s = (point.reference[0] - startMm) / (endMm - startMm);
    if (point.part !== part || s <= 0) return zero;
    const angle = rad * s;
    const [y, z] = [point.reference[1] - axis[0], point.reference[2] - axis[1]];
    const [c, n] = [Math.cos(angle) - 1, Math.sin(angle)];
    return [0, c * y - n * z, n * y + c * z];
  };
  return { field, twists: [[part, rad > 0 ? 1 : -1]] };
}

const across = (random: SeededRandom): Vec3 => {
  const angle = random.uniform(0, 2 * Math.PI);
  return [0, Math.cos(angle), Math.sin(angle)];
};

const frontParts =
  (side: 'L' | 'R' | null) =>
  (point: Point): boolean =>
    point.reference[0] > 2100 &&
    (side === null || point.side === side || point.side === null) &&
    ['front-rail', 'apron', 'radiator-support'].some((name) => point.part?.startsWith(name));

const partsPicked = (picked: (point: Point) => boolean): ReadonlySet<string> =>
  new Set([...world.points.values()].filter(picked).flatMap(({ part }) => part ?? []));

function frontEnd(random: SeededRandom, turnDegrees: number): Parts {
  const picked = frontParts(null);
  const shift = scaled(unitVec3(random), random.uniform(6, 30));
  const turn = scaled(unitVec3(random), (random.uniform(0, turnDegrees) * Math.PI) / 180);
  return { field: rigid(shift, turn, [2600, 0, 500], picked), bodies: [partsPicked(picked)] };
}

function rearEnd(random: SeededRandom): Parts {
  const picked = ({ reference, part }: Point) =>
    reference[0] < -850 && ['rear-rail', 'rear-panel', 'tailgate'].some((name) => part?.startsWith(name));
  const shift = scaled(unitVec3(random), random.uniform(6, 25));
  const turn = scaled(unitVec3(random), (random.uniform(0, 0.8) * Math.PI) / 180);
  return { field: rigid(shift, turn, [-1200, 0, 500], picked), bodies: [partsPicked(picked)] };
}

function sideHit(random: SeededRandom, side: 'L' | 'R', withPillar: boolean): Parts {
  const inward = side === 'L' ? -1 : 1;
  const shift: Vec3 = [random.uniform(-4, 4), inward * random.uniform(6, 25), random.uniform(-5, 5)];
  const picked = ({ reference: [x], part }: Point) =>
    (part === `sill.${side}` && x > 100 && x < 700) || (withPillar && part === `centre-pillar.${side}`);
  const turn: Vec3 = [0, 0, withPillar ? random.uniform(-0.01, 0.01) : 0];
  return {
    field: rigid(shift, turn, [330, inward * -740, 300], picked),
    bodies: withPillar ? [partsPicked(picked)] : [],
  };
}

function bentRail(random: SeededRandom, side: 'L' | 'R'): Parts {
  return hinged(
    `front-rail.${side}`,
    0,
    random.uniform(1900, 2550),
    1,
    across(random),
    random.uniform(0.01, 0.06),
  );
}

function apron(random: SeededRandom, side: 'L' | 'R'): Parts {
  const picked = ({ part, reference }: Point) => part === `apron.${side}` && reference[0] > 2000;
  const turn = scaled(unitVec3(random), random.uniform(0, 0.02));
  return { field: rigid(scaled(unitVec3(random), random.uniform(6, 25)), turn, [2250, 0, 800], picked) };
}

/** Past a place it leans off and is shortened besides, the more the farther out. */
function crushed(part: string, startMm: number, way: Vec3, slopes: readonly [number, number]): Parts {
  const { field, bends } = hinged(part, 0, startMm, 1, way, slopes[0]);
  const shortened: Field = (point) =>
    point.part === part ? [-slopes[1] * Math.max(0, point.reference[0] - startMm), 0, 0] : zero;
  return { field: beside(field, shortened), bends };
}

function crushedRail(random: SeededRandom, side: 'L' | 'R', way: Vec3): Parts {
  const slopes = [random.uniform(0.03, 0.06), random.uniform(0.015, 0.04)] as const;
  return crushed(`front-rail.${side}`, random.uniform(1900, 2300), way, slopes);
}

/** What one part alone suffers. */
function onePart(kind: DamageKind, random: SeededRandom, side: 'L' | 'R'): Parts {
  const sign = pick(random, [1, -1] as const);
  const inward = side === 'L' ? -1 : 1;
  switch (kind) {
    case 'twisted rail':
      return twisted(
        `front-rail.${side}`,
        [-inward * 448, 275],
        random.uniform(1900, 2300),
        3012,
        sign * random.uniform(0.12, 0.25),
      );
    case 'rail pushed back': {
      const from = random.uniform(1900, 2600);
      const back: Vec3 = [-random.uniform(6, 25), random.uniform(-3, 3), random.uniform(-3, 3)];
      const picked = ({ part, reference }: Point) => part === `front-rail.${side}` && reference[0] > from;
      return {
        field: rigid(back, zero, zero, picked),
        bends: [[`front-rail.${side}`, { startMm: from, away: 1 }]],
      };
    }
    case 'pillar bent in':
      return hinged(
        `centre-pillar.${side}`,
        2,
        random.uniform(310, 560),
        1,
        [0, inward, 0],
        random.uniform(0.015, 0.04),
      );
    case 'crossmember bent':
      return hinged(
        'crossmember',
        1,
        sign * random.uniform(80, 280),
        sign,
        [random.uniform(-1, 1), 0, random.uniform(-1, 1)],
        random.uniform(0.02, 0.08),
      );
    case 'rear rail bent':
      return hinged(
        `rear-rail.${side}`,
        0,
        random.uniform(-880, -620),
        -1,
        across(random),
        random.uniform(0.01, 0.06),
      );
    case 'rear panel':
      return {
        field: rigid(
          scaled(unitVec3(random), random.uniform(5, 20)),
          zero,
          zero,
          ({ part }) => part === 'rear-panel',
        ),
      };
    default:
      return {
        field: rigid(
          scaled(unitVec3(random), random.uniform(5, 20)),
          scaled(unitVec3(random), 0.01),
          [3000, 0, 500],
          ({ part }) => part === 'radiator-support',
        ),
      };
  }
}

/** What moved as one, and of that one part by a little more. */
function inTwo({ field }: Parts, part: string, random: SeededRandom): Parts {
  const more = scaled(unitVec3(random), random.uniform(2, 12));
  return { field: (point) => (point.part === part ? add(field(point), more) : field(point)) };
}

function damaged(kind: DamageKind, random: SeededRandom): Parts {
  const side = pick(random, ['L', 'R'] as const);
  const other = side === 'L' ? 'R' : 'L';
  const two = (a: Parts, b: Parts): Parts => ({
    field: beside(a.field, b.field),
    bends: [...(a.bends ?? []), ...(b.bends ?? [])],
  });
  switch (kind) {
    case 'bent rail':
      return bentRail(random, side);
    case 'both rails bent':
      return two(bentRail(random, 'L'), bentRail(random, 'R'));
    case 'bent rail, other apron':
      return two(bentRail(random, side), apron(random, other));
    case 'apron':
      return apron(random, side);
    case 'front end as one':
      return frontEnd(random, 0.2);
    case 'front end askew':
      return frontEnd(random, 1.2);
    case 'sill and pillar pushed in':
      return sideHit(random, side, true);
    case 'sill pushed in':
      return sideHit(random, side, false);
    case 'rail and support apart':
      return two(bentRail(random, side), onePart('radiator support', random, side));
    case 'front end in two':
      return inTwo(frontEnd(random, 0.5), 'radiator-support', random);
    case 'sill and pillar apart':
      return inTwo(sideHit(random, side, true), `centre-pillar.${side}`, random);
    case 'rear rail and panel apart':
      return two(onePart('rear rail bent', random, side), onePart('rear panel', random, side));
    case 'rear end as one':
      return rearEnd(random);
    case 'rail and apron crushed': {
      const way = across(random);
      const slopes = [random.uniform(0.02, 0.05), random.uniform(0.015, 0.04)] as const;
      const beyondStrut = crushed(`apron.${side}`, random.uniform(1900, 2200), way, slopes);
      // an apron has no levels that show where a bend begins: its holds are judged by the metal alone
      return { ...two(crushedRail(random, side, way), { field: beyondStrut.field }) };
    }
    case 'rail crushed, apron turned':
      return two(crushedRail(random, side, across(random)), apron(random, side));
    default:
      return onePart(kind, random, side);
  }
}

export function planDamage(kind: DamageKind, random: SeededRandom): PlanDamage {
  const { field: whole, bodies = [], bends = [], twists = [] } = damaged(kind, random);
  // as received, or what a pull has left of it
  const left = pick(random, [1, random.uniform(0.1, 1)]);
  const field: Field = (point) => scaled(whole(point), left);
  return { kind, field, bodies, bends: new Map(bends), twists: new Map(twists) };
}
