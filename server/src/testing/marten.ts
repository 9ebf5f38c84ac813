/**
 * The Marten of the tests, written once: every point and part that a test names. A test takes the points that it needs; what is
 * different in it is said where it is used. Figures are those of the invented body sheet in `samples/specs/`, or near them.
 */
export type Place = readonly [length: number, width: number, height: number];

interface Point {
  /** Width is outboard on a point of two sides, left on a centre point. */
  readonly at: Place;
  readonly part?: string;
  readonly base?: true;
  readonly centre?: true;
}

const on =
  (part: string, more: Pick<Point, 'base' | 'centre'> = {}) =>
  (...at: Place): Point => ({ at, part, ...more });
const control = on('floor', { base: true });
const rail = on('front-rail');

const points = {
  'floor-front': control(1200, 420, 95),
  // half way between the two beside it: these three are in one line
  'floor-middle': control(425, 437.5, 92.5),
  'floor-rear': control(-350, 455, 90),
  'tunnel-front': control(905, 188, 242),
  'cowl-hole': control(1480, 612, 905),
  'rear-floor': control(-1050, 388, 296),
  'toe-board': control(1520, 360, 310),
  'rear-frame': control(-720, 500, 265),
  'tunnel-rear': control(-200, 150, 230),
  'rail-root-lower': rail(1760, 441, 188),
  'rail-root-upper': rail(1760, 445, 328),
  'rail-second-lower': rail(2070, 443, 193),
  'rail-middle-lower': rail(2381, 444, 199),
  'rail-middle-upper': rail(2381, 442.6, 338.2),
  'rail-front-lower': rail(2690, 450, 205),
  'rail-tip-lower': rail(3012, 448, 210),
  'rail-tip-upper': rail(3012, 452, 352),
  'rear-rail-tip': on('rear-rail')(-1097, 512, 268),
  // far behind the base, so that it can testify of it
  'rear-rail-extension': on('rear-rail')(-1900, 490, 410),
  'strut-top': on('apron')(2250, 561, 830),
  'sill-front': on('sill')(1050, 700, 150),
  'sill-rear': on('sill')(-250, 705, 150),
  'pillar-low': on('centre-pillar')(350, 720, 420),
  'pillar-high': on('centre-pillar')(300, 690, 1040),
  'pillar-belt-front': on('centre-pillar')(352, 741, 868),
  'rear-panel-middle': on('rear-panel', { centre: true })(-1120, 0, 500),
  latch: { at: [3050, 0, 780], centre: true },
} satisfies Record<string, Point>;

export type PointName = keyof typeof points;

/** What the maker says of the parts, as it stands in a chassis file. */
const parts: Readonly<Record<string, string>> = {
  floor: '{ steel: mild, straighten: freely }',
  'front-rail':
    '{ sided: true, steel: high-strength, straighten: minor, section: [2450, 2700], heat: never, reference: manual 31 }',
  apron: '{ sided: true, steel: mild, straighten: freely }',
  sill: '{ sided: true, steel: high-strength, straighten: minor, section: [-150, 760], heat: { to: 200 C } }',
  'centre-pillar':
    '{ sided: true, along: height, steel: press-hardened, straighten: never, heat: { to: 200 C, for: 90 s } }',
  'rear-rail': '{ sided: true, steel: high-strength, straighten: minor }',
  'rear-panel': '{ steel: high-strength }',
};

const pointOf = (name: PointName): Point => points[name];

export const placeOf = (name: PointName): Place => pointOf(name).at;

/** Empty where it is on none. */
export const partOf = (name: PointName): string => pointOf(name).part ?? '';

/** The value of a point in a chassis file. */
function pointValue(name: PointName): string {
  const { at, part, base, centre } = pointOf(name);
  const facts = [
    `${centre ? 'centre' : 'both'}: [${at.join(', ')}]`,
    ...(part ? [`part: ${part}`] : []),
    ...(base ? ['base: true'] : []),
  ];
  return `{ ${facts.join(', ')} }`;
}

export const pointLines = (names: readonly PointName[]): string =>
  names.map((name) => `  ${name}: ${pointValue(name)}\n`).join('');

/** A chassis file of the Marten up to its points: the parts that these are on, and those that `facts` names, as it says. */
export function headWith(names: readonly PointName[], facts: Readonly<Record<string, string>> = {}): string {
  const used = new Set(names.map((name) => pointOf(name).part));
  const recorded = {
    ...Object.fromEntries(Object.entries(parts).filter(([part]) => used.has(part))),
    ...facts,
  };
  return `framewright: chassis/1
vehicle: Marten five-door hatchback
source: { kind: published }
conditions: { powertrain: in }
build: 0.1
parts:
${Object.entries(recorded)
  .map(([part, value]) => `  ${part}: ${value}\n`)
  .join('')}`;
}

/** A chassis file of the Marten with these points. */
export const martenWith = (
  names: readonly PointName[],
  facts: Readonly<Record<string, string>> = {},
): string => `${headWith(names, facts)}points:\n${pointLines(names)}`;
