import type { Axis, Chassis, Point } from '../../model/chassis';
import { mmPer } from '../../model/units';
import type { StageDoubt } from '../alignment/displacements';
import type { Inspection } from '../job/inspect';
import { type KnownBend, knownBend } from '../job/known-bend';
import type { PartHistory } from '../job/part-history';
import type { PartInspection } from '../job/stage';
import { halfHingeMm } from '../shape/bend-interval';
import { holdReachMm } from './pull-checks';
import { type SeenIn, type SeenStation, seenStations } from './straight-metal';

/** A place on straight metal. */
export interface HoldPlace {
  /** Along the part, mm. */
  readonly atMm: number;
  /** Which way along the part leads away from the damage: farther that way holds as well. */
  readonly towards: 1 | -1;
  /** As far towards the damage as the part reads straight, mm along it: where the hold stands, or nearer the damage. */
  readonly straightToMm: number;
  /** The earlier stage that read it last; null where that is the newest one, or no reading stands there. */
  readonly seenIn: SeenIn | null;
}

/** Where the part is held so that nothing behind the damage moves: on straight metal, on the base's side of a bend. */
export type PlannedHold =
  | {
      readonly kind: 'before-bend';
      readonly place: HoldPlace;
      readonly bendMm: number;
      /** 95 % interval of where it starts, lower end first. */
      readonly bendBetweenMm: readonly [number, number];
      /** The stages that showed the bend. */
      readonly stageNames: readonly string[];
      /** What they say of its place differs by more than chance. */
      readonly contradictory: boolean;
    }
  | {
      /** No single bend is declared: behind the last station that is still straight; on a part that runs past the base, on both sides of the damage. */
      readonly kind: 'last-straight';
      readonly places: readonly HoldPlace[];
      readonly why: 'several' | 'none' | 'too-few-stations';
    }
  | {
      /** The part shows no straight metal to hold on: the body on the base's side of it must be held. */
      readonly kind: 'not-on-part';
      readonly bendMm: number | null;
      readonly body: BodySide;
    };

/** Where the body lies as seen from a part: which way along an axis, or both ways where the part runs past the base. */
export interface BodySide {
  readonly axis: Axis;
  readonly towards: 1 | -1 | 'both';
}

export function holdPlaces(hold: PlannedHold): readonly HoldPlace[] {
  if (hold.kind === 'not-on-part') return [];
  return hold.kind === 'before-bend' ? [hold.place] : hold.places;
}

/** Where a bend starts is known poorly once its interval is longer than a hinge. */
const isWide = ([from, to]: readonly [number, number]): boolean => to - from > 2 * halfHingeMm;

/** @param outsideIds the points of the part that are outside tolerance: where one is, nothing is held, however doubtful its place */
export function plannedHold(
  inspection: Inspection,
  history: PartHistory,
  motion: PartInspection,
  doubt: StageDoubt,
  outsideIds: ReadonlySet<string>,
): PlannedHold {
  const stations = seenStations(inspection, history, motion, doubt, outsideIds);
  const known = knownBend(inspection, history, inspection.job.timeline.length);
  return known !== null && !known.provisional && motion.bend.kind !== 'several'
    ? beforeBend(inspection, motion, known, stations)
    : lastStraight(inspection, history, motion, stations);
}

/** On all the metal before the interval of its start; where that is wide, back at a place that was read, as long as a hold there still does its work. */
function beforeBend(
  inspection: Inspection,
  { part }: PartInspection,
  { bend, stages, contradictory }: KnownBend,
  stations: readonly SeenStation[],
): PlannedHold {
  const { along } = part;
  // the way out as the stage that showed the bend has it: a later one may have read another stretch of the part
  const { away, holdToMm, startsBetweenMm } = bend;
  const towards = away === 1 ? -1 : 1;
  const own = [...inspection.chassis.points.values()].filter((point) => point.part === part.id);
  if (away * (holdToMm - endOf(own, along, towards)) < 0)
    return { kind: 'not-on-part', bendMm: bend.atMm, body: { axis: along, towards } };
  const behind = isWide(startsBetweenMm) ? clearBehind(stations, along, holdToMm, towards) : undefined;
  const isInReach = behind !== undefined && away * (bend.atMm - behind.atMm) <= holdReachMm;
  const straightToMm = roundedBack(inspection, holdToMm, towards);
  return {
    kind: 'before-bend',
    place: {
      atMm: isInReach ? roundedBack(inspection, behind.atMm, towards) : straightToMm,
      towards,
      straightToMm,
      seenIn: isInReach ? behind.seenIn : null,
    },
    bendMm: bend.atMm,
    bendBetweenMm: startsBetweenMm,
    stageNames: stages.map(({ name }) => name),
    contradictory,
  };
}

