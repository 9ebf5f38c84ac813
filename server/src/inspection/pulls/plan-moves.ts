import { dot, length, type Vec3 } from '../../geometry/vector';
import type { Point } from '../../model/chassis';
import { type JudgedPoint, type MaybeVec3, mapAxes } from '../alignment/points';
import type { Verdict } from '../alignment/verdict';
import type { Stage } from '../job/stage';

/** How a point of a part still has to go to where it belongs. Vehicle axes, mm; null on an axis of which nothing is known. */
export interface NeededMove {
  readonly id: string;
  readonly point: Point;
  readonly moveMm: MaybeVec3;
  /** Standard. */
  readonly uncertaintyMm: MaybeVec3;
  readonly verdict: Verdict;
}

/** One whose move is known on all three axes. */
export interface FullMove extends NeededMove {
  readonly moveMm: Vec3;
  readonly uncertaintyMm: Vec3;
}

/** Of every point of the part that the stage read, in the order of the text. */
export const neededMoves = (stage: Stage, partId: string): NeededMove[] =>
  stage.points.filter(({ point }) => point.part === partId).map(neededMove);

const neededMove = ({ id, point, deviation, uncertainty, verdict }: JudgedPoint): NeededMove => ({
  id,
  point,
  moveMm: mapAxes((k) => (deviation[k] === null ? null : 0 - deviation[k])),
  uncertaintyMm: uncertainty,
  verdict,
});

export const isFull = (move: NeededMove): move is FullMove =>
  move.moveMm.every((each) => each !== null) && move.uncertaintyMm.every((each) => each !== null);

/** The needed move along a unit vector with its standard uncertainty, mm; the axes counted as independent. */
export const moveAlong = (
  { moveMm, uncertaintyMm }: FullMove,
  direction: Vec3,
): { mm: number; uncertaintyMm: number } => ({
  mm: dot(moveMm, direction),
  uncertaintyMm: length(mapAxes((k) => direction[k] * uncertaintyMm[k])),
});
