import { movedVector, rigidFit } from '../../geometry/rigid-motion';
import { length, subtract, transformed, transposed } from '../../geometry/vector';
import type { Chassis, Point } from '../../model/chassis';
import { sideOf } from '../../model/names';
import { halfBand } from '../alignment/control-points';
import { preparedReadings } from '../alignment/prepared';
import type { Alternative } from '../frame/alignment-fault';
import type { Inspection } from './inspect';
import type { Stage } from './stage';
import { unreadControlPoints } from './weak';

/** One way to tell the control points of an ambiguous stage apart: who stood still and who moved. */
export interface Story {
  readonly base: readonly string[];
  readonly moved: readonly string[];
  /** What was hit if this story is true, where the points show it. */
  readonly hit: 'front' | 'rear' | 'left side' | 'right side' | null;
  /** A zone along the body, mm, that holds this base and none of the moved; null where there is none. */
  readonly zone: readonly [number, number] | null;
  /** Null for the base that was chosen. */
  readonly told: Alternative | null;
}

/** The chosen story first. */
export function storiesOf({ chassis }: Inspection, stage: Stage): Story[] {
  const alignment = stage.alignment;
  if (alignment === null) return [];
  const chosen = { base: alignment.baseIds, moved: alignment.movedIds, told: null };
  const all = [
    chosen,
    ...alignment.alternatives.map((told) => ({ base: told.base, moved: told.moved, told })),
  ];
  return all.map(({ base, moved: movedIds, told }) => ({
    told,
    base,
    moved: movedIds,
    hit: hitPart(chassis, base, movedIds),
    zone: zoneOf(chassis, base, movedIds),
  }));
}

const lengthsOf = (chassis: Chassis, ids: readonly string[]): number[] =>
  ids.map((id) => chassis.points.get(id)!.reference[0]);

function hitPart(chassis: Chassis, base: readonly string[], movedIds: readonly string[]): Story['hit'] {
  if (movedIds.length === 0) return null;
  const sides = new Set(movedIds.map(sideOf));
  const [still, gone] = [lengthsOf(chassis, base), lengthsOf(chassis, movedIds)];
  if (Math.min(...gone) > Math.max(...still)) return 'front';
  if (Math.max(...gone) < Math.min(...still)) return 'rear';
  if (sides.size === 1 && !sides.has(null)) return sides.has('L') ? 'left side' : 'right side';
  return null;
}

/** To the next full ten, so that a person can read it. */
function zoneOf(
  chassis: Chassis,
  base: readonly string[],
  movedIds: readonly string[],
): readonly [number, number] | null {
  const still = lengthsOf(chassis, base);
  const from = Math.floor((Math.min(...still) - 1) / 10) * 10;
  const to = Math.ceil((Math.max(...still) + 1) / 10) * 10;
  return lengthsOf(chassis, movedIds).some((x) => x >= from && x <= to) ? null : [from, to];
}

/**
 * The unread control point that tells the stories apart most plainly: where the instrument would have to find it differs most,
 * counted in its tolerance; null where none differs by two tolerances.
 */
export function decidingPoint(inspection: Inspection, stage: Stage): Point | null {
  const { job, chassis } = inspection;
  const readings = new Map(
    preparedReadings(job, chassis, stage.measure).map((reading) => [reading.id, reading]),
  );
  const fits = storiesOf(inspection, stage).flatMap(({ base }) => {
    const members = base.flatMap((id) => readings.get(id) ?? []);
    // the turn about two points is a guess
    if (members.length < 3) return [];
    const measured = members.map((member) => member.measured);
    const references = members.map((member) => member.point.reference);
    return [
      rigidFit(
        measured,
        references,
        members.map(() => 1),
      ),
    ];
  });
  if (fits.length < 2) return null;
  const [first, ...others] = fits;
  const difference = (point: Point): number => {
    // where the instrument finds the point if the first story is true, placed by the others
    const rotation = transposed(first.rotation);
    const expected = transformed(rotation, subtract(point.reference, first.translation));
    const least = Math.min(
      ...others.map((fit) => length(subtract(movedVector(fit, expected), point.reference))),
    );
    return least / Math.min(...point.limits.map(halfBand));
  };
  const ranked = unreadControlPoints(job, chassis, stage)
    .map((point) => ({ point, difference: difference(point) }))
    .sort((a, b) => b.difference - a.difference);
  return ranked.length > 0 && ranked[0].difference > 2 ? ranked[0].point : null;
}
