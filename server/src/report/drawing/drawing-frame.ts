import type { Inspection } from '../../inspection/job/inspect';
import { derived } from '../../memory/derived';
import type { Axis } from '../../model/chassis';
import { type SheetAxes, signAlong, signed } from '../../model/sheet-axes';
import { figure, mmPer, type Unit } from '../../model/units';
import { magnificationOf, tipOf } from './drawing-arrow';
import { acrossPx, type Frame, projections, upPx, type View } from './drawing-views';

/** Room on the sheet, px: beside the outermost mark, for the figures of the grid, and for the two lines of words above. */
const margin = 20;
const figuresBeside = 56;
const figuresBelow = 18;
const captionHeight = 32;
/** No grid is finer, px. */
const leastGridPx = 48;
/** No sheet is narrower: the words above it want room. */
const leastWidth = 330;

type Range = readonly [least: number, most: number];

/** What is drawn to scale begins and ends at whole multiples of this, mm. */
const extentStepMm = 50;

/** What is drawn along each axis, mm: all points, the arrows of all stages, and the three zero lines. */
export const extentsOf = derived((inspection: Inspection): readonly [Range, Range, Range] => {
  const magnification = magnificationOf(inspection);
  const least = [0, 0, 0];
  const most = [0, 0, 0];
  const take = (place: readonly number[]) => {
    for (let k = 0; k < 3; k++) {
      least[k] = Math.min(least[k], place[k]);
      most[k] = Math.max(most[k], place[k]);
    }
  };
  for (const { reference } of inspection.chassis.points.values()) take(reference);
  for (const stage of inspection.stages)
    for (const judged of stage.points) {
      const tip = tipOf(judged, magnification);
      if (tip !== null) take(tip.at);
    }
  // in steps: an edit that moves the tip of an arrow does not shift the whole sheet
  const range = (k: Axis): Range => {
    const [low, high] = [
      Math.floor(least[k] / extentStepMm) * extentStepMm,
      Math.ceil(most[k] / extentStepMm) * extentStepMm,
    ];
    return high - low < 2 * extentStepMm ? [low - extentStepMm, high + extentStepMm] : [low, high];
  };
  // the centreline stays in the middle
  const half = Math.max(-range(1)[0], range(1)[1]);
  return [range(0), [-half, half], range(2)];
});

/** One scale for all views of a job; the widest fills the width. */
export function framesOf(inspection: Inspection, widthPx: number, drawn: readonly View[]): Frame[] {
  const ranges = extentsOf(inspection);
  const wide = (k: Axis) => ranges[k][1] - ranges[k][0];
  // the scale does not hang on which views are asked for
  const pxPerMm = (Math.max(leastWidth, widthPx) - figuresBeside - 2 * margin) / Math.max(wide(0), wide(1));
  return drawn.map((view): Frame => {
    const { across, up } = projections[view];
    const left = figuresBeside + margin;
    const top = captionHeight + margin;
    const right = left + wide(across) * pxPerMm;
    const bottom = top + wide(up) * pxPerMm;
    return {
      view,
      pxPerMm,
      left,
      right,
      top,
      bottom,
      width: Math.max(leastWidth, Math.ceil(right + margin)),
      height: Math.ceil(bottom + margin + figuresBelow),
      leftMm: ranges[across][0],
      topMm: ranges[up][1],
    };
  });
}

interface GridLine {
  readonly at: number;
  /** In the file's unit; `400 L` across the body; a zero goes by its name. */
  readonly text: string;
  readonly kind: 'grid' | 'centreline' | 'zero';
}

export interface Grid {
  readonly stepMm: number;
  /** Lines that run up the sheet, at a px across it. */
  readonly across: readonly GridLine[];
  /** Lines that run across the sheet, at a px down it. */
  readonly up: readonly GridLine[];
}

const zeroNames: Record<Axis, string> = { 0: 'length zero', 1: 'centreline', 2: 'datum line' };

/** Lines of the vehicle's axes, with the numbers that the sheet has for them; across it a letter says the side. */
export function gridOf(frame: Frame, unit: Unit, sheet: SheetAxes): Grid {
  const { across, up } = projections[frame.view];
  const stepMm = gridStep(frame.pxPerMm, unit);
  const bottomMm = frame.topMm - (frame.bottom - frame.top) / frame.pxPerMm;
  const rightMm = frame.leftMm + (frame.right - frame.left) / frame.pxPerMm;
  const lines = (axis: Axis, fromMm: number, toMm: number, at: (mm: number) => number): GridLine[] => {
    const first = Math.ceil(fromMm / stepMm - 1e-9);
    const count = Math.floor(toMm / stepMm + 1e-9) - first + 1;
    return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * stepMm).map((mm) => ({
      at: at(mm),
      ...(Math.abs(mm) < stepMm / 2
        ? { text: zeroNames[axis], kind: axis === 1 ? ('centreline' as const) : ('zero' as const) }
        : {
            text: gridText(axis, signed(axis === 1 ? 1 : signAlong(sheet, axis, null), mm), unit),
            kind: 'grid' as const,
          }),
    }));
  };
  return {
    stepMm,
    across: lines(across, frame.leftMm, rightMm, (mm) => acrossPx(frame, mm)),
    up: lines(up, bottomMm, frame.topMm, (mm) => upPx(frame, mm)),
  };
}

/** The finest of 1, 2, 5, 10 … units of the file that is not too dense. */
function gridStep(pxPerMm: number, unit: Unit): number {
  for (let decade = 1; decade < 1e9; decade *= 10)
    for (const step of [1, 2, 5]) {
      const mm = step * decade * mmPer[unit];
      if (mm * pxPerMm >= leastGridPx) return mm;
    }
  return 1e9;
}

function gridText(axis: Axis, mm: number, unit: Unit): string {
  const value = mm / mmPer[unit];
  if (axis !== 1) return figure(value, 0).replace('-', '−');
  return `${figure(Math.abs(value), 0)} ${value > 0 ? 'L' : 'R'}`;
}
