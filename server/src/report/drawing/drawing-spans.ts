import type { JudgedSpan } from '../../inspection/alignment/spans';
import type { Verdict } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { deviationOfSpan, spanSentence } from '../../wording/deviation-words';
import type { LineOf } from './drawing-marks';
import { isLoud } from './drawing-symbols';
import { type Frame, type Px, projected, projections } from './drawing-views';

/** What a stage says of a distance that was read point to point, whatever the view. */
export interface MarkedSpan {
  readonly span: JudgedSpan;
  /** Line of its reading in the job file, from 1. */
  readonly line: number | null;
  readonly text: string;
}

/** A distance on one view: straight between the reference places of its ends, as it would be had nothing moved. */
export interface DrawnSpan {
  readonly from: string;
  readonly to: string;
  readonly line: number | null;
  readonly ends: readonly [Px, Px];
  readonly state: Verdict;
  readonly text: string;
  /** How much it is too long or too short: `12.1 short`. */
  readonly figure: string;
  /** How far past its limits, mm; 0 where it is not. */
  readonly excessMm: number;
}

export const markedSpans = ({ job }: Inspection, stage: Stage | null, lineOf: LineOf | null): MarkedSpan[] =>
  (stage?.spans ?? []).map((span) => ({
    span,
    line: lineOf === null ? null : lineOf(span.reading.place),
    text: spanSentence(span, job.unit),
  }));

/** Shorter it is seen from its end, and lies under the marks, px. */
const leastPx = 6;

/** The distances of one view: quiet ones first, so that loud ones lie on top. */
export function drawnSpans(
  { chassis, job }: Inspection,
  marked: readonly MarkedSpan[],
  frame: Frame,
): DrawnSpan[] {
  const { hidden } = projections[frame.view];
  const endOf = (id: string): Px | null => {
    const point = chassis.points.get(id);
    return point === undefined || (point.side !== null && point.side === hidden)
      ? null
      : projected(frame, point.reference);
  };
  return marked
    .flatMap(({ span, line, text }): DrawnSpan[] => {
      const [a, b] = [endOf(span.from), endOf(span.to)];
      if (a === null || b === null || Math.hypot(b[0] - a[0], b[1] - a[1]) < leastPx) return [];
      const { from, to, verdict: state, deviationMm, limits } = span;
      const excessMm = Math.max(0, limits[0] - deviationMm, deviationMm - limits[1]);
      const figure = deviationOfSpan(span, job.unit);
      return [{ from, to, line, ends: [a, b], state, text, figure, excessMm }];
    })
    .sort((a, b) => heightOf(a) - heightOf(b));
}

const heightOf = ({ state }: DrawnSpan): number => (state === 'outside' ? 2 : isLoud(state) ? 1 : 0);

/** The distances outside, those farthest past their limits first. */
export const worstSpans = (spans: readonly DrawnSpan[]): DrawnSpan[] =>
  spans.filter(({ state }) => state === 'outside').sort((a, b) => b.excessMm - a.excessMm);

/** Half-way between the two ends. */
export const middleOf = ({ ends: [a, b] }: DrawnSpan): Px => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
