/** An invented body of any number of points, in a real one's shape: control points on the floor, parts with stations at two levels. */

export interface BodyPoint {
  readonly name: string;
  readonly part: string;
  readonly isControl: boolean;
  /** mm in vehicle axes: forward, outboard, up. */
  readonly reference: readonly [number, number, number];
}

export interface Body {
  /** Each makes a point on either side. */
  readonly points: readonly BodyPoint[];
  readonly chassis: string;
}

type Entry = readonly [name: string, forward: number, outboard: number, up: number];

const controls: readonly Entry[] = [
  ['floor-front', 1200, 420, 95],
  ['floor-rear', -350, 455, 90],
  ['tunnel-front', 905, 188, 242],
  ['rear-floor', -1050, 388, 296],
  ['cowl-hole', 1480, 612, 905],
  ['sill-hole', 130, 706, 150],
];

interface LongPart {
  readonly name: string;
  readonly along: 'length' | 'height';
  /** Root and tip: forward, outboard, up. */
  readonly root: readonly [number, number, number];
  readonly tip: readonly [number, number, number];
  /** From the first level to the second. */
  readonly levels: readonly [number, number, number];
  /** Its share of the points that are not control points. */
  readonly share: number;
  readonly steel: string;
}

const longParts: readonly LongPart[] = [
  {
    name: 'front-rail',
    along: 'length',
    root: [1760, 441, 188],
    tip: [3012, 448, 210],
    levels: [0, 4, 140],
    share: 0.28,
    steel: 'ultra-high-strength',
  },
  {
    name: 'sill',
    along: 'length',
    root: [-400, 702, 148],
    tip: [1100, 710, 152],
    levels: [0, 3, 94],
    share: 0.24,
    steel: 'ultra-high-strength',
  },
  {
    name: 'rear-rail',
    along: 'length',
    root: [-620, 478, 176],
    tip: [-1420, 505, 330],
    levels: [0, 2, 92],
    share: 0.18,
    steel: 'high-strength',
  },
  {
    name: 'centre-pillar',
    along: 'height',
    root: [640, 722, 320],
    tip: [590, 610, 1220],
    levels: [-96, 0, 0],
    share: 0.16,
    steel: 'press-hardened',
  },
  {
    name: 'apron',
    along: 'length',
    root: [1900, 640, 790],
    tip: [2980, 600, 720],
    levels: [0, -70, 60],
    share: 0.14,
    steel: 'high-strength',
  },
];

/**
 * @param pointCount points of the body, both sides counted; even, 60 or more
 * @param seed bodies of another seed have other figures and the same names
 */
export function inventedBody(pointCount: number, seed = 0): Body {
  const names = pointCount / 2 - controls.length;
  if (!Number.isInteger(names) || names < 24) throw new Error(`no body of ${pointCount} points`);
  const shift = (seed % 25) * 2;
  const points: BodyPoint[] = controls.map(([name, forward, outboard, up]) => ({
    name,
    part: 'floor',
    isControl: true,
    reference: [forward + shift, outboard, up],
  }));
  let left = names;
  longParts.forEach((part, index) => {
    const isLast = index === longParts.length - 1;
    const count = isLast ? left : 2 * Math.round((names * part.share) / 2);
    left -= count;
    points.push(...pointsOn(part, count, shift));
  });
  return { points, chassis: chassisText(points, seed) };
}

function pointsOn(part: LongPart, count: number, shift: number): BodyPoint[] {
  const stations = Math.ceil(count / 2);
  return Array.from({ length: count }, (_, index) => {
    const station = index >> 1;
    const share = station / (stations - 1);
    const level = index % 2;
    const at = (axis: 0 | 1 | 2) =>
      Math.round(part.root[axis] + share * (part.tip[axis] - part.root[axis]) + level * part.levels[axis]);
    const word = part.along === 'height' ? ['front', 'rear'][level] : ['lower', 'upper'][level];
    return {
      name: `${part.name}-${String(station + 1).padStart(2, '0')}-${word}`,
      part: part.name,
      isControl: false,
      reference: [at(0) + shift, at(1), at(2)],
    };
  });
}

function chassisText(points: readonly BodyPoint[], seed: number): string {
  const parts = longParts.map(
    ({ name, along, steel }) =>
      `  ${name}: { sided: true, along: ${along}, steel: ${steel}, straighten: minor, reference: body repair manual }`,
  );
  const rows = points.map(({ name, part, isControl, reference }) => {
    const control = isControl ? ', base: true' : '';
    return `  ${name}: { both: [${reference.join(', ')}], part: ${part}${control}, fixing: hole }`;
  });
  return `framewright: chassis/1
# Invented, for the benchmark: no car has these dimensions.
vehicle: Marten, body ${seed}
source: { kind: published, reference: body dimension sheet ${seed}, date: 2026-01-12 }
build: 0.5
tolerance: 3

parts:
  floor: { steel: mild, straighten: freely }
${parts.join('\n')}

points:
${rows.join('\n')}
`;
}
