import type { Vec3 } from '../../../server/src/geometry/vector';
import type { Chassis, Part, Point } from '../../../server/src/model/chassis';
import { type Side, sideOf } from '../../../server/src/model/names';
import { chassis as estate, toleranceMm } from '../body';

/**
 * The body of the other simulation with more points that are no control points, away from where the jobs are about: sills that are
 * welded to the floor, roof and tail; and with control points near the centre line.
 */

const pattern = estate.points.get('latch')!;
const partPattern: Part = estate.parts.get('floor')!;

type Entry = readonly [name: string, forward: number, across: number, up: number, part: string];

const elsewhere: readonly Entry[] = [
  ['sill-front', 1050, 700, 150, 'sill'],
  ['sill-middle', 400, 715, 140, 'sill'],
  ['sill-rear', -250, 705, 150, 'sill'],
  ['roof-front', 600, 560, 1390, 'roof'],
  ['roof-rear', -500, 550, 1400, 'roof'],
  ['tail-corner', -2150, 450, 700, 'tail'],
];
const spine: readonly Entry[] = [
  ['spine-front', 1450, 60, 200, 'floor'],
  ['spine-middle', 500, 55, 180, 'floor'],
  ['spine-rear', -600, 65, 215, 'floor'],
];
const unsided = new Set(['floor', 'roof', 'tail']);

const bothSides =
  (base: boolean) =>
  ([name, forward, across, up, part]: Entry): Point[] =>
    (['L', 'R'] as const).map((side: Side) => {
      const reference: Vec3 = [forward, side === 'L' ? across : -across, up];
      const partId = unsided.has(part) ? part : `${part}.${side}`;
      return { ...pattern, id: `${name}.${side}`, name, side, reference, part: partId, base };
    });

const morePoints = [...elsewhere.flatMap(bothSides(false)), ...spine.flatMap(bothSides(true))];
const moreParts = ['sill.L', 'sill.R', 'roof', 'tail'].map(
  (id): Part => ({ ...partPattern, id, name: id.replace(/\.[LR]$/, ''), side: sideOf(id) }),
);

export const chassis: Chassis = {
  ...estate,
  points: new Map([...estate.points, ...morePoints.map((each) => [each.id, each] as const)]),
  parts: new Map([...estate.parts, ...moreParts.map((each) => [each.id, each] as const)]),
};

export { toleranceMm };

/** Of points that are no control points, standard, on each axis: half of its variance is shared by both sides of a part's name. */
export const elsewhereMm = 1;

const bothOf = (names: readonly string[]): Point[] =>
  names.flatMap((name) => [`${name}.L`, `${name}.R`]).map((id) => chassis.points.get(id)!);

/** Control points that stand badly to hold a frame. */
export const badBases = {
  'nearly on a line': bothOf(['spine-front', 'spine-middle', 'spine-rear']),
  'at one end': bothOf(['floor-rear', 'rear-frame', 'tunnel-rear']),
} as const;

/** What every job reads besides control points. */
export const otherPoints: readonly Point[] = [...chassis.points.values()].filter(({ base }) => !base);
