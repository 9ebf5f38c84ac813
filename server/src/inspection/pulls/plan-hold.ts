import type { Axis, Chassis, Point } from '../../model/chassis';
import { mmPer } from '../../model/units';
import type { StageDoubt } from '../alignment/displacements';
import type { Inspection } from '../job/inspect';
import { knownBend } from '../job/known-bend';
import type { PartHistory } from '../job/part-history';
import type { PartInspection } from '../job/stage';
import { type SeenIn, seenStations } from './straight-metal';

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
      /** The stages that showed the bend. */
      readonly stageNames: readonly string[];
      /** What they say of its place differs by more than chance. */
      readonly contradictory: boolean;
    }
  | {
      /** No single bend is declared: at the last station that is still straight; on a part that runs past the base, on both sides of the damage. */
      readonly kind: 'last-straight';
      readonly places: readonly (HoldPlace & { readonly seenIn: SeenIn | null })[];
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
    const { bend, stages, contradictory } = known;
    // the way out as the stage that showed the bend has it: a later one may have read another stretch of the part
    const { away } = bend;
    const own = [...inspection.chassis.points.values()].filter((point) => point.part === motion.part.id);
    if (away * (bend.holdToMm - endOf(own, along, away === 1 ? -1 : 1)) < 0)
      return { kind: 'not-on-part', bendMm: bend.atMm, body: { axis: along, towards: away === 1 ? -1 : 1 } };
    return {
      kind: 'before-bend',
      place: placeAt(bend.holdToMm, away === 1 ? -1 : 1),
      bendMm: bend.atMm,
      bendBetweenMm: bend.startsBetweenMm,
      stageNames: stages.map(({ name }) => name),
      contradictory,
    };
  }
  const stations = seenStations(inspection, history, motion, doubt, outsideIds);
  // a part that ends at the base is held between the damage and the base, one that runs past it on either side of the damage
  const ends = history.away === null ? ([-1, 1] as const) : ([history.away === 1 ? -1 : 1] as const);
  const places = ends.flatMap((towards) => {
    const off = stations.map(({ isOff }) => isOff);
    const damaged = towards === 1 ? off.lastIndexOf(true) : off.indexOf(true);
    const straight = damaged < 0 ? undefined : stations[damaged + towards];
    if (straight === undefined) return [];
    const points = straight.station.members.map(({ point }) => point);
    return [{ ...placeAt(endOf(points, along, towards), towards), seenIn: straight.seenIn }];
  });
  if (places.length === 0) return { kind: 'not-on-part', bendMm: null, body: bodySide(inspection, history) };
  return {
    kind: 'last-straight',
    places,
    why: motion.bend.kind === 'bend' ? 'none' : motion.bend.kind,
  };
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
