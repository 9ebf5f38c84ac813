import type { Vec3 } from '../../server/src/geometry/vector';
import type { AxisLimits, Chassis, Part, Point } from '../../server/src/model/chassis';
import { type Side, sideOf } from '../../server/src/model/names';
import type { Place } from '../../server/src/text/tree';

/** An invented body of 53 points, made as model objects: no text stands behind it. */

export const nowhere: Place = { block: { start: 0 }, start: 0, end: 0 };
const origin = { uri: 'memory:///teal.chassis.yaml', place: nowhere };

export const toleranceMm = 3;
export const buildMm = 0.5;

/** Ahead of this plane stands the zone that is moved as a whole, mm forward. */
export const zoneStartMm = 700;
/** The undamaged zone, as a job states it, mm forward. */
export const soundZone = { fromMm: -1000, toMm: zoneStartMm } as const;

type Entry = readonly [name: string, forward: number, across: number, up: number, part: string];

/** Both sides; `across` is outboard. */
const controlEntries: readonly Entry[] = [
  ['floor-front', 1200, 420, 95, 'floor'],
  ['toe-board', 1520, 360, 310, 'floor'],
  ['tunnel-front', 905, 188, 242, 'floor'],
  ['seat-front', 740, 330, 150, 'floor'],
  ['floor-rear', -350, 455, 90, 'floor'],
  ['rear-frame', -720, 500, 265, 'floor'],
  ['tunnel-rear', -200, 150, 230, 'floor'],
  ['seat-rear', -60, 300, 185, 'floor'],
];

const rail = (name: string, forward: number, up: number): Entry => [name, forward, 448, up, 'front-rail'];

const otherEntries: readonly Entry[] = [
  rail('rail-root-lower', 1800, 200),
  rail('rail-root-upper', 1800, 340),
  rail('rail-second', 2090, 270),
  rail('rail-middle-lower', 2380, 200),
  rail('rail-middle-upper', 2380, 340),
  rail('rail-fourth', 2670, 270),
  rail('rail-tip-lower', 2960, 200),
  rail('rail-tip-upper', 2960, 340),
  ['strut-top', 2250, 560, 830, 'apron'],
  ['apron-front', 2820, 610, 800, 'apron'],
  ['lamp-mount', 3000, 600, 690, 'radiator-support'],
  ['rear-rail-root', -1100, 480, 300, 'rear-rail'],
  ['rear-rail-middle', -1500, 485, 330, 'rear-rail'],
  ['rear-rail-lower', -1900, 490, 310, 'rear-rail'],
  ['rear-rail-upper', -1900, 490, 410, 'rear-rail'],
  ['pillar-low', 350, 720, 420, 'centre-pillar'],
  ['pillar-middle', 340, 725, 730, 'centre-pillar'],
  ['pillar-high', 300, 690, 1040, 'centre-pillar'],
];

const limits: AxisLimits = [
  [-toleranceMm, toleranceMm],
  [-toleranceMm, toleranceMm],
  [-toleranceMm, toleranceMm],
];

function point(name: string, side: Side | null, reference: Vec3, part: string, base: boolean): Point {
  const id = side === null ? name : `${name}.${side}`;
  return {
    id,
    name,
    side,
    reference,
    sheetSigns: [1, side === 'R' ? -1 : 1, 1],
    limits,
    uncertaintyMm: 0,
    uncertaintyByAxisMm: null,
    part,
    base,
    fixing: null,
    source: null,
    origin,
    coordinates: { ...origin, typed: null },
  };
}

const unsided = new Set(['floor', 'radiator-support']);

const bothSides = (base: boolean) => (entry: Entry) =>
  (['L', 'R'] as const).map((side) => {
    const [name, forward, across, up, part] = entry;
    const reference: Vec3 = [forward, side === 'L' ? across : -across, up];
    return point(name, side, reference, unsided.has(part) ? part : `${part}.${side}`, base);
  });

const points: readonly Point[] = [
  ...controlEntries.flatMap(bothSides(true)),
  ...otherEntries.flatMap(bothSides(false)),
  point('latch', null, [3050, 12, 780], 'radiator-support', false),
];

const part = (id: string, along: Part['along']): Part => ({
  id,
  name: id.replace(/\.[LR]$/, ''),
  side: sideOf(id),
  along,
  sheetSign: along === 1 && sideOf(id) === 'R' ? -1 : 1,
  steel: 'mild',
  straighten: 'freely',
  section: null,
  heat: null,
  attached: ['welded'],
  joined: [],
  reference: null,
  origin,
});

const parts: readonly Part[] = [
  part('floor', 0),
  part('front-rail.L', 0),
  part('front-rail.R', 0),
  part('apron.L', 0),
  part('apron.R', 0),
  part('radiator-support', 1),
  part('rear-rail.L', 0),
  part('rear-rail.R', 0),
  part('centre-pillar.L', 2),
  part('centre-pillar.R', 2),
];

export const chassis: Chassis = {
  uri: origin.uri,
  vehicle: 'Teal estate',
  unit: 'mm',
  axes: ['forward', 'outboard', 'up'],
  source: null,
  conditions: new Map(),
  buildMm,
  buildElsewhereMm: 1,
  spanToleranceMm: toleranceMm,
  parts: new Map(parts.map((each) => [each.id, each])),
  points: new Map(points.map((each) => [each.id, each])),
  spans: [],
  members: [],
  droppedSpans: [],
  widenedSpans: [],
  missingEnds: [],
  overridden: [],
  fileTolerance: null,
  widened: [],
  chain: [{ uri: origin.uri, text: 'vehicle: Teal estate\n' }],
  problems: [],
  unread: { points: new Set(), parts: new Set() },
  broken: false,
  head: nowhere,
  unitPlace: null,
  axesPlace: null,
};

/** The parts that the jobs are about: 20 points. */
export const scopeParts = ['front-rail.L', 'front-rail.R', 'apron.L', 'apron.R'] as const;

export const scopePoints: readonly Point[] = points.filter((each) =>
  (scopeParts as readonly (string | null)[]).includes(each.part),
);

/** Half of them ahead of the zone's plane. Four lie in one plane; six and more do not. */
const controlNames: Record<4 | 6 | 8 | 12, readonly string[]> = {
  4: ['floor-front.L', 'floor-front.R', 'floor-rear.L', 'floor-rear.R'],
  6: ['floor-front.L', 'floor-front.R', 'toe-board.L', 'floor-rear.L', 'floor-rear.R', 'rear-frame.R'],
  8: ['floor-front', 'toe-board', 'floor-rear', 'rear-frame'].flatMap((name) => [`${name}.L`, `${name}.R`]),
  12: ['floor-front', 'toe-board', 'tunnel-front', 'floor-rear', 'rear-frame', 'tunnel-rear'].flatMap(
    (name) => [`${name}.L`, `${name}.R`],
  ),
};

/** The control points that a job reads. */
export const controlPoints = (count: 4 | 6 | 8 | 12): Point[] =>
  controlNames[count].map((id) => chassis.points.get(id)!);

/** What is read besides: every point that is not a control point. */
export const bodyPoints: readonly Point[] = points.filter((each) => !each.base);
