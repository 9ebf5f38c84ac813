import { quadratic, subtract, type Vec3 } from '../../geometry/vector';
import type { Axis } from '../../model/chassis';
import {
  type Displacement,
  differenceCovariance,
  evenly,
  meanShift,
  type Quantity,
  type Share,
  type StageDoubt,
  shareOf,
} from '../alignment/displacements';
import { isKnownAngle, isKnownLength } from '../alignment/known-figures';

/**
 * Places along a part where points were read, with the mean shift and the twist there (server/README.md, "Twist and sweep").
 * That a rail with its lower points on and its upper points off is twisted is common practice in the trade.
 */
export interface Station {
  /** Mean reference coordinate along the part, mm. */
  readonly atMm: number;
  readonly members: readonly Displacement[];
  /** The members, each counting alike. */
  readonly mean: Share;
  /** Vehicle axes, mm. */
  readonly shift: Vec3;
  readonly shiftUncertainty: Vec3;
  /** About the part's own way, right-handed, rad; null where one side has no two points far enough apart across the part, or where they do not tell. */
  readonly twist: Twist | null;
}

export interface Twist {
  readonly angleRad: number;
  readonly uncertaintyRad: number;
  /** The two points that it is told from, from the first to the second. */
  readonly pair: readonly [Displacement, Displacement];
  /** By how much the angle changes with the place of the second against that of the first, rad/mm. */
  readonly gradient: Vec3;
}

/** How the twist grows along a part, between the outermost stations that show one; + as the twist, per metre forward, left or up. */
export interface TwistGrowth {
  readonly radPerMetre: number;
  readonly uncertaintyRadPerMetre: number;
  readonly from: Station;
  readonly to: Station;
}

/** How far along the part points still count as one station, mm. */
export const stationLengthMm = 40;
/** How far apart two points must stand to show a twist or to be two levels, mm. */
export const levelSeparationMm = 40;

/** The two axes across a part in the order forward, left, up: sideways and vertical of its profile. */
export const crossAxes: Record<Axis, readonly [Axis, Axis]> = { 0: [1, 2], 1: [0, 2], 2: [0, 1] };
/** The two axes across, ordered so that a right-handed turn about the part's way goes from the first to the second. */
const turnAxes: Record<Axis, readonly [Axis, Axis]> = { 0: [1, 2], 1: [2, 0], 2: [0, 1] };

/** Points grouped along an axis: a station ends where the next point is more than 40 mm from its first. */
export function groupedAlong<T extends { point: { reference: Vec3; id: string } }>(
  items: readonly T[],
  along: Axis,
): T[][] {
  const sorted = [...items].sort(
    (a, b) => a.point.reference[along] - b.point.reference[along] || (a.point.id < b.point.id ? -1 : 1),
  );
  const groups: T[][] = [];
  for (const item of sorted) {
    const group = groups.at(-1);
    if (group && item.point.reference[along] - group[0].point.reference[along] <= stationLengthMm)
      group.push(item);
    else groups.push([item]);
  }
  return groups;
}

/** The stations of a part, rearmost, rightmost or lowest first. */
export function stationsOf(
  displacements: readonly Displacement[],
  along: Axis,
  doubt: StageDoubt,
): Station[] {
  return groupedAlong(displacements, along).map((members) => new MeasuredStation(members, along, doubt));
}

/** What is doubtful about a station and how it is turned is worked out when it is asked for: where a bend starts asks neither. */
class MeasuredStation implements Station {
  readonly atMm: number;
  readonly mean: Share;
  readonly shift: Vec3;
  private uncertainty: Vec3 | null = null;
  private turned: Twist | null | undefined;

  constructor(
    readonly members: readonly Displacement[],
    private readonly along: Axis,
    private readonly doubt: StageDoubt,
  ) {
    let total = 0;
    for (const { point } of members) total += point.reference[along];
    this.atMm = total / members.length;
    this.mean = evenly(members);
    this.shift = meanShift(members);
  }

  get shiftUncertainty(): Vec3 {
    if (this.uncertainty === null) {
      const covariance = this.doubt.between(this.mean, this.mean);
      this.uncertainty = [
        Math.sqrt(covariance[0][0]),
        Math.sqrt(covariance[1][1]),
        Math.sqrt(covariance[2][2]),
      ];
    }
    return this.uncertainty;
  }

  get twist(): Twist | null {
    if (this.turned === undefined) this.turned = twistOf(this.members, this.along, this.doubt);
    return this.turned;
  }
}

