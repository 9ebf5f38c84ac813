import type { Vec3 } from '../../geometry/vector';

/** Repeats of one reading that cannot all be right (server/README.md, "Deviation and verdict"). */

type Range = readonly [low: number, high: number];

export function rangeOf(figures: readonly number[]): Range {
  let [low, high] = [figures[0], figures[0]];
  for (const each of figures) {
    low = Math.min(low, each);
    high = Math.max(high, each);
  }
  return [low, high];
}

/** How far repeats reach, by which of the instrument's three numbers. */
export const rangesOf = (triples: readonly Vec3[]): readonly [Range, Range, Range] => [
  rangeOf(triples.map((triple) => triple[0])),
  rangeOf(triples.map((triple) => triple[1])),
  rangeOf(triples.map((triple) => triple[2])),
];

/** Readings are typed to a tenth or less: rounding noise is no spread. */
export const differTooMuch = ([low, high]: Range, allowedMm: number): boolean =>
  high - low > allowedMm + 1e-9;

/**
 * The largest range of repeats that contradict each other, mm; 0 where they agree. One of them is wrong and nobody knows which: of
 * two, the mean is then off by half of it.
 */
export const contradictionMm = (ranges: readonly Range[], allowedMm: number): number =>
  ranges.reduce(
    (largest, range) => (differTooMuch(range, allowedMm) ? Math.max(largest, range[1] - range[0]) : largest),
    0,
  );
