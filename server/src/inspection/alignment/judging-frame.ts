import type { MotionDoubt } from '../../geometry/motion-covariance';
import type { Mat3, Vec3 } from '../../geometry/vector';
import { type BaseFit, residualFromOthers } from './control-points';

/** The motion from the instrument's frame to vehicle axes by which the points of a stage are judged, and what it leaves uncertain. */
export interface JudgingFrame {
  readonly rotation: Mat3;
  readonly translation: Vec3;
  readonly doubt: MotionDoubt;
  /** A point that took part is judged by what it had no part in; null for one that took none. */
  readonly byOthers: (id: string) => ByOthers | null;
}

export interface ByOthers {
  readonly inBase: boolean;
  /** How far a witness is believed, 0 to 1; null for a control point. */
  readonly witness: number | null;
  /** Deviation, mm, and the variance that the others leave in it, mm². */
  readonly off: Vec3;
  readonly shared: Vec3;
  /** The axes that the others hold. */
  readonly known: readonly [boolean, boolean, boolean];
}

const judgeableLimit = 0.01;
const onEach = <T>(value: (k: 0 | 1 | 2) => T): readonly [T, T, T] => [value(0), value(1), value(2)];

/** The frame that control points give by themselves. */
export function frameOfBase(base: BaseFit): JudgingFrame {
  const { rotation, translation } = base.fit;
  const indexById = new Map(base.members.map((member, i) => [member.id, i]));
  return {
    rotation,
    translation,
    doubt: base.scatteredMotion,
    byOthers: (id) => {
      const index = indexById.get(id);
      return index === undefined ? null : memberByOthers(base, index);
    },
  };
}

export function memberByOthers(base: BaseFit, index: number): ByOthers {
  const { residual, covariance, unjudgeable } = residualFromOthers(base, index);
  return {
    inBase: true,
    witness: null,
    off: residual,
    shared: onEach((k) => covariance[k][k]),
    known: onEach((k) => unjudgeable[k][k] <= judgeableLimit),
  };
}
