import { type MoveBack, moveBack } from '../inspection/alignment/certainty-needed';
import { type JudgedPoint, judgementsOf } from '../inspection/alignment/points';
import { beyond, conformity, type Judgement } from '../inspection/alignment/verdict';
import { type Axis, axes } from '../model/chassis';
import { lengthFigure, type Unit } from '../model/units';
import {
  certaintyText,
  directionPhrase,
  lengthRangeText,
  limitPhrase,
  listPhrase,
  movePhrase,
} from './wording';

/** What is said of a point that cannot be decided: how it stands, and what to do about it. */

/** The axes on which it cannot be told whether the point is in tolerance. */
export function openAxes(judged: JudgedPoint): Axis[] {
  const judgements = judgementsOf(judged);
  return axes.filter((k) => {
    const chance = conformity(judgements[k]);
    return chance !== null && chance < 0.95;
  });
}

/** Of the open axes those on which it is past its limit by the figure. */
export const axesOver = (judged: JudgedPoint): Axis[] =>
  openAxes(judged).filter((k) => isOver(judgementsOf(judged)[k]));

const isOver = ({ deviationMm, limits }: Judgement): boolean =>
  deviationMm !== null && beyond(deviationMm, limits);

/**
 * `2.8 mm left (outboard), inside its limit but not for certain (limit ±3.0, certain only to ±1.1 at 95 %)`, axis by axis; where it is
 * over a limit by the figure, of those alone.
 */
export function openPhrase(judged: JudgedPoint, unit: Unit): string {
  const judgements = judgementsOf(judged);
  const over = axesOver(judged);
  const phrases = (over.length > 0 ? over : openAxes(judged)).map((k) => {
    const { deviationMm, limits, uncertaintyMm } = judgements[k];
    const off = movePhrase(k, deviationMm!, judged.point.side, unit);
    const certain = `certain only to ${certaintyText(uncertaintyMm!, unit)} at 95 %`;
    // two equal figures beside each other would say nothing
    if (
      limits.some(
        (limit) => lengthFigure(Math.abs(limit), unit) === lengthFigure(Math.abs(deviationMm!), unit),
      )
    )
      return `${off}, as much as its limit (${certain})`;
    const side = isOver(judgements[k]) ? 'over' : 'inside';
    return `${off}, ${side} its limit but not for certain (${limitPhrase(k, limits, judged.point.side, unit)}, ${certain})`;
  });
  return listPhrase(phrases);
}

/**
 * `bring it 0.3 to 1.2 mm right (inboard)`: the least that takes it inside its limits, and what does so for certain. Null where its
 * place is too uncertain to say so.
 * @param among axes to move it along
 */
export function bringPhrase(judged: JudgedPoint, among: readonly Axis[], unit: Unit): string | null {
  const judgements = judgementsOf(judged);
  const moves = among.map((axis) => ({ axis, move: moveBack(judgements[axis]) }));
  if (moves.length === 0 || moves.some(({ move }) => move === null)) return null;
  const told = moves.flatMap(({ axis, move }) =>
    move === null || isNothing(move.certainMm, unit)
      ? []
      : [`${amountText(move, unit)} ${directionPhrase(axis, move.certainMm, judged.point.side)}`],
  );
  return told.length === 0 ? null : `bring it ${listPhrase(told)}`;
}

const isNothing = (mm: number, unit: Unit): boolean => Number(lengthFigure(Math.abs(mm), unit)) === 0;

/** One figure where the two read alike, or the least is nothing. */
function amountText({ leastMm, certainMm }: MoveBack, unit: Unit): string {
  const [least, most] = [Math.abs(leastMm), Math.abs(certainMm)];
  return lengthRangeText(isNothing(least, unit) ? most : least, most, unit);
}

/** `bring it 0.3 to 1.2 mm right (inboard), or read it again`: of a point over its limit, but not for certain. */
export function overAdvice(judged: JudgedPoint, unit: Unit): string {
  const bring = bringPhrase(judged, axesOver(judged), unit);
  return bring === null ? 'read it again before anything is pulled' : `${bring}, or read it again`;
}
