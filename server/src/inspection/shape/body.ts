import { bodyMotion } from '../../geometry/body-motion';
import { lazily } from '../../memory/lazily';
import {
  type Displacement,
  differenceCovariance,
  evenly,
  meanShift,
  type Quantity,
  type StageDoubt,
} from '../alignment/displacements';
import { isKnownAngle, isKnownLength } from '../alignment/known-figures';
import type { JudgedPoint } from '../alignment/points';
import type { Angle } from './part-motion';

/**
 * The shape of the damage in the trade's own words, for the zone ahead of the base and the zone behind it
 * (server/README.md, "Conditions of the body"). The words are common practice in the trade.
 */
export type Condition = 'mash' | 'sidesway' | 'sag' | 'high' | 'diamond' | 'twist';

export interface Zone {
  /** Mean shift forward, left and up, mm. */
  readonly length: Quantity;
  readonly sideways: Quantity;
  readonly height: Quantity;
  /** Left forward of right, mm. */
  readonly diamond: Quantity;
  /** About forward, + the top leans right; null where it cannot be observed. */
  readonly twist: Angle | null;
  readonly conditions: readonly Condition[];
}

export interface Body {
  readonly front: Zone | null;
  readonly rear: Zone | null;
}

/**
 * From points measured on both sides; points on the centre plane join length, sideways and height.
 * @param judged the same points
 * @param baseXMm lengths of the base points, mm
 */
export function bodyOf(
  displacements: readonly Displacement[],
  judged: readonly JudgedPoint[],
  doubt: StageDoubt,
  baseXMm: readonly number[],
): Body | null {
  if (baseXMm.length === 0) return null;
  const foremost = Math.max(...baseXMm);
  const rearmost = Math.min(...baseXMm);
  let [frontIsOff, rearIsOff] = [false, false];
  for (const { point, verdict } of judged)
    if (verdict === 'outside') {
      frontIsOff ||= point.reference[0] > foremost;
      rearIsOff ||= point.reference[0] < rearmost;
    }
  const front: Displacement[] = [];
  const rear: Displacement[] = [];
  for (const each of displacements) {
    const x = each.point.reference[0];
    if (x > foremost) front.push(each);
    else if (x < rearmost) rear.push(each);
  }
  return { front: zoneOf(front, frontIsOff, doubt, 'front'), rear: zoneOf(rear, rearIsOff, doubt, 'rear') };
}

function zoneOf(
  inZone: readonly Displacement[],
  someOutside: boolean,
  doubt: StageDoubt,
  end: 'front' | 'rear',
): Zone | null {
  const read = { L: new Set<string>(), R: new Set<string>() };
  for (const { point } of inZone) if (point.side !== null) read[point.side].add(point.name);
  const left: Displacement[] = [];
  const right: Displacement[] = [];
  const centre: Displacement[] = [];
  for (const each of inZone) {
    const { side, name } = each.point;
    if (side === null) centre.push(each);
    else if (side === 'L' && read.R.has(name)) left.push(each);
    else if (side === 'R' && read.L.has(name)) right.push(each);
  }
  if (left.length === 0) return null;
  return new ZoneJudged(() => figuresOf(left, right, centre, doubt), someOutside ? end : null);
}

type Figures = Omit<Zone, 'conditions'>;

/** A zone without a point outside has no condition: its figures are made when a summary asks for them. */
class ZoneJudged implements Zone {
  readonly conditions: readonly Condition[];
  private readonly figures: () => Figures;

  /** @param end whose conditions are named; null where no point is outside */
  constructor(figures: () => Figures, end: 'front' | 'rear' | null) {
    this.figures = lazily(figures);
    this.conditions = end === null ? [] : conditionsOf(this.figures(), end);
  }

  get length(): Quantity {
    return this.figures().length;
  }
  get sideways(): Quantity {
    return this.figures().sideways;
  }
  get height(): Quantity {
    return this.figures().height;
  }
  get diamond(): Quantity {
    return this.figures().diamond;
  }
  get twist(): Angle | null {
    return this.figures().twist;
  }
}

function figuresOf(
  left: readonly Displacement[],
  right: readonly Displacement[],
  centre: readonly Displacement[],
  doubt: StageDoubt,
): Figures {
  const all = [...left, ...right, ...centre];
  const shift = meanShift(all);
  const mean = evenly(all);
  const covariance = doubt.between(mean, mean);
  const along = (k: 0 | 1 | 2): Quantity => ({ mm: shift[k], uncertaintyMm: Math.sqrt(covariance[k][k]) });
  const diamond: Quantity = {
    mm: meanShift(left)[0] - meanShift(right)[0],
    uncertaintyMm: Math.sqrt(Math.max(0, differenceCovariance(doubt, evenly(left), evenly(right))[0][0])),
  };
  return {
    length: along(0),
    sideways: along(1),
    height: along(2),
    diamond,
    twist: twistOf([...left, ...right], doubt),
  };
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

function conditionsOf(zone: Figures, end: 'front' | 'rear'): Condition[] {
  const real = ({ mm, uncertaintyMm }: Quantity) =>
    isKnownLength(mm, uncertaintyMm) && Math.abs(mm) > 2 * uncertaintyMm;
  const conditions: Condition[] = [];
  // shortened: the front has come rearward, the rear forward
  if (real(zone.length) && (end === 'front' ? zone.length.mm < 0 : zone.length.mm > 0))
    conditions.push('mash');
  if (real(zone.sideways)) conditions.push('sidesway');
  if (real(zone.height)) conditions.push(zone.height.mm < 0 ? 'sag' : 'high');
  if (real(zone.diamond)) conditions.push('diamond');
  if (zone.twist && Math.abs(zone.twist.angleRad) > 2 * zone.twist.uncertaintyRad) conditions.push('twist');
  return conditions;
}
