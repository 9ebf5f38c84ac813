import { derived } from '../../memory/derived';
import type { Axis, Chassis, Point } from '../../model/chassis';

/**
 * Names tell which way the car faces: of two points whose names differ in one word alone, the front one stands ahead of the rear one.
 * Names without such a pair tell nothing.
 */
const opposites: readonly (readonly [positive: string, negative: string, axis: Axis])[] = [
  ['front', 'rear', 0],
  ['fore', 'aft', 0],
  ['upper', 'lower', 2],
  ['left', 'right', 1],
];

/** Nearer than this two points say nothing of a direction, mm. */
const leastApartMm = 10;

export interface NamePair {
  readonly axis: Axis;
  /** The one that should stand ahead, to the left or above, and the other. */
  readonly positive: Point;
  readonly negative: Point;
}

export type Reversal =
  /** Two pairs at least, and all of them reversed: the axis counts the other way. */
  | { readonly kind: 'axis'; readonly axis: Axis; readonly pairs: readonly NamePair[] }
  /** One among right ones. `right`: axes of which pairs are known, and none is reversed. */
  | { readonly kind: 'pairs'; readonly pairs: readonly NamePair[]; readonly right: readonly Axis[] }
  | { readonly kind: 'none'; readonly right: readonly Axis[] };

/** The pairs of a body whose positions contradict their names. */
export const reversedPairs = derived((chassis: Chassis): Reversal => {
  const pairs = [...pairsOf(chassis), ...sidesOf(chassis)];
  const right: Axis[] = [];
  const single: NamePair[] = [];
  for (const axis of [0, 2, 1] as const) {
    const along = pairs.filter((pair) => pair.axis === axis);
    const reversed = along.filter(isReversed);
    if (reversed.length === 0 && along.length > 0) right.push(axis);
    if (reversed.length >= 2 && reversed.length === along.length)
      return { kind: 'axis', axis, pairs: reversed };
    if (reversed.length === 1 && along.length > 1) single.push(...reversed);
  }
  return single.length > 0 ? { kind: 'pairs', pairs: single, right } : { kind: 'none', right };
});

const isReversed = ({ axis, positive, negative }: NamePair): boolean =>
  positive.reference[axis] < negative.reference[axis];

/** Left and right points that stand apart in the file: one position that is mirrored tells nothing. */
function sidesOf({ points }: Chassis): NamePair[] {
  return [...points.values()].flatMap((left): NamePair[] => {
    const right = left.side === 'L' ? points.get(`${left.name}.R`) : undefined;
    if (right === undefined || left.reference[1] === 0 - right.reference[1]) return [];
    const apart = Math.abs(left.reference[1] - right.reference[1]);
    return apart < leastApartMm ? [] : [{ axis: 1, positive: left, negative: right }];
  });
}

/** One of each name: of a point on both sides the left one. Nearer than so on their axis two say nothing of a direction. */
const pairsOf = ({ points }: Chassis): NamePair[] => {
  const byName = new Map<string, Point>();
  for (const point of points.values()) if (!byName.has(point.name)) byName.set(point.name, point);
  return namePairs([...byName.values()]).filter(
    ({ axis, positive, negative }) =>
      Math.abs(positive.reference[axis] - negative.reference[axis]) >= leastApartMm,
  );
};

/** Points whose names differ in one word, and it speaks of an axis; of points with different names. */
export function namePairs(points: readonly Point[]): NamePair[] {
  const byName = new Map(points.map((point) => [point.name, point]));
  return points.flatMap((positive) => {
    const words = positive.name.split('-');
    return words.flatMap((word, i) =>
      opposites.flatMap(([ahead, behind, axis]): NamePair[] => {
        if (word !== ahead) return [];
        const negative = byName.get(words.map((each, k) => (k === i ? behind : each)).join('-'));
        return negative === undefined || negative.side !== positive.side
          ? []
          : [{ axis, positive, negative }];
      }),
    );
  });
}
