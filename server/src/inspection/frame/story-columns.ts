import type { FramePoint } from './frame-points';
import type { Told } from './story-kinds';

/** What a story does to one list of points, laid out in numbers: it depends on their places alone, so it outlives the readings. */
export interface LaidOut {
  readonly told: Told;
  /** The points that it moves, by where they stand in the list, ascending. */
  readonly touched: Int32Array;
  /** Of each of them in turn its displacement by each unknown, x, y, z. */
  readonly columns: Float64Array;
}

export function laidOut(told: Told, points: readonly FramePoint[]): LaidOut {
  const touched: number[] = [];
  const columns: number[] = [];
  points.forEach((point, i) => {
    const each = told.columns(point, i);
    if (each === null) return;
    touched.push(i);
    for (const column of each) columns.push(...column);
  });
  return { told, touched: Int32Array.from(touched), columns: Float64Array.from(columns) };
}
