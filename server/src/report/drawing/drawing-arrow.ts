import { add, length, scaled, type Vec3 } from '../../geometry/vector';
import { type JudgedPoint, mapAxes } from '../../inspection/alignment/points';
import { impossibleMm } from '../../inspection/job/gross';
import type { Inspection } from '../../inspection/job/inspect';
import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';

/** How deviations are magnified: one factor for all stages of a job, so that its drawings can be held against each other. */
interface Magnification {
  readonly factor: number;
  /** No arrow is drawn longer, mm on the body: one misread point must not push all others off the sheet. */
  readonly longestMm: number;
}

const niceFactors = [100, 50, 20, 10, 5, 2, 1];
/** Share of the body's length that the larger arrows take, and that no arrow exceeds. */
const usualShare = 0.08;
const longestShare = 0.15;
/** Where everything is in its place, scatter is not blown up beyond this: 3 mm take the usual length. */
const leastDeviationMm = 3;

/** The size of a deviation, mm; axes that cannot be judged left out. */
const deviationSize = ({ deviation }: Pick<JudgedPoint, 'deviation'>): number =>
  length(mapAxes((k) => deviation[k] ?? 0));

export const magnificationOf = derived((inspection: Inspection): Magnification => {
  const bodyMm = bodyLength(inspection.chassis);
  const sizes = inspection.stages
    .flatMap((stage) => stage.points.filter(({ verdict }) => verdict === 'outside'))
    .map(deviationSize)
    .filter((size) => size < impossibleMm)
    .sort((a, b) => a - b);
  // a few misread points must not make the rest invisible: they are drawn cut
  const usual = Math.max(leastDeviationMm, sizes[Math.floor(0.9 * (sizes.length - 1))] ?? 0);
  const room = (usualShare * bodyMm) / usual;
  return { factor: niceFactors.find((factor) => factor <= room) ?? 1, longestMm: longestShare * bodyMm };
});

function bodyLength({ points }: Chassis): number {
  const places = [...points.values()].map(({ reference }) => reference);
  const extent = (k: 0 | 1 | 2) =>
    Math.max(...places.map((place) => place[k])) - Math.min(...places.map((place) => place[k]));
  return places.length === 0 ? 1000 : Math.max(extent(0), extent(1), extent(2), 100);
}

interface Tip {
  /** Vehicle axes, mm. */
  readonly at: Vec3;
  /** Longer than there is room for. */
  readonly cut: boolean;
}

/** Where a point's magnified deviation ends; an axis that cannot be judged stays at the reference. Null where none can. */
export function tipOf(judged: JudgedPoint, { factor, longestMm }: Magnification): Tip | null {
  if (judged.deviation.every((each) => each === null)) return null;
  const size = deviationSize(judged) * factor;
  const cut = size > longestMm;
  const magnified = factor * (cut ? longestMm / size : 1);
  return {
    at: add(
      judged.point.reference,
      scaled(
        mapAxes((k) => judged.deviation[k] ?? 0),
        magnified,
      ),
    ),
    cut,
  };
}
