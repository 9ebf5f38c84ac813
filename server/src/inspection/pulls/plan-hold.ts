import type { Axis, Point } from '../../model/chassis';
import { evenly, type StageDoubt } from '../alignment/displacements';
import type { Inspection } from '../job/inspect';
import { knownBend } from '../job/known-bend';
import type { PartHistory } from '../job/part-history';
import type { PartInspection } from '../job/stage';
import { crossAxes, type Station } from '../shape/stations';

/** Where the part is held so that nothing behind the bend moves: on straight metal, on the base's side of the bend. */
export type PlannedHold =
  | {
      readonly kind: 'before-bend';
      /** At this coordinate along the part or nearer to the base, mm. */
      readonly atMm: number;
      readonly bendMm: number;
      /** 95 % interval of where it starts, lower end first. */
      readonly bendBetweenMm: readonly [number, number];
      /** The stage that showed the bend. */
      readonly stageName: string;
    }
  | {
      /** No single bend is declared: at the last station that is still straight; on a part that runs past the base, on both sides of the damage. */
      readonly kind: 'last-straight';
      readonly placesMm: readonly number[];
      readonly why: 'several' | 'none' | 'too-few-stations';
    }
  | {
      /** The part shows no straight metal to hold on: the body behind it must be held. */
      readonly kind: 'not-on-part';
      readonly bendMm: number | null;
    };

/** Where on the part, mm along it. */
export function holdPlacesMm(hold: PlannedHold): readonly number[] {
  if (hold.kind === 'not-on-part') return [];
  return hold.kind === 'before-bend' ? [hold.atMm] : hold.placesMm;
}

/** Straight within so many standard uncertainties: of the mean of a station, of a single point. */
const meanLimit = 2;
const pointLimit = 3;

export function plannedHold(
  inspection: Inspection,
  history: PartHistory,
  motion: PartInspection,
  doubt: StageDoubt,
  stepMm: number,
): PlannedHold {
  const { away } = motion.bend;
  const ordered = away === 1 ? motion.stations : [...motion.stations].reverse();
  const towardsBase = (mm: number) => away * Math.floor((away * mm) / stepMm + 1e-9) * stepMm;
  const known = knownBend(inspection, history, inspection.job.timeline.length);
  if (known !== null && !known.provisional && motion.bend.kind !== 'several') {
    const { bend, stage } = known;
    const own = [...inspection.chassis.points.values()].filter((point) => point.part === motion.part.id);
    const root = nearest(own, motion.part.along, away);
    if (away * (bend.holdToMm - root) < 0) return { kind: 'not-on-part', bendMm: bend.atMm };
    return {
      kind: 'before-bend',
      atMm: towardsBase(bend.holdToMm),
      bendMm: bend.atMm,
      bendBetweenMm: bend.startsBetweenMm,
      stageName: stage.name,
    };
  }
  const off = ordered.map((station) => !isStraight(station, motion, doubt, inspection.chassis.buildMm));
  const firstOff = off.includes(true) ? off.indexOf(true) : off.length;
  const baseSide = ordered.slice(0, firstOff).at(-1);
  const places =
    baseSide === undefined ? [] : [towardsBase(nearest(pointsOf(baseSide), motion.part.along, away))];
  const farSide = history.away === null ? ordered.slice(off.lastIndexOf(true) + 1)[0] : undefined;
  if (farSide !== undefined && farSide !== baseSide)
    places.push(-towardsBase(-nearest(pointsOf(farSide), motion.part.along, away === 1 ? -1 : 1)));
  if (places.length === 0) return { kind: 'not-on-part', bendMm: null };
  return {
    kind: 'last-straight',
    placesMm: places,
    why: motion.bend.kind === 'bend' ? 'none' : motion.bend.kind,
  };
}

const pointsOf = ({ members }: Station): Point[] => members.map((member) => member.point);

/** Of the points the one that stands nearest to the base, mm along the part. */
const nearest = (points: readonly Point[], along: Axis, away: 1 | -1): number =>
  away * Math.min(...points.map((point) => away * point.reference[along]));

/** No more across the part than readings, alignment and the scatter of a sound body explain. */
function isStraight(station: Station, { part }: PartInspection, doubt: StageDoubt, buildMm: number): boolean {
  const own = station.members.map((member) => ({
    member,
    covariance: doubt.between(evenly([member]), evenly([member])),
  }));
  return crossAxes[part.along].every((k) => {
    const meanU = Math.hypot(station.shiftUncertainty[k], buildMm / Math.sqrt(station.members.length));
    const points = own.every(
      ({ member, covariance }) =>
        Math.abs(member.shift[k]) <= pointLimit * Math.sqrt(covariance[k][k] + buildMm ** 2),
    );
    return points && Math.abs(station.shift[k]) <= meanLimit * meanU;
  });
}