function twistOf(members: readonly Displacement[], along: Axis, doubt: StageDoubt): Twist | null {
  const pair = widestPair(members, along);
  if (pair === null) return null;
  const [a, b] = pair;
  const [i, j] = turnAxes[along];
  const reference = subtract(b.point.reference, a.point.reference);
  const measured = subtract(b.measured, a.measured);
  const angleRad = wrapped(Math.atan2(measured[j], measured[i]) - Math.atan2(reference[j], reference[i]));
  // gradient of the angle by the difference of the two positions: across the arm, over its length squared
  const armSquared = measured[i] ** 2 + measured[j] ** 2;
  const gradient: [number, number, number] = [0, 0, 0];
  gradient[i] = -measured[j] / armSquared;
  gradient[j] = measured[i] / armSquared;
  const covariance = differenceCovariance(doubt, evenly([b]), evenly([a]));
  const uncertaintyRad = Math.sqrt(Math.max(0, quadratic(gradient, covariance)));
  // read at one place, or nearly, two levels have no direction to each other
  return isKnownAngle(angleRad, uncertaintyRad) ? { angleRad, uncertaintyRad, pair, gradient } : null;
}

/** Whether a station was read at two levels, be a twist known from them or not. */
export const hasTwoLevels = ({ members }: Station, along: Axis): boolean =>
  widestPair(members, along) !== null;

/** Null where fewer than two stations show a twist, or it is not known how it grows. What turns the whole stage turns both ends alike and is not counted. */
export function twistGrowthOf(stations: readonly Station[], doubt: StageDoubt): TwistGrowth | null {
  const shown = stations.filter((station) => station.twist !== null);
  if (shown.length < 2) return null;
  const [from, to] = [shown[0], shown[shown.length - 1]];
  const [rear, front] = [from.twist!, to.twist!];
  const metres = (to.atMm - from.atMm) / 1000;
  const variance =
    rear.uncertaintyRad ** 2 + front.uncertaintyRad ** 2 - 2 * twistCovariance(rear, front, doubt);
  const radPerMetre = (front.angleRad - rear.angleRad) / metres;
  const uncertaintyRadPerMetre = Math.sqrt(Math.max(0, variance)) / metres;
  return isKnownAngle(radPerMetre, uncertaintyRadPerMetre)
    ? { radPerMetre, uncertaintyRadPerMetre, from, to }
    : null;
}

/** What two twists of a stage have in common, rad². */
function twistCovariance(one: Twist, other: Twist, doubt: StageDoubt): number {
  let total = 0;
  for (const [i, signI] of [
    [1, 1],
    [0, -1],
  ] as const)
    for (const [j, signJ] of [
      [1, 1],
      [0, -1],
    ] as const) {
      const shared = doubt.between(evenly([one.pair[i]]), evenly([other.pair[j]]));
      total += signI * signJ * quadratic(one.gradient, shared, other.gradient);
    }
  return total;
}

/** The two points of one side farthest apart across the part, if over 40 mm. */
function widestPair(members: readonly Displacement[], along: Axis): [Displacement, Displacement] | null {
  const [i, j] = crossAxes[along];
  let widest: [Displacement, Displacement] | null = null;
  let width = levelSeparationMm;
  for (let n = 0; n < members.length; n++)
    for (let m = n + 1; m < members.length; m++) {
      const [a, b] = [members[n], members[m]];
      if (a.point.side !== b.point.side) continue;
      const apart = Math.hypot(
        b.point.reference[i] - a.point.reference[i],
        b.point.reference[j] - a.point.reference[j],
      );
      if (apart > width) [widest, width] = [[a, b], apart];
    }
  return widest;
}

const wrapped = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));

/** The offset of a profile, with its sign, from the chord between its end stations where it is largest; null below three stations. */
export function bowOf(stations: readonly Station[], axis: Axis, doubt: StageDoubt): Quantity | null {
  if (stations.length < 3) return null;
  const first = stations[0];
  const last = stations[stations.length - 1];
  const slope = (last.shift[axis] - first.shift[axis]) / (last.atMm - first.atMm);
  const offsetOf = (station: Station): number =>
    station.shift[axis] - first.shift[axis] - slope * (station.atMm - first.atMm);
  const worst = stations
    .slice(1, -1)
    .reduce((one, other) => (Math.abs(offsetOf(other)) > Math.abs(offsetOf(one)) ? other : one));
  const covariance = differenceCovariance(doubt, worst.mean, chordAt(first, last, worst.atMm));
  const mm = offsetOf(worst);
  const uncertaintyMm = Math.sqrt(Math.max(0, covariance[axis][axis]));
  return isKnownLength(mm, uncertaintyMm) ? { mm, uncertaintyMm } : null;
}

/** The place on the chord between two stations, as a mean of their points. */
function chordAt(first: Station, last: Station, atMm: number): Share {
  const along = (atMm - first.atMm) / (last.atMm - first.atMm);
  const share = (station: Station, of: number) => station.members.map(() => of / station.members.length);
  return shareOf([...first.members, ...last.members], [...share(first, 1 - along), ...share(last, along)]);
}
