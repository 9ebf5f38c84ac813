import { bodyMotion } from '../../geometry/body-motion';
import type { Axis } from '../../model/chassis';
import {
  type Displacement,
  differenceCovariance,
  evenly,
  meanShift,
  type Quantity,
  type StageDoubt,
} from '../alignment/displacements';
import { isKnownAngle } from '../alignment/known-figures';
import { stationLengthMm } from '../alignment/station-length';
import type { Angle } from './part-motion';

/** One side held against the other on an axis, with the scatter of a sound body. */
interface TwoSides {
  readonly left: Quantity;
  readonly right: Quantity;
  /** Left minus right. */
  readonly apart: Quantity;
}

/** Where the points farthest from the base stand; forward, left and up, mm. */
export interface ZoneTips {
  readonly length: Quantity;
  readonly sideways: Quantity;
  readonly height: Quantity;
  /** Forward, left and up: each side alone. */
  readonly sides: readonly [TwoSides, TwoSides, TwoSides];
  /** The zone was read at this one place along the car. */
  readonly isAll: boolean;
}

/** Forward, of each side next to the base, with the scatter of a sound body; mm. */
export interface ZoneRoots {
  readonly left: Quantity;
  readonly right: Quantity;
}

/** Figures of the points of one end that were read on both sides. */
export interface ZoneFigures {
  /** Mean shift forward, left and up, mm. */
  readonly length: Quantity;
  readonly sideways: Quantity;
  readonly height: Quantity;
  /** Left forward of right, mm. */
  readonly diamond: Quantity;
  /** About forward, + the top leans right; null where it cannot be observed. */
  readonly twist: Angle | null;
  readonly tips: ZoneTips;
  /** Null where nothing was read in the half of the zone that is next to the base. */
  readonly roots: ZoneRoots | null;
}

interface ZonePoints {
  readonly left: readonly Displacement[];
  readonly right: readonly Displacement[];
  readonly centre: readonly Displacement[];
}

export interface ZoneBasis {
  readonly end: 'front' | 'rear';
  /** Where the base ends towards the zone, mm. */
  readonly baseMm: number;
  readonly doubt: StageDoubt;
  readonly buildMm: number;
}

export function figuresOf(points: ZonePoints, basis: ZoneBasis): ZoneFigures {
  const { left, right, centre } = points;
  const { doubt } = basis;
  const sided = [...left, ...right];
  const [length, sideways, height] = meansOf([...sided, ...centre], doubt);
  return {
    length,
    sideways,
    height,
    diamond: asideOf(left, right, 0, doubt),
    twist: twistOf(sided, doubt),
    tips: tipsOf(points, basis),
    roots: rootsOf(points, basis),
  };
}

/** Mean shifts forward, left and up. */
function meansOf(points: readonly Displacement[], doubt: StageDoubt): [Quantity, Quantity, Quantity] {
  const shift = meanShift(points);
  const mean = evenly(points);
  const covariance = doubt.between(mean, mean);
  const along = (k: 0 | 1 | 2): Quantity => ({ mm: shift[k], uncertaintyMm: Math.sqrt(covariance[k][k]) });
  return [along(0), along(1), along(2)];
}

/** The left minus the right, on an axis. */
const asideOf = (
  left: readonly Displacement[],
  right: readonly Displacement[],
  k: Axis,
  doubt: StageDoubt,
): Quantity => ({
  mm: meanShift(left)[k] - meanShift(right)[k],
  uncertaintyMm: Math.sqrt(Math.max(0, differenceCovariance(doubt, evenly(left), evenly(right))[k][k])),
});

const away = { front: 1, rear: -1 } as const;

/** The points read on both sides that stand farthest from the base, and what stands on the centre plane there or farther out. */
function tipsOf({ left, right, centre }: ZonePoints, { end, doubt, buildMm }: ZoneBasis): ZoneTips {
  const out = ({ point }: Displacement): number => away[end] * point.reference[0];
  const from = Math.max(...[...left, ...right].map(out)) - stationLengthMm;
  const isTip = (each: Displacement): boolean => out(each) >= from;
  const [ofLeft, ofRight] = [left.filter(isTip), right.filter(isTip)];
  // the two points of a name may stand a little apart along the car
  if (ofLeft.length === 0 || ofRight.length === 0)
    return endFigures(
      { left, right, centre },
      { doubt, buildMm },
      left.length + right.length + centre.length,
    );
  const count = left.length + right.length + centre.length;
  return endFigures(
    { left: ofLeft, right: ofRight, centre: centre.filter(isTip) },
    { doubt, buildMm },
    count,
  );
}

function endFigures(
  { left, right, centre }: ZonePoints,
  { doubt, buildMm }: Pick<ZoneBasis, 'doubt' | 'buildMm'>,
  count: number,
): ZoneTips {
  const all = [...left, ...right, ...centre];
  const [length, sideways, height] = meansOf(all, doubt);
  const [ofLeft, ofRight] = [meansOf(left, doubt), meansOf(right, doubt)];
  const bothCount = 1 / (1 / left.length + 1 / right.length);
  const sidesOn = (k: Axis): TwoSides => ({
    left: scattered(ofLeft[k], left.length, buildMm),
    right: scattered(ofRight[k], right.length, buildMm),
    apart: scattered(asideOf(left, right, k, doubt), bothCount, buildMm),
  });
  return {
    length,
    sideways,
    height,
    sides: [sidesOn(0), sidesOn(1), sidesOn(2)],
    isAll: all.length === count,
  };
}

/** With the scatter of so many points of a sound body. */
const scattered = ({ mm, uncertaintyMm }: Quantity, count: number, buildMm: number): Quantity => ({
  mm,
  uncertaintyMm: Math.hypot(uncertaintyMm, buildMm / Math.sqrt(count)),
});

/** The points read on both sides that stand next to the base, nearer to it than to the tips. */
function rootsOf({ left, right }: ZonePoints, { end, baseMm, doubt, buildMm }: ZoneBasis): ZoneRoots | null {
  const out = ({ point }: Displacement): number => away[end] * (point.reference[0] - baseMm);
  const all = [...left, ...right].map(out);
  const [nearest, farthest] = [Math.min(...all), Math.max(...all)];
  if (nearest > farthest / 2) return null;
  const isRoot = (each: Displacement): boolean => out(each) <= nearest + stationLengthMm;
  const [ofLeft, ofRight] = [left.filter(isRoot), right.filter(isRoot)];
  if (ofLeft.length === 0 || ofRight.length === 0) return null;
  const side = (points: readonly Displacement[]): Quantity =>
    scattered(meansOf(points, doubt)[0], points.length, buildMm);
  return { left: side(ofLeft), right: side(ofRight) };
}

function twistOf(group: readonly Displacement[], doubt: StageDoubt): Angle | null {
  const weights = group.map(({ variance }) => 1 / Math.max(variance, 1e-4));
  const motion = bodyMotion(
    group.map(({ point }) => point.reference),
    group.map(({ measured }) => measured),
    weights,
  );
  if (motion.twist === null) return null;
  const turn = doubt.turn(motion.rotationCovariance, group, weights);
  const uncertaintyRad = Math.sqrt(Math.max(0, turn[0][0]));
  return isKnownAngle(motion.twist, uncertaintyRad) ? { angleRad: motion.twist, uncertaintyRad } : null;
}
