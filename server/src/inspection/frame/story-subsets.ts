import { eigenPairs } from '../../geometry/symmetric';
import { dot, scaled, subtract, type Vec3, zero } from '../../geometry/vector';
import type { Observations } from './observations';
import {
  chiSquareLimit,
  type Figures,
  freedomLeft,
  type Gain,
  gainOf,
  isSignificant,
  limitByScatter,
  scatterFreedom,
} from './story-gain';
import { shiftOf, type Told } from './story-kinds';
import { type ShiftLimits, subsetsOverLimits } from './subset-search';

/** Up to so many control points every subset is tried: 4,096 solutions of three equations. */
const mostTried = 12;
const smallest = 2;

/** A subset of the control points that the readings say was displaced as one. */
interface SubsetStory {
  readonly told: Told;
  readonly gain: Gain;
  readonly tried: number;
}

/**
 * Every subset of the base, from two points to all but two, as a shift; of more than twelve points those that the direction in which
 * their residuals differ most divides. Without witnesses a subset and the rest are one story, and three must stand.
 */
export function subsetStories(
  observations: Observations,
  figures: Figures,
  hasWitnesses: boolean,
): SubsetStory[] {
  const n = observations.base.length;
  const tried = 2 ** n;
  // no story explains more than there is
  if (observations.chiSquare <= chiSquareLimit(3, tried)) return [];
  const candidates =
    n <= mostTried
      ? searched(observations, tried, hasWitnesses)
      : splits(observations).filter((members) =>
          mayHaveMoved(countOf(members), n - countOf(members), members[0], hasWitnesses),
        );
  return candidates.flatMap((members) => {
    const told = shiftOf({ kind: 'subset' }, members);
    const gain = gainOf(observations, told);
    return gain !== null && isSignificant(gain, 3, tried, figures) ? [{ told, gain, tried }] : [];
  });
}

/** All that pass the limits of χ² and of scatter. */
function searched(observations: Observations, tried: number, hasWitnesses: boolean): boolean[][] {
  const { base, leverage } = observations;
  const n = base.length;
  const limits: ShiftLimits = {
    chiSquare: chiSquareLimit(3, tried),
    byScatter: limitByScatter(3, tried, freedomLeft(n, leverage, 3)),
    knownScatter: scatterFreedom,
  };
  const first = 1 << (n - 1);
  const subsets = subsetsOverLimits(observations, limits, (subset, moved) =>
    mayHaveMoved(moved, n - moved, subset >= first, hasWitnesses),
  );
  return subsets.map((subset) => base.map((_, i) => ((subset >> (n - 1 - i)) & 1) === 1));
}

/** Of two halves without witnesses the one with the first point stands. */
function mayHaveMoved(moved: number, standing: number, movesFirst: boolean, hasWitnesses: boolean): boolean {
  if (moved < smallest || standing < smallest) return false;
  return hasWitnesses || (standing >= 3 && (moved < standing || (moved === standing && !movesFirst)));
}

const countOf = (members: readonly boolean[]): number => members.filter(Boolean).length;

const plus = (a: Vec3, k: number, b: Vec3): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];

/** The points in the order of their residuals along the direction in which these differ most, cut at every place, and either part. */
function splits({ base, residuals }: Observations): boolean[][] {
  const n = base.length;
  const mean = scaled(
    residuals.slice(0, n).reduce((sum, r) => plus(sum, 1, r), zero),
    1 / n,
  );
  const centred = residuals.slice(0, n).map((r) => subtract(r, mean));
  const moment = (a: 0 | 1 | 2): Vec3 => [
    centred.reduce((sum, r) => sum + r[a] * r[0], 0),
    centred.reduce((sum, r) => sum + r[a] * r[1], 0),
    centred.reduce((sum, r) => sum + r[a] * r[2], 0),
  ];
  const [, , largest] = eigenPairs([moment(0), moment(1), moment(2)]);
  const order = centred
    .map((r, i) => ({ i, along: dot(r, largest.vector) }))
    .sort((a, b) => a.along - b.along || a.i - b.i);
  const rank = new Map(order.map(({ i }, position) => [i, position]));
  return Array.from({ length: n - 1 }, (_, cut) => base.map((__, i) => rank.get(i)! <= cut)).flatMap(
    (members) => [members, members.map((member) => !member)],
  );
}
