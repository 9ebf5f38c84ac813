import { bodyMotion } from '../geometry/body-motion';
import { mirroredId } from '../model/names';
import type { Quantity } from './displacements';
import { type Displacement, differenceCovariance, evenly, meanShift, type StageDoubt } from './displacements';
import { lazily } from './lazily';
import type { Angle } from './part-motion';
import type { JudgedPoint } from './points';

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
  const outside = new Set(judged.filter((point) => point.verdict === 'outside').map((point) => point.id));
  const zone = (inZone: (x: number) => boolean, end: 'front' | 'rear') =>
    zoneOf(
      displacements.filter(({ point }) => inZone(point.reference[0])),
      outside,
      doubt,
      end,
    );
  return { front: zone((x) => x > foremost, 'front'), rear: zone((x) => x < rearmost, 'rear') };
}

function zoneOf(
  inZone: readonly Displacement[],
  outside: ReadonlySet<string>,
  doubt: StageDoubt,
  end: 'front' | 'rear',
): Zone | null {
  const ids = new Set(inZone.map(({ point }) => point.id));
  const left = inZone.filter(({ point }) => point.side === 'L' && ids.has(mirroredId(point.id)!));
  const right = inZone.filter(({ point }) => point.side === 'R' && ids.has(mirroredId(point.id)!));
  if (left.length === 0) return null;
  const centre = inZone.filter(({ point }) => point.side === null);
  // a zone without a point outside has no condition: its figures are made when a summary asks for them
  const figures = lazily(() => figuresOf(left, right, centre, doubt));
  const someOutside = inZone.some(({ point }) => outside.has(point.id));
  return {
    get length() {
      return figures().length;
    },
    get sideways() {
      return figures().sideways;
    },
    get height() {
      return figures().height;
    },
    get diamond() {
      return figures().diamond;
    },
    get twist() {
      return figures().twist;
    },
    conditions: someOutside ? conditionsOf(figures(), end) : [],
  };
}

function figuresOf(
  left: readonly Displacement[],
  right: readonly Displacement[],
  centre: readonly Displacement[],
  doubt: StageDoubt,
): Omit<Zone, 'conditions'> {
  const all = [...left, ...right, ...centre];
  const shift = meanShift(all);
  const covariance = doubt.between(evenly(all), evenly(all));
  const mean = (k: 0 | 1 | 2): Quantity => ({ mm: shift[k], uncertaintyMm: Math.sqrt(covariance[k][k]) });
  const diamond: Quantity = {
    mm: meanShift(left)[0] - meanShift(right)[0],
    uncertaintyMm: Math.sqrt(Math.max(0, differenceCovariance(doubt, evenly(left), evenly(right))[0][0])),
  };
  return {
    length: mean(0),
    sideways: mean(1),
    height: mean(2),
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
  return { angleRad: motion.twist, uncertaintyRad: Math.sqrt(Math.max(0, turn[0][0])) };
}

function conditionsOf(zone: Omit<Zone, 'conditions'>, end: 'front' | 'rear'): Condition[] {
  const real = ({ mm, uncertaintyMm }: Quantity) => Math.abs(mm) > 2 * uncertaintyMm;
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
