import type { SmallMotion } from '../../geometry/small-motion';
import { add, length, type Mat3, product, subtract, transformed, type Vec3 } from '../../geometry/vector';
import type { ElsewhereScatter, FramePoint, WitnessGroup } from './frame-points';
import { type PossibleWitness, witnessGroups } from './groups';
import { type JoinedFit, joinedFit } from './joined';
import { type Weighing, weighed } from './witnesses';

/** A motion from the instrument's frame to vehicle axes. */
export interface Placing {
  readonly rotation: Mat3;
  readonly translation: Vec3;
}

/** A point of a stage before it is placed. */
export interface ReadPoint extends Omit<FramePoint, 'off'> {
  /** In the instrument's frame, mm. */
  readonly measured: Vec3;
}

export interface ReadWitness {
  readonly point: ReadPoint;
  readonly partName: string | null;
}

/** What a base and all around it say of the frame together; deviations are by `placing`, which is near the joined fit. */
export interface StageFrame {
  readonly base: readonly FramePoint[];
  readonly groups: readonly WitnessGroup[];
  readonly factor: number;
  /** Null without witnesses. */
  readonly weighing: Weighing | null;
  readonly joined: JoinedFit | null;
  /** The frame of the joined fit. */
  readonly placing: Placing;
}

/** Turns that are smaller than this, rad, change no figure by a linear step; after larger ones everything is placed anew. */
const smallTurn = 3e-4;
const mostPlacings = 4;

/**
 * Base and witnesses joined. Null where they do not hold a frame.
 * @param byBase the base's own fit and its Birge factor
 */
export function stageFrame(
  base: readonly ReadPoint[],
  possible: readonly ReadWitness[],
  scatter: ElsewhereScatter,
  byBase: Placing & { readonly factor: number },
): StageFrame | null {
  let placing: Placing = byBase;
  let first: Weighing | null = null;
  for (let round = 1; ; round++) {
    const placed = frameBy(base, possible, scatter, placing, byBase.factor);
    if (placed === null) return null;
    const { joined, weighing } = placed;
    if (joined === null || weighing === null) return { ...placed, placing };
    first ??= weighing;
    placing = withMotion(placing, joined.motion);
    // what the base alone says is said exactly by its own fit
    if (length(joined.motion.turn) < smallTurn || round === mostPlacings)
      return { ...placed, weighing: { ...weighing, byBase: first.byBase }, placing };
  }
}

function frameBy(
  read: readonly ReadPoint[],
  possible: readonly ReadWitness[],
  scatter: ElsewhereScatter,
  placing: Placing,
  factor: number,
): Omit<StageFrame, 'placing'> | null {
  const base = read.map((point) => placedPoint(point, placing));
  const witnesses = possible.map(
    ({ point, partName }): PossibleWitness => ({ point: placedPoint(point, placing), partName }),
  );
  const groups = witnessGroups(base, witnesses);
  if (groups.length === 0) return { base, groups, factor, weighing: null, joined: null };
  const weighing = weighed(base, factor, groups, scatter);
  const joined = weighing && joinedFit(base, factor, groups, weighing);
  return joined && { base, groups, factor, weighing, joined };
}

function placedPoint(
  { id, place, half, measured, variance, name, side }: ReadPoint,
  { rotation, translation }: Placing,
): FramePoint {
  const off = subtract(add(transformed(rotation, measured), translation), place);
  return { id, place, half, off, variance, name, side };
}

/** The motion that takes away what a small motion does, as a real turn about its centroid (Rodrigues). */
function withMotion({ rotation, translation }: Placing, { centroid, shift, turn }: SmallMotion): Placing {
  const angle = length(turn);
  const [x, y, z]: Vec3 = angle > 0 ? [-turn[0] / angle, -turn[1] / angle, -turn[2] / angle] : [1, 0, 0];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const k = 1 - c;
  const back: Mat3 = [
    [c + x * x * k, x * y * k - z * s, x * z * k + y * s],
    [y * x * k + z * s, c + y * y * k, y * z * k - x * s],
    [z * x * k - y * s, z * y * k + x * s, c + z * z * k],
  ];
  const moved = add(transformed(back, subtract(translation, centroid)), subtract(centroid, shift));
  return { rotation: product(back, rotation), translation: moved };
}
