import type { Inspection } from '../../inspection/job/inspect';
import { provisionalReason } from '../../inspection/job/provisional';
import type { Stage } from '../../inspection/job/stage';
import type { Unit } from '../../model/units';
import { shortened } from '../markup';
import { magnificationOf, tipOf } from './drawing-arrow';
import { framesOf, type Grid, gridOf } from './drawing-frame';
import { type Box, type Label, placedLabels } from './drawing-labels';
import { type LineOf, type Mark, type Marked, markedPoints, marksOf, worstFirst } from './drawing-marks';
import { type DrawnPart, drawnParts } from './drawing-parts';
import { type DrawnPlace, drawnPlaces } from './drawing-places';
import {
  type DrawnSpan,
  drawnSpans,
  type MarkedSpan,
  markedSpans,
  middleOf,
  worstSpans,
} from './drawing-spans';
import { isLoud, symbolRadius } from './drawing-symbols';
import { type Frame, type Px, projections, type View, views } from './drawing-views';

/**
 * The chassis drawing as plain data (server/README.md, "Drawings and report"): what stands where on the sheet, in px, whatever draws
 * it. Everything is to scale but the arrows, which are deviations times `factor`.
 */
export interface Drawing {
  readonly unit: Unit;
  /** How often deviations are magnified. */
  readonly factor: number;
  /** px for a millimetre of the body, in every view. */
  readonly pxPerMm: number;
  /** What must be known before anything is read off it; empty where nothing. */
  readonly cautions: readonly string[];
  /** Name of the stage, as written but not longer than there is room for; null where none is drawn. */
  readonly stage: string | null;
  /** The stage that this one is laid over. */
  readonly over: string | null;
  /** Every point with what the stage says of it, for the table beside. */
  readonly points: readonly Marked[];
  /** Every distance that the stage read, in file order. */
  readonly spans: readonly MarkedSpan[];
  readonly views: readonly DrawnView[];
}

export interface DrawnView {
  readonly frame: Frame;
  readonly title: string;
  readonly grid: Grid;
  readonly parts: readonly DrawnPart[];
  readonly spans: readonly DrawnSpan[];
  readonly places: readonly DrawnPlace[];
  readonly marks: readonly Mark[];
  readonly labels: readonly Label[];
}

interface DrawingOptions {
  /** Width of the widest view, px. */
  readonly width: number;
  /** Which views; all of them where it is not said. */
  readonly views?: readonly View[];
  /** An earlier stage to lay the drawn one over. */
  readonly over?: Stage | null;
  /** Id of the point that is looked at. */
  readonly selected?: string | null;
  /** How many of the worst points that a view shows bear their names, and of the worst distances their figures. */
  readonly named?: number;
  /** Where readings stand in the text, for views that lead there. */
  readonly lineOf?: LineOf;
}

const usuallyNamed = 8;
/** Room that the mark of a bend or a hold takes, px each way. */
const placeRadius = 13;

/** @param stage null: the body alone, before anything was measured */
export function drawingOf(inspection: Inspection, stage: Stage | null, options: DrawingOptions): Drawing {
  const { over = null, selected = null, named = usuallyNamed } = options;
  const points = markedPoints(inspection, stage, over, options.lineOf ?? null);
  const distances = markedSpans(inspection, stage, options.lineOf ?? null);
  const worst = worstFirst(points).filter((id) => id !== selected);
  const frames = framesOf(inspection, options.width, options.views ?? views);
  const ends = endsOf(inspection, points);
  return {
    unit: inspection.job.unit,
    factor: magnificationOf(inspection).factor,
    pxPerMm: frames[0]?.pxPerMm ?? 1,
    cautions: stage === null ? [] : stageCautions(inspection, stage),
    stage: stage && shortened(stage.name, 40),
    over: over && shortened(over.name, 40),
    points,
    spans: distances,
    views: frames.map((frame): DrawnView => {
      const marks = marksOf(inspection, points, frame, selected);
      const spans = drawnSpans(inspection, distances, frame);
      const parts = drawnParts(inspection, frame, (id) => ends.placed.get(id), ends.off);
      const grid = gridOf(frame, inspection.job.unit, inspection.chassis.axes);
      const places = stage === null ? [] : drawnPlaces(inspection, stage, frame, ends.off);
      return {
        frame,
        title: projections[frame.view].title,
        grid,
        parts,
        spans,
        places,
        marks,
        labels: labelsOf({ grid, parts, marks, places, spans }, { selected, worst, named }, frame),
      };
    }),
  };
}