/**
 * Where a bend starts is not known: the last station that reads straight may stand on bent metal by less than a reading shows, so the hold
 * goes to the one behind it, where there is one.
 */
function lastStraight(
  inspection: Inspection,
  history: PartHistory,
  { part: { along }, bend }: PartInspection,
  stations: readonly SeenStation[],
): PlannedHold {
  // a part that ends at the base is held between the damage and the base, one that runs past it on either side of the damage
  const ends = history.away === null ? ([-1, 1] as const) : ([history.away === 1 ? -1 : 1] as const);
  const places = ends.flatMap((towards): HoldPlace[] => {
    const off = stations.map(({ isOff }) => isOff);
    const damaged = towards === 1 ? off.lastIndexOf(true) : off.indexOf(true);
    const straight = damaged < 0 ? undefined : stations[damaged + towards];
    if (straight === undefined) return [];
    const straightToMm = stationEnd(straight, along, towards);
    const behind = clearBehind(stations, along, straightToMm, towards);
    return [
      {
        atMm: roundedBack(inspection, behind?.atMm ?? straightToMm, towards),
        towards,
        straightToMm: roundedBack(inspection, straightToMm, towards),
        seenIn: behind === undefined ? straight.seenIn : behind.seenIn,
      },
    ];
  });
  if (places.length === 0) return { kind: 'not-on-part', bendMm: null, body: bodySide(inspection, history) };
  return { kind: 'last-straight', places, why: bend.kind === 'bend' ? 'none' : bend.kind };
}

interface ReadPlace {
  readonly atMm: number;
  readonly seenIn: SeenIn | null;
}

/** The nearest place that reads straight and stands half a hinge or more behind another. */
function clearBehind(
  stations: readonly SeenStation[],
  along: Axis,
  fromMm: number,
  towards: 1 | -1,
): ReadPlace | undefined {
  return stations
    .filter(({ isOff }) => !isOff)
    .map((station) => ({ atMm: stationEnd(station, along, towards), seenIn: station.seenIn }))
    .filter(({ atMm }) => towards * (atMm - fromMm) >= halfHingeMm)
    .sort((a, b) => towards * (a.atMm - b.atMm))[0];
}

const stationEnd = ({ station }: SeenStation, along: Axis, towards: 1 | -1): number =>
  endOf(
    station.members.map(({ point }) => point),
    along,
    towards,
  );

/** To what a plan tells, never towards the damage. */
function roundedBack({ job }: Inspection, mm: number, towards: 1 | -1): number {
  const stepMm = job.unit === 'mm' ? 1 : mmPer.inch / 10;
  return towards * Math.ceil((towards * mm) / stepMm - 1e-9) * stepMm + 0;
}

/** A part that runs across the car beyond all of the base, a support at the nose or a panel at the tail, has the body along the car. */
function bodySide({ stages, chassis }: Inspection, { part, away }: PartHistory): BodySide {
  const beyond = part.along === 0 ? null : lengthwiseBeyond(stages, chassis, part.id);
  if (beyond !== null) return { axis: 0, towards: beyond === 1 ? -1 : 1 };
  return { axis: part.along, towards: away === null ? 'both' : away === 1 ? -1 : 1 };
}

/** +1 where a part stands forward of every control point, −1 where rearward of every one; null else. */
function lengthwiseBeyond(stages: Inspection['stages'], chassis: Chassis, partId: string): 1 | -1 | null {
  const ids = stages.findLast(({ alignment }) => (alignment?.baseIds.length ?? 0) > 0)?.alignment?.baseIds;
  const all = [...chassis.points.values()];
  const base = all.filter(({ id, base: marked }) => ids?.includes(id) ?? marked);
  const own = all.filter((point) => point.part === partId);
  if (base.length === 0 || own.length === 0) return null;
  if (endOf(own, 0, -1) > endOf(base, 0, 1)) return 1;
  return endOf(own, 0, 1) < endOf(base, 0, -1) ? -1 : null;
}

/** Where the outermost of the points stands, going one way along the part, mm. */
const endOf = (points: readonly Point[], along: Axis, towards: 1 | -1): number =>
  towards * Math.max(...points.map((point) => towards * point.reference[along]));
