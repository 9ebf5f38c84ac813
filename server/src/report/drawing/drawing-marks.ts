import type { JudgedPoint } from '../../inspection/alignment/points';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import type { Point } from '../../model/chassis';
import type { Place } from '../../text/tree';
import { deviationSentence } from '../../wording/deviation-words';
import { worstPoint } from '../../wording/worst';
import { magnificationOf, tipOf } from './drawing-arrow';
import { isLoud, type MarkState } from './drawing-symbols';
import { type Frame, type Px, projected, projections } from './drawing-views';

/** What a stage says of one point, whatever the view. */
export interface Marked {
  readonly point: Point;
  readonly state: MarkState;
  /** A control point that the stage is aligned on; of the body alone: that a job may be. */
  readonly inBase: boolean;
  readonly judged: JudgedPoint | null;
  /** Of an earlier stage that this one is laid over. */
  readonly earlier: JudgedPoint | null;
  /** Line of its reading in the job file, from 1; null where the stage does not name it. */
  readonly line: number | null;
  readonly text: string;
}

export interface Arrow {
  readonly from: Px;
  readonly to: Px;
  /** Longer than there was room for. */
  readonly cut: boolean;
  /** Something of it could not be judged: it shows the rest. */
  readonly partial: boolean;
}

/** A point of the body on one view. */
export interface Mark {
  readonly id: string;
  readonly line: number | null;
  readonly at: Px;
  readonly state: MarkState;
  readonly inBase: boolean;
  readonly selected: boolean;
  readonly arrow: Arrow | null;
  readonly earlier: Arrow | null;
  /** What the mark says, in words. */
  readonly text: string;
}

const samePx = (a: Px, b: Px): boolean => a[0] === b[0] && a[1] === b[1];

const sameArrow = (a: Arrow | null, b: Arrow | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    samePx(a.from, b.from) &&
    samePx(a.to, b.to) &&
    a.cut === b.cut &&
    a.partial === b.partial);

/** Whether two marks of one point look and say the same. */
export const sameMark = (a: Mark, b: Mark): boolean =>
  a.state === b.state &&
  a.line === b.line &&
  a.inBase === b.inBase &&
  a.selected === b.selected &&
  samePx(a.at, b.at) &&
  sameArrow(a.arrow, b.arrow) &&
  sameArrow(a.earlier, b.earlier) &&
  a.text === b.text;

/** The line of a place in the text, from 1. */
export type LineOf = (place: Place) => number;

/** Every point of the chassis as a stage found it, in file order; without a stage all are unread. */
export function markedPoints(
  { chassis, job }: Inspection,
  stage: Stage | null,
  earlier: Stage | null,
  lineOf: LineOf | null,
): Marked[] {
  const judged = new Map(stage?.points.map((each) => [each.id, each]));
  const before = new Map(earlier?.points.map((each) => [each.id, each]));
  const unreachable = new Map(stage?.unreachable.map((each) => [each.id, each]));
  return [...chassis.points.values()].map((point): Marked => {
    const found = judged.get(point.id) ?? null;
    const reading = found?.reading ?? unreachable.get(point.id) ?? null;
    const state = found?.verdict ?? (reading === null ? 'unread' : 'unreachable');
    return {
      point,
      state,
      inBase: stage === null ? point.base : (found?.inBase ?? false),
      judged: found,
      earlier: before.get(point.id) ?? null,
      line: reading === null || lineOf === null ? null : lineOf(reading.key),
      text:
        found === null
          ? `${point.id}: ${state === 'unread' ? 'not read in this stage' : 'out of reach'}`
          : deviationSentence(found, job.unit),
    };
  });
}

/** The points outside, those farthest past their limits first. */
export function worstFirst(marked: readonly Marked[]): string[] {
  return marked
    .flatMap(({ judged }) =>
      judged?.verdict === 'outside' ? [{ id: judged.id, excess: excessMm(judged) }] : [],
    )
    .sort((a, b) => b.excess - a.excess || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
}

/** How far past its limits a point is on the axis where it is farthest, mm; 0 where it is not. */
export const excessMm = (judged: JudgedPoint): number => worstPoint([judged])?.excessMm ?? 0;

/** The marks of one view: quiet ones first, so that loud ones lie on top, and the selected one on top of all. */
export function marksOf(
  inspection: Inspection,
  marked: readonly Marked[],
  frame: Frame,
  selected: string | null,
): Mark[] {
  const { hidden } = projections[frame.view];
  const marks = marked
    .filter(({ point: { side } }) => side === null || side !== hidden)
    .map(({ point, state, inBase, judged, earlier, line, text }): Mark => {
      const at = projected(frame, point.reference);
      return {
        id: point.id,
        line,
        at,
        state,
        inBase,
        selected: point.id === selected,
        arrow: judged && arrowOf(inspection, judged, frame, at),
        earlier: earlier && arrowOf(inspection, earlier, frame, at),
        text,
      };
    });
  const height = (mark: Mark) => (mark.selected ? 2 : isLoud(mark.state) ? 1 : 0);
  return marks.sort((a, b) => height(a) - height(b));
}

function arrowOf(inspection: Inspection, judged: JudgedPoint, frame: Frame, from: Px): Arrow | null {
  const { across, up } = projections[frame.view];
  if (judged.deviation[across] === null && judged.deviation[up] === null) return null;
  const tip = tipOf(judged, magnificationOf(inspection));
  if (tip === null) return null;
  const partial = judged.deviation[across] === null || judged.deviation[up] === null;
  return { from, to: projected(frame, tip.at), cut: tip.cut, partial };
}