/** Why the figures of a stage are to be taken with care. */
function stageCautions(inspection: Inspection, stage: Stage): string[] {
  const reason = provisionalReason(inspection, stage);
  return [
    ...(stage.underTension ? ['under load: these are peaks'] : []),
    ...(reason === null ? [] : [`provisional: ${shortened(reason, 80)}`]),
    ...(stage.points.length > 0 && stage.points.every(({ verdict }) => verdict === 'unjudged')
      ? ['nothing could be judged']
      : []),
  ];
}

/** Where magnified readings end, of points that can be judged on all axes; and the parts that have moved. */
function endsOf(inspection: Inspection, points: readonly Marked[]) {
  const magnification = magnificationOf(inspection);
  const placed = new Map<string, readonly [number, number, number]>();
  const off = new Set<string>();
  for (const { point, judged, state } of points) {
    if (judged === null) continue;
    const tip = tipOf(judged, magnification);
    if (tip !== null && !tip.cut && judged.deviation.every((mm) => mm !== null)) placed.set(point.id, tip.at);
    if (point.part !== null && isLoud(state)) off.add(point.part);
  }
  return { placed, off };
}

function labelsOf(
  { grid, parts, marks, places, spans }: Omit<DrawnView, 'frame' | 'title' | 'labels'>,
  { selected, worst, named }: { selected: string | null; worst: readonly string[]; named: number },
  frame: Frame,
): Label[] {
  const byId = new Map(marks.map((mark) => [mark.id, mark]));
  // the worst of those that are seen from here
  const wanted = [
    ...(selected === null ? [] : [selected]),
    ...worst.filter((id) => byId.has(id)).slice(0, named),
  ];
  const boxAbout = ([x, y]: Px, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r });
  const names = wanted.flatMap((id) => {
    const mark = byId.get(id);
    return mark === undefined ? [] : [{ id: shortened(id, 48), mark: mark.at, kept: mark.selected }];
  });
  const figures = worstSpans(spans)
    .slice(0, named)
    .map((span) => ({ id: span.figure, mark: middleOf(span), kept: false }));
  return placedLabels([...names, ...figures], {
    bounds: {
      left: frame.left - 18,
      right: frame.width - 2,
      top: frame.top - 18,
      bottom: frame.bottom + 18,
    },
    loud: [
      ...marks
        .filter(({ state }) => isLoud(state))
        .map(({ at, state }) => boxAbout(at, symbolRadius[state] + 1)),
      ...places.map(({ at }) => boxAbout(at, placeRadius)),
    ],
    quiet: marks.filter(({ state }) => !isLoud(state)).map(({ at }) => at),
    lines: [
      ...marks.flatMap(({ arrow }) => (arrow === null ? [] : [[arrow.from, arrow.to] as const])),
      ...spans.map(({ ends }) => ends),
    ],
    faint: [...parts.flatMap(linesOf), ...zeroLines(grid, frame)],
  });
}

type Line = readonly [Px, Px];

/** The outlines of a part. */
const linesOf = ({ outline, measured }: DrawnPart): Line[] =>
  [outline, measured ?? []].flatMap((corners) =>
    corners.map((corner, i): Line => [corner, corners[(i + 1) % corners.length]]),
  );

/** The lines that figures are counted from. */
const zeroLines = ({ across, up }: Grid, { left, right, top, bottom }: Frame): Line[] => [
  ...across.flatMap(({ kind, at }): Line[] =>
    kind === 'grid'
      ? []
      : [
          [
            [at, top],
            [at, bottom],
          ],
        ],
  ),
  ...up.flatMap(({ kind, at }): Line[] =>
    kind === 'grid'
      ? []
      : [
          [
            [left, at],
            [right, at],
          ],
        ],
  ),
];
