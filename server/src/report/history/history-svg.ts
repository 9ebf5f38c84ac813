import { lengthFigure, mmPer, type Unit, unitWord } from '../../model/units';
import { offFigure } from '../../wording/deviation-words';
import { axisNames, directionWord } from '../../wording/wording';
import { provisionalPath, symbolPath } from '../drawing/drawing-symbols';
import { type Markup, markup, px, shortened } from '../markup';
import { linePath, type Panel, type Scales, scalesOf } from './chart';
import type { AxisHistory, AxisReading, PointHistory } from './history';

/** Size of the charts of one point, px. */
const panelHeight = 52;
const headHeight = 25;
const gap = 16;
const figuresBeside = 32;

/**
 * One point through the stages: a chart for each axis, its tolerance as a band, what was read off load as a line, peaks under load as
 * open triangles beside it. Marks are those of the drawing; what is provisional has a dashed ring about it.
 * @param stages how many the job has
 * @param prefix makes the ids of its elements differ from those of others on the page
 */
export function historySvg(
  history: PointHistory,
  stages: number,
  unit: Unit,
  width: number,
  prefix: string,
): Markup {
  const panelWidth = (width - figuresBeside - 2 * gap - 8) / 3;
  const height = headHeight + panelHeight + 18;
  const panels = history.axes.map((axis, i) => {
    const panel = {
      left: figuresBeside + i * (panelWidth + gap),
      top: headHeight,
      width: panelWidth,
      height: panelHeight,
    };
    const scales = scalesOf(panel, [0.5, stages + 0.5], [-history.rangeMm, history.rangeMm]);
    const figuresMm = i === 0 ? [1, -1].map((sign) => sign * rangeStep(history.rangeMm, unit)) : [];
    return panelSvg(axis, panel, scales, stages, figuresSvg(figuresMm, panel, scales, unit));
  });
  return markup`<svg xmlns="http://www.w3.org/2000/svg" class="fw-drawing fw-history" data-point="${history.id}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${prefix}-title"><title id="${prefix}-title">${sentence(history, unit)}</title>${captionSvg(history, unit, width)}${panels}</svg>`;
}

/** Letters of the two sizes take at most, px on average. */
const captionLetter = 6.9;
const figureLetter = 5.4;

/** The point's name, and at the other end its limits where the two ways are alike; others are seen in the band. */
function captionSvg({ id, axes }: PointHistory, unit: Unit, width: number): Markup {
  const limits = axes.map(({ limits: [low, high] }) =>
    -low === high ? `±${lengthFigure(high, unit)}` : null,
  );
  const same = limits.every((each) => each === limits[0]);
  const told = limits.includes(null) ? '' : `limit ${same ? limits[0] : limits.join(', ')}`;
  const room = Math.floor((width - 12 - told.length * figureLetter) / captionLetter);
  return markup`<text class="fw-caption" x="2" y="10">${shortened(id, room)}</text><text class="fw-figure" x="${px(width - 4)}" y="10" text-anchor="end">${told}</text>`;
}

/** The same in words: `rail-tip-upper.L: length 1 9.1 rearward, 2 peak 3.0 rearward …`. */
function sentence({ id, axes }: PointHistory, unit: Unit): string {
  const told = axes.map(({ axis, readings }) => {
    const each = readings.map(
      (reading) => `${reading.stage}${noteText(reading)} ${offFigure(axis, reading.mm, unit)}`,
    );
    return `${axisNames[axis]}: ${each.length === 0 ? 'not judged' : each.join(', ')}`;
  });
  return `${id} through the stages, ${unitWord[unit]}; ${told.join('; ')}`;
}

function noteText({ peak, provisional }: AxisReading): string {
  const notes = [...(peak ? ['peak'] : []), ...(provisional ? ['provisional'] : [])];
  return notes.length === 0 ? '' : ` (${notes.join(', ')})`;
}

function panelSvg(
  { axis, limits, readings }: AxisHistory,
  { left, top, width, height }: Panel,
  scales: Scales,
  stages: number,
  figures: readonly Markup[],
): Markup {
  const right = px(left + width);
  const band = `M${px(left)} ${scales.y(limits[1])}H${right}V${scales.y(limits[0])}H${px(left)}z`;
  const released = readings.filter(({ peak }) => !peak);
  const path = linePath(
    released.map(({ stage, mm }) => ({ x: stage, y: mm, half: 0 })),
    scales,
  );
  const every = Math.ceil(stages / 8);
  const numbers = Array.from({ length: stages }, (_, i) => i + 1).filter((n) => (n - 1) % every === 0);
  return markup`<g aria-hidden="true"><text class="fw-figure" x="${px(left)}" y="${top - 4}">${axisNames[axis]} ↑ ${directionWord(axis, 1)}</text><path class="fw-band" d="${band}"/><path class="fw-zero-line" d="M${px(left)} ${scales.y(0)}H${right}"/><path class="fw-frame" d="M${px(left)} ${top}V${top + height}H${right}"/>${figures}${numbers.map(
    (n) =>
      markup`<text class="fw-figure" x="${scales.x(n)}" y="${top + height + 10}" text-anchor="middle">${n}</text>`,
  )}<path class="fw-course" d="${path}"/>${readings.map((reading) => readingSvg(reading, scales))}</g>`;
}

/** Figures beside the scale of a chart. */
const figuresSvg = (atMm: readonly number[], { left }: Panel, { y }: Scales, unit: Unit): Markup[] =>
  atMm.map(
    (mm) =>
      markup`<text class="fw-figure" x="${px(left - 4)}" y="${px(y(mm) + 3)}" text-anchor="end">${lengthFigure(Math.abs(mm), unit)}</text>`,
  );

/** A figure beside the scale that is round in the file's unit, mm. */
function rangeStep(rangeMm: number, unit: Unit): number {
  const most = rangeMm / mmPer[unit];
  const decade = 10 ** Math.floor(Math.log10(most));
  const round = [5, 2, 1].map((n) => n * decade).find((n) => n <= 0.85 * most) ?? decade / 2;
  return round * mmPer[unit];
}

function readingSvg(
  { stage, mm, certainMm, verdict, peak, provisional }: AxisReading,
  { x, y }: Scales,
): Markup {
  const at = [x(stage), y(mm)] as const;
  const whisker = markup`<path class="fw-whisker" d="M${at[0]} ${y(mm - certainMm)}V${y(mm + certainMm)}"/>`;
  const symbol = peak
    ? markup`<path class="fw-peak" d="M${at[0]} ${px(at[1] - 4.5)}L${px(at[0] + 4)} ${px(at[1] + 3)}H${px(at[0] - 4)}z"/>`
    : markup`<g class="fw-${verdict}"><path class="fw-symbol" d="${symbolPath(verdict, at[0], at[1])}"/></g>`;
  const ring = provisional
    ? markup`<path class="fw-provisional" d="${provisionalPath(at[0], at[1])}"/>`
    : null;
  return markup`${whisker}${symbol}${ring}`;
}
