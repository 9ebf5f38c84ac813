import type { Axis, Point } from '../../model/chassis';
import { groupedAlong, levelSeparationMm } from './stations';

/** Two points of one side in one station of a part, one well above the other: only such a pair shows a twist. */
export interface Levels<T> {
  readonly lower: T;
  readonly upper: T;
}

/**
 * All pairs of levels among points of one part, station by station. A part that runs along the height has none: its stations
 * are level by themselves.
 */
export function levelsOf<T extends { readonly point: Point }>(items: readonly T[], along: Axis): Levels<T>[] {
  const pairs: Levels<T>[] = [];
  for (const station of groupedAlong(items, along))
    for (let i = 0; i < station.length; i++)
      for (let j = i + 1; j < station.length; j++) {
        const [a, b] = [station[i], station[j]];
        const apart = b.point.reference[2] - a.point.reference[2];
        if (a.point.side !== b.point.side || Math.abs(apart) <= levelSeparationMm) continue;
        pairs.push(apart > 0 ? { lower: a, upper: b } : { lower: b, upper: a });
      }
  return pairs;
}
