import type { Inspection } from '../../inspection/job/inspect';
import type { PartInspection, Stage } from '../../inspection/job/stage';
import type { Chassis, Part } from '../../model/chassis';
import type { Pull } from '../../model/job';
import { idsNamed } from '../../model/names';
import { partIds } from '../../model/resolve/resolved-job';
import type { Unit } from '../../model/units';
import { doubtfulPlaceText, placeText } from '../../wording/places';
import { pointsOf } from './drawing-parts';
import { acrossPx, type Frame, type Px, projected, projections, upPx } from './drawing-views';

/**
 * A place along a part: where its bend starts, up to where it is known to be straight, where it was held.
 * A bend has its uncertainty along the part.
 */
export interface DrawnPlace {
  readonly kind: 'bend' | 'straight' | 'hold';
  readonly part: string;
  readonly at: Px;
  /** Whether the part runs across the sheet; else up it. Null for a hold at a point. */
  readonly runsAcross: boolean | null;
  /** 95 %: its ends on the sheet along the part, px from the place, the lesser first; null for a place that is stated. */
  readonly doubt: readonly [number, number] | null;
  readonly text: string;
}

/** @param moved parts of which some point is not within: where every point is, a bend says nothing that matters, and is not worked out */
export function drawnPlaces(
  inspection: Inspection,
  stage: Stage,
  frame: Frame,
  moved: ReadonlySet<string>,
): DrawnPlace[] {
  return [
    ...stage.parts
      .filter(({ part }) => moved.has(part.id))
      .flatMap((part) => bendPlaces(part, inspection, frame)),
    ...holdPlaces(inspection, stage, frame),
  ];
}

function bendPlaces({ part, bend }: PartInspection, inspection: Inspection, frame: Frame): DrawnPlace[] {
  if (bend.kind !== 'bend') return [];
  const { unit } = inspection.job;
  const bendText = `${part.id}: bend starts at ${doubtfulPlaceText(bend.atMm, bend.startsBetweenMm, part, unit)}`;
  const straightText = `${part.id}: known to be straight up to ${placeText(bend.holdToMm, part, unit)}; hold there or nearer the base`;
  return [
    ...placeAlong(inspection.chassis, part, frame, {
      kind: 'bend',
      atMm: bend.atMm,
      betweenMm: bend.startsBetweenMm,
      text: bendText,
    }),
    ...placeAlong(inspection.chassis, part, frame, {
      kind: 'straight',
      atMm: bend.holdToMm,
      betweenMm: null,
      text: straightText,
    }),
  ];
}

/** The holds of the pull that a stage was read after or under. */
function holdPlaces(inspection: Inspection, stage: Stage, frame: Frame): DrawnPlace[] {
  const { job, chassis } = inspection;
  const before = job.timeline.slice(0, stage.index);
  const pull = before.findLast((entry): entry is Pull => entry.kind === 'pull');
  return (pull?.holds ?? []).flatMap((hold): DrawnPlace[] => {
    if (hold.kind === 'part')
      return partIds([hold.part], chassis).flatMap((id) => {
        const part = chassis.parts.get(id);
        return part === undefined
          ? []
          : placeAlong(chassis, part, frame, {
              kind: 'hold',
              atMm: hold.atMm,
              betweenMm: null,
              text: holdText(part, hold.atMm, job.unit),
            });
      });
    return idsNamed(hold.point.id, chassis.points).flatMap((id): DrawnPlace[] => {
      const point = chassis.points.get(id);
      if (point === undefined || (point.side !== null && point.side === projections[frame.view].hidden))
        return [];
      return [
        {
          kind: 'hold',
          part: point.part ?? '',
          at: projected(frame, point.reference),
          runsAcross: null,
          doubt: null,
          text: `held at ${id} in the pull before`,
        },
      ];
    });
  });
}

const holdText = (part: Part, atMm: number, unit: Unit): string =>
  `${part.id}: held at ${placeText(atMm, part, unit)} in the pull before`;

interface PlaceOnPart extends Pick<DrawnPlace, 'kind' | 'text'> {
  readonly atMm: number;
  /** between what it lies, 95 %; null for a place that is stated */
  readonly betweenMm: readonly [number, number] | null;
}

/** Nothing where the part is seen from its end, or has no points in the view. */
function placeAlong(
  chassis: Chassis,
  part: Part,
  frame: Frame,
  { kind, atMm, betweenMm, text }: PlaceOnPart,
): DrawnPlace[] {
  const { across, up } = projections[frame.view];
  if (part.along !== across && part.along !== up) return [];
  const runsAcross = part.along === across;
  const middleMm = middleAt(chassis, part, atMm, runsAcross ? up : across, frame);
  if (middleMm === null) return [];
  const at: Px = runsAcross
    ? [acrossPx(frame, atMm), upPx(frame, middleMm)]
    : [acrossPx(frame, middleMm), upPx(frame, atMm)];
  const onSheet = (mm: number) => (runsAcross ? acrossPx(frame, mm) - at[0] : upPx(frame, mm) - at[1]);
  const [from, to] = betweenMm?.map(onSheet) ?? [0, 0];
  const doubt = betweenMm && ([Math.min(from, to), Math.max(from, to)] as const);
  return [{ kind, part: part.id, at, runsAcross, doubt, text }];
}

/** Points within this along a part stand at one place of it, mm. */
const samePlaceMm = 40;

/** Half-way between the outermost points of the two nearest along the part, mm; beyond its ends as at the end. */
function middleAt(chassis: Chassis, part: Part, atMm: number, side: 0 | 1 | 2, frame: Frame): number | null {
  const points = pointsOf(chassis, part.id, frame.view).map(({ reference }) => reference);
  if (points.length === 0) return null;
  const nearest = (range: readonly (typeof points)[number][], sign: 1 | -1) => {
    const end = sign * Math.min(...range.map((each) => sign * each[part.along]));
    const there = range
      .filter((each) => Math.abs(each[part.along] - end) < samePlaceMm)
      .map((each) => each[side]);
    return { at: end, middle: (Math.min(...there) + Math.max(...there)) / 2 };
  };
  const beyond = points.filter((each) => each[part.along] >= atMm);
  const before = points.filter((each) => each[part.along] <= atMm);
  const next = beyond.length > 0 ? nearest(beyond, 1) : null;
  const last = before.length > 0 ? nearest(before, -1) : null;
  if (next === null || last === null) return (next ?? last)!.middle;
  const share = next.at === last.at ? 0 : (atMm - last.at) / (next.at - last.at);
  return last.middle + share * (next.middle - last.middle);
}
