import { lazily } from '../../memory/lazily';
import type { Point } from '../../model/chassis';
import type { Side } from '../../model/names';
import type { Displacement, Quantity, StageDoubt } from '../alignment/displacements';
import type { JudgedPoint } from '../alignment/points';
import { type Condition, conditionsOf } from './body-conditions';
import type { Angle } from './part-motion';
import { figuresOf, type ZoneBasis, type ZoneFigures, type ZoneRoots, type ZoneTips } from './zone';

/**
 * The shape of the damage in the trade's own words, for the zone ahead of the base and the zone behind it
 * (server/README.md, "Conditions of the body"). The words are common practice in the trade.
 */

/** A zone's figures and what they are called. */
export interface Zone extends ZoneFigures {
  readonly conditions: readonly Condition[];
}

export interface Body {
  readonly front: Zone | null;
  readonly rear: Zone | null;
}

/** What the body is held against. */
interface BodyBasis {
  /** Lengths of the base points, mm. */
  readonly baseXMm: readonly number[];
  /** How far points of a sound body scatter, standard. */
  readonly buildMm: number;
}

/**
 * From points measured on both sides; points on the centre plane join length, sideways and height.
 * @param judged the same points
 */
export function bodyOf(
  displacements: readonly Displacement[],
  judged: readonly JudgedPoint[],
  doubt: StageDoubt,
  { baseXMm, buildMm }: BodyBasis,
): Body | null {
  if (baseXMm.length === 0) return null;
  const foremost = Math.max(...baseXMm);
  const rearmost = Math.min(...baseXMm);
  const off = judged.filter(({ verdict }) => verdict === 'outside').map(({ point }) => point);
  const frontOff = off.filter(({ reference: [x] }) => x > foremost);
  const rearOff = off.filter(({ reference: [x] }) => x < rearmost);
  const front: Displacement[] = [];
  const rear: Displacement[] = [];
  for (const each of displacements) {
    const x = each.point.reference[0];
    if (x > foremost) front.push(each);
    else if (x < rearmost) rear.push(each);
  }
  return {
    front: zoneOf(front, frontOff, { end: 'front', baseMm: foremost, doubt, buildMm }),
    rear: zoneOf(rear, rearOff, { end: 'rear', baseMm: rearmost, doubt, buildMm }),
  };
}

/** @param off the points of the zone that are outside */
function zoneOf(inZone: readonly Displacement[], off: readonly Point[], basis: ZoneBasis): Zone | null {
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
  return new ZoneJudged(() => figuresOf({ left, right, centre }, basis), basis.end, off);
}

/** A zone without a point outside has no condition: its figures are made when a summary asks for them. */
class ZoneJudged implements Zone {
  readonly conditions: readonly Condition[];
  private readonly figures: () => ZoneFigures;

  constructor(figures: () => ZoneFigures, end: 'front' | 'rear', off: readonly Point[]) {
    this.figures = lazily(figures);
    const isOff = (side: Side): boolean => off.some((point) => point.side === side);
    this.conditions =
      off.length === 0 ? [] : conditionsOf(this.figures(), end, { L: isOff('L'), R: isOff('R') });
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
  get tips(): ZoneTips {
    return this.figures().tips;
  }
  get roots(): ZoneRoots | null {
    return this.figures().roots;
  }
}
