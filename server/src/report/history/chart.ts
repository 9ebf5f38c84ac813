import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { px } from '../markup';

/** What the small charts share: linear scales, and lines and bands as path data, to a hundredth of a px. */

export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Scales {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly ticks: { readonly x: readonly number[]; readonly y: readonly number[] };
}

export function scalesOf(
  { left, top, width, height }: Panel,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
): Scales {
  const across = scaleLinear([x0, x1], [left, left + width]);
  const up = scaleLinear([y0, y1], [top + height, top]);
  return {
    x: (value) => px(across(value)),
    y: (value) => px(up(value)),
    ticks: { x: spaced(across, width), y: readable(up) },
  };
}

/** No two figures below a chart stand closer, px: `−1000` and a gap. */
const leastFigurePx = 30;

/** As many round places as have room for their figures. */
function spaced(scale: ScaleLinear<number, number>, width: number): number[] {
  // one place alone shows no scale
  const choices = [4, 3, 2, 1].map((count) => scale.ticks(count)).filter(({ length }) => length > 1);
  const fitting = choices.find(({ length }) => (length - 1) * leastFigurePx <= width);
  return fitting ?? choices.at(-1) ?? scale.ticks(4);
}

/** Zero alone is no scale: a figure on either side of it as well. */
const readable = (scale: { ticks(count: number): number[] }): number[] =>
  [3, 4, 5, 6].map((count) => scale.ticks(count)).find(({ length }) => length >= 3) ?? scale.ticks(8);

/** As many decimals as the figures beside a scale need to tell its steps apart. */
export function decimalsOf(ticks: readonly number[]): number {
  const step = ticks.length > 1 ? Math.abs(ticks[1] - ticks[0]) : Math.abs(ticks[0] ?? 1);
  return step === 0 ? 0 : Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
}

export interface ChartPoint {
  readonly x: number;
  readonly y: number;
  /** Half the width of its band. */
  readonly half: number;
}

export const linePath = (points: readonly ChartPoint[], { x, y }: Scales): string =>
  line<ChartPoint>(
    (each) => x(each.x),
    (each) => y(each.y),
  ).digits(2)(points) ?? '';

export const bandPath = (points: readonly ChartPoint[], { x, y }: Scales): string =>
  area<ChartPoint>(
    (each) => x(each.x),
    (each) => y(each.y - each.half),
    (each) => y(each.y + each.half),
  ).digits(2)(points) ?? '';
