import type { JudgedPoint } from '../../inspection/alignment/points';
import { type Axis, axes, type Point } from '../../model/chassis';
import type { Unit } from '../../model/units';
import { limitFigure, offFigure } from '../../wording/deviation-words';
import { axisNames, certaintyText } from '../../wording/wording';
import { symbolSvg } from '../drawing/drawing-key';
import type { MarkState } from '../drawing/drawing-symbols';
import { axisVerdict } from '../history/history';
import { type Markup, markup } from '../markup';

/** How the tables of the record write a point's figures. */

/** `14.2 right ±1.1`, weighted by what this axis says by itself: the figure that puts a point outside is the heavy one. */
export function deviationMarkup(judged: JudgedPoint, k: Axis, unit: Unit): Markup {
  const [mm, u] = [judged.deviation[k], judged.uncertainty[k]];
  const text =
    mm === null || u === null ? 'not judged' : `${offFigure(k, mm, unit)} ${certaintyText(u, unit)}`;
  return markup`<span class="${axisVerdict(judged, k)}">${text}</span>`;
}

/** `±3.0` where all three axes have the same limits, else axis by axis. */
export function limitsMarkup({ limits }: Pick<Point, 'limits'>, unit: Unit): Markup {
  const figures = axes.map((k) => limitFigure(k, limits[k], unit));
  if (figures.every((each) => each.startsWith('±') && each === figures[0])) return markup`${figures[0]}`;
  return markup`${axes.map((k) => markup`<div>${axisNames[k]} ${figures[k]}</div>`)}`;
}

export const verdictMark = (state: MarkState, word: string): Markup => markup`${symbolSvg(state)} ${word}`;
