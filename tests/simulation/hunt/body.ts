import type { Vec3 } from '../../../server/src/geometry/vector';
import type { Chance } from './chance';

/** Bodies that chance lays out: 4 to 14 control points, 2 to 10 further parts, no two alike. */

export const layouts = [
  'spread',
  'two ends',
  'with centre points',
  'nearly on a line',
  'at one end',
] as const;
export type Layout = (typeof layouts)[number];

export interface HuntPoint {
  readonly id: string;
  /** Without its side. */
  readonly name: string;
  readonly reference: Vec3;
  /** Name of its part, without a side. */
  readonly part: string;
  readonly base: boolean;
}

export interface HuntPart {
  readonly name: string;
  readonly sided: boolean;
  readonly place: 'front' | 'rear' | 'floor' | 'above';
}

export interface HuntBody {
  readonly layout: Layout;
  readonly parts: readonly HuntPart[];
  readonly points: readonly HuntPoint[];
  readonly scope: readonly HuntPart[];
  readonly scopeEnd: 'front' | 'rear';
  /** Rearmost and foremost control point. */
  readonly baseEnds: readonly [number, number];
}

const floor: HuntPart = { name: 'floor', sided: false, place: 'floor' };

export function huntBody(chance: Chance): HuntBody {
  const layout = chance.happens(0.7) ? chance.one(layouts.slice(0, 3)) : chance.one(layouts);
  const scopeEnd = chance.one(['front', 'rear'] as const);
  const control = controlPoints(chance, layout, scopeEnd);
  const lengths = control.map(({ reference }) => reference[0]);
  const baseEnds = [Math.min(...lengths), Math.max(...lengths)] as const;
  const ends = layout === 'at one end' ? ([-700, 1400] as const) : baseEnds;
  const parts = furtherParts(chance, scopeEnd);
  const others = parts.flatMap((part) => pointsOf(chance, part, ends));
  const atEnd = parts.filter(({ place }) => place === scopeEnd);
  const scope = atEnd.slice(0, Math.max(1, Math.min(atEnd.length, chance.whole(1, 2))));
  return { layout, parts: [floor, ...parts], points: [...control, ...others], scope, scopeEnd, baseEnds };
}

/** A name is one point on the centre line, or two beside it. */
const named = (name: string, part: string, base: boolean, [x, y, z]: Vec3, centre: boolean): HuntPoint[] =>
  centre
    ? [{ id: name, name, reference: [x, 0, z], part, base }]
    : [
        { id: `${name}.L`, name, reference: [x, y, z], part, base },
        { id: `${name}.R`, name, reference: [x, -y, z], part, base },
      ];

function controlPoints(chance: Chance, layout: Layout, scopeEnd: 'front' | 'rear'): HuntPoint[] {
  const [rear, front] = [chance.between(-1100, -300), chance.between(700, 1600)];
  const count = chance.whole(4, 14);
  const points: HuntPoint[] = [];
  for (let i = 0; points.length < count; i++) {
    const centre = layout === 'with centre points' && i % 3 === 2;
    points.push(
      ...named(`base-${i}`, 'floor', true, controlPlace(chance, layout, scopeEnd, i, [rear, front]), centre),
    );
  }
  // an odd number: one side of the last name cannot be reached
  return points.slice(0, count).map((each) => rounded(each));
}

function controlPlace(
  chance: Chance,
  layout: Layout,
  scopeEnd: 'front' | 'rear',
  i: number,
  [rear, front]: readonly [number, number],
): Vec3 {
  const up = chance.happens(0.15) ? chance.between(500, 950) : chance.between(60, 350);
  const across = chance.between(150, 700);
  const share = i === 0 ? 0 : i === 1 ? 1 : chance.between(0, 1);
  const x = rear + (front - rear) * share;
  switch (layout) {
    case 'two ends':
      return [(i % 2 === 0 ? rear : front) + chance.between(-120, 120), across, up];
    case 'nearly on a line':
      return [x, chance.between(25, 90), chance.between(150, 220)];
    case 'at one end':
      return [scopeEnd === 'front' ? rear + 500 * share : front - 500 * share, across, up];
    default:
      return [x, across, up];
  }
}

const rounded = (point: HuntPoint): HuntPoint => {
  const [x, y, z] = point.reference;
  return { ...point, reference: [Math.round(x), Math.round(y), Math.round(z)] };
};

function furtherParts(chance: Chance, scopeEnd: 'front' | 'rear'): HuntPart[] {
  const count = chance.whole(2, 10);
  return Array.from({ length: count }, (_, i): HuntPart => {
    const place = i === 0 ? scopeEnd : chance.one(['front', 'rear', 'floor', 'above'] as const);
    return { name: `part-${i}`, sided: place === 'floor' || chance.happens(0.7), place };
  });
}

/** One to five stations, one of them at times on the centre line of a part without sides. */
function pointsOf(chance: Chance, part: HuntPart, [rear, front]: readonly [number, number]): HuntPoint[] {
  const stations = chance.whole(1, 5);
  const across = part.place === 'floor' ? chance.between(600, 750) : chance.between(380, 700);
  return Array.from({ length: stations }, (_, i) => {
    const out = 150 + (i + chance.between(0, 0.8)) * 260;
    const inside = chance.between(rear, front);
    const x = part.place === 'front' ? front + out : part.place === 'rear' ? rear - out : inside;
    const up =
      part.place === 'floor'
        ? chance.between(90, 230)
        : part.place === 'above'
          ? chance.between(400, 1400)
          : chance.between(180, 850);
    return named(
      `${part.name}-${i}`,
      part.name,
      false,
      [x, across + chance.between(-30, 30), up],
      !part.sided && chance.happens(0.3),
    );
  })
    .flat()
    .map(rounded);
}
