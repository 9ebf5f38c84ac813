import type { Axis, Point } from '../../model/chassis';
import { mmPer } from '../../model/units';
import { evenly, type StageDoubt } from '../alignment/displacements';
import { mapAxes } from '../alignment/points';
import type { Inspection } from '../job/inspect';
import { knownBend } from '../job/known-bend';
import type { PartHistory } from '../job/part-history';
import type { PartInspection } from '../job/stage';
import type { Station } from '../shape/stations';

/** A place on straight metal. */
export interface HoldPlace {
  /** Along the part, mm. */
  readonly atMm: number;
  /** Which way along the part leads away from the damage: farther that way holds as well. */
  readonly towards: 1 | -1;
}

/** Where the part is held so that nothing behind the damage moves: on straight metal, on the base's side of a bend. */
export type PlannedHold =
  | {
      readonly kind: 'before-bend';
      readonly place: HoldPlace;
      readonly bendMm: number;
      /** 95 % interval of where it starts, lower end first. */
      readonly bendBetweenMm: readonly [number, number];
      /** The stage that showed the bend. */
      readonly stageName: string;
    }
  | {
      /** No single bend is declared: at the last station that is still straight; on a part that runs past the base, on both sides of the damage. */
      readonly kind: 'last-straight';
      readonly places: readonly HoldPlace[];
      readonly why: 'several' | 'none' | 'too-few-stations';
    }
  | {
      /** The part shows no straight metal to hold on: the body behind it must be held. */
      readonly kind: 'not-on-part';
      readonly bendMm: number | null;
    };

export function holdPlaces(hold: PlannedHold): readonly HoldPlace[] {
  if (hold.kind === 'not-on-part') return [];
  return hold.kind === 'before-bend' ? [hold.place] : hold.places;
}

/** Straight within so many standard uncertainties: of the mean of a station, of a single point. */
const meanLimit = 2;
const pointLimit = 3;

/** @param outsideIds the points of the part that are outside tolerance: where one is, nothing is held, however doubtful its place */
export function plannedHold(
  inspection: Inspection,
  history: PartHistory,
  motion: PartInspection,
  doubt: StageDoubt,
  outsideIds: ReadonlySet<string>,
): PlannedHold {
  const stepMm = inspection.job.unit === 'mm' ? 1 : mmPer.inch / 10;
  const { along } = motion.part;
  // never rounded towards the damage
  const placeAt = (mm: number, towards: 1 | -1): HoldPlace => ({
    atMm: towards * Math.ceil((towards * mm) / stepMm - 1e-9) * stepMm + 0,
    towards,
  });
  const known = knownBend(inspection, history, inspection.job.timeline.length);
  if (known !== null && !known.provisional && motion.bend.kind !== 'several') {
    const { bend, stage } = known;
    // the way out as the stage that showed the bend has it: a later one may have read another stretch of the part
    const { away } = bend;
    const own = [...inspection.chassis.points.values()].filter((point) => point.part === motion.part.id);
    if (away * (bend.holdToMm - endOf(own, along, away === 1 ? -1 : 1)) < 0)
      return { kind: 'not-on-part', bendMm: bend.atMm };
    return {
      kind: 'before-bend',
      place: placeAt(bend.holdToMm, away === 1 ? -1 : 1),
      bendMm: bend.atMm,
      bendBetweenMm: bend.startsBetweenMm,
      stageName: stage.name,
    };
  }
  const off = motion.stations.map(
    (station) =>
      station.members.some(({ point }) => outsideIds.has(point.id)) ||
      !isStraight(station, doubt, inspection.chassis.buildMm),
  );
  // a part that ends at the base is held between the damage and the base, one that runs past it on either side of the damage
  const ends = history.away === null ? ([-1, 1] as const) : ([history.away === 1 ? -1 : 1] as const);
  const places = ends.flatMap((towards) => {
    const station = lastStraight(motion.stations, off, towards);
    return station === null ? [] : [placeAt(endOf(pointsOf(station), along, towards), towards)];
  });
  if (places.length === 0) return { kind: 'not-on-part', bendMm: null };
  return {
    kind: 'last-straight',
    places,
    why: motion.bend.kind === 'bend' ? 'none' : motion.bend.kind,
  };
}

/** The station next to all that is off, seen from one end of the part; null where the part is off to its very end. */
function lastStraight(
  stations: readonly Station[],
  off: readonly boolean[],
  towards: 1 | -1,
): Station | null {
  const damaged = towards === 1 ? off.lastIndexOf(true) : off.indexOf(true);
  return damaged < 0 ? null : (stations[damaged + towards] ?? null);
}

const pointsOf = ({ members }: Station): Point[] => members.map((member) => member.point);

/** Where the outermost of the points stands, going one way along the part, mm. */
const endOf = (points: readonly Point[], along: Axis, towards: 1 | -1): number =>
  towards * Math.max(...points.map((point) => towards * point.reference[along]));

/**
 * No farther off than readings, alignment and the scatter of a sound body explain. On all three axes: metal that was pushed along the
 * part has been worked as well, and is nothing to hold on.
 */
function isStraight(station: Station, doubt: StageDoubt, buildMm: number): boolean {
  const own = station.members.map((member) => ({
    member,
    covariance: doubt.between(evenly([member]), evenly([member])),
  }));
  return mapAxes((k) => {
    const meanU = Math.hypot(station.shiftUncertainty[k], buildMm / Math.sqrt(station.members.length));
    const points = own.every(
      ({ member, covariance }) =>
        Math.abs(member.shift[k]) <= pointLimit * Math.sqrt(covariance[k][k] + buildMm ** 2),
    );
    return points && Math.abs(station.shift[k]) <= meanLimit * meanU;
  }).every(Boolean);
}
