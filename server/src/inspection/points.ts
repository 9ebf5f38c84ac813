import { type DeletedResidual, deletedResidual } from '../geometry/deleted-residual';
import { variancesAt } from '../geometry/motion-covariance';
import { movedVector } from '../geometry/rigid-motion';
import { type Mat3, subtract, type Vec3 } from '../geometry/vector';
import type { Axis, Point } from '../model/chassis';
import type { Reading } from '../model/job';
import type { BaseFit } from './control-points';
import type { Displacement } from './displacements';
import type { PreparedReading } from './prepared';
import { conformity, type Judgement, type Verdict, verdictOf } from './verdict';

export type MaybeVec3 = readonly [number | null, number | null, number | null];
export const unknownVec3: MaybeVec3 = [null, null, null];

/** One point of one stage, judged. Vehicle axes, mm. */
export interface JudgedPoint {
  readonly id: string;
  readonly point: Point;
  readonly reading: Reading;
  readonly inBase: boolean;
  readonly measured: MaybeVec3 | null;
  readonly deviation: MaybeVec3;
  readonly uncertainty: MaybeVec3;
  /** Standard uncertainty of the alignment's share, mm; null where there is none. */
  readonly alignmentDoubt: MaybeVec3;
  readonly conformity: MaybeVec3;
  readonly verdict: Verdict;
  /** Tram-only: the direction known best, a unit vector, and its standard uncertainty. */
  readonly best?: { readonly direction: Vec3; readonly uncertaintyMm: number };
}

type Measured = Pick<JudgedPoint, 'deviation' | 'uncertainty' | 'point'>;

export const judgementsOf = (judged: Measured): [Judgement, Judgement, Judgement] => [
  judgementOn(judged, 0),
  judgementOn(judged, 1),
  judgementOn(judged, 2),
];

const judgementOn = ({ deviation, uncertainty, point }: Measured, k: Axis): Judgement => ({
  deviationMm: deviation[k],
  uncertaintyMm: uncertainty[k],
  limits: point.limits[k],
});

const judgeableLimit = 0.01;

/** Judges every reading of an aligned stage. `ownBase`: the base counts its members here, false where the alignment was taken over. */
export function judgedPoints(
  base: BaseFit,
  readings: readonly PreparedReading[],
  ownBase: boolean,
): JudgedPoint[] {
  const indexInBase = new Map(ownBase ? base.members.map((member, i) => [member.id, i]) : []);
  return readings.map((prepared) => {
    const index = indexInBase.get(prepared.id);
    return index === undefined ? judgedByBase(base, prepared) : judgedByOthers(base, prepared, index);
  });
}

/** Every point's displacement by the alignment, base points too: what shapes of parts are computed from. */
export function displacementsOf(base: BaseFit, readings: readonly PreparedReading[]): Displacement[] {
  return readings.map(({ point, measured, variance }) => {
    const position = placed(base, measured);
    return {
      point,
      measured: position,
      shift: subtract(position, point.reference),
      variance: variance + point.uncertaintyMm ** 2,
    };
  });
}

/** An instrument's reading in vehicle axes. */
const placed = ({ fit }: BaseFit, reading: Vec3): Vec3 =>
  movedVector(fit as unknown as { rotation: Mat3; translation: Vec3 }, reading);

function judgedByBase(base: BaseFit, prepared: PreparedReading): JudgedPoint {
  const { point } = prepared;
  const measured = placed(base, prepared.measured);
  const [x, y, z] = variancesAt(base.scatteredMotion, point.reference);
  const variance = prepared.variance + point.uncertaintyMm ** 2;
  return judged(
    prepared,
    false,
    measured,
    subtract(measured, point.reference),
    [Math.sqrt(variance + x), Math.sqrt(variance + y), Math.sqrt(variance + z)],
    [Math.sqrt(x), Math.sqrt(y), Math.sqrt(z)],
  );
}

function judgedByOthers(base: BaseFit, prepared: PreparedReading, index: number): JudgedPoint {
  const { point } = prepared;
  const others = residualFromOthers(base, index);
  const known = (k: 0 | 1 | 2) => others.unjudgeable[k][k] <= judgeableLimit;
  const variance = prepared.variance + point.uncertaintyMm ** 2;
  return judged(
    prepared,
    true,
    placed(base, prepared.measured),
    mapAxes((k) => (known(k) ? others.residual[k] : null)),
    mapAxes((k) => (known(k) ? Math.sqrt(variance + others.covariance[k][k]) : null)),
    mapAxes((k) => (known(k) ? Math.sqrt(others.covariance[k][k]) : null)),
  );
}

const residualFromOthers = (
  { measured, references, weights, fit, motion }: BaseFit,
  index: number,
): DeletedResidual => deletedResidual(measured, references, weights, fit, motion, index);

function judged(
  { id, point, reading }: Pick<PreparedReading, 'id' | 'point' | 'reading'>,
  inBase: boolean,
  measured: MaybeVec3 | null,
  deviation: MaybeVec3,
  uncertainty: MaybeVec3,
  alignmentDoubt: MaybeVec3,
): JudgedPoint {
  const judgements = judgementsOf({ deviation, uncertainty, point });
  const chances = [conformity(judgements[0]), conformity(judgements[1]), conformity(judgements[2])] as const;
  return {
    id,
    point,
    reading,
    inBase,
    measured,
    deviation,
    uncertainty,
    alignmentDoubt,
    conformity: chances,
    verdict: verdictOf(judgements, chances),
  };
}

/** A point that was read in a stage without a usable alignment: nothing is known of it. */
export const unjudgedPoint = (prepared: Pick<PreparedReading, 'id' | 'point' | 'reading'>): JudgedPoint =>
  judged(prepared, false, null, unknownVec3, unknownVec3, unknownVec3);

export const judgedPoint = judged;

export const mapAxes = <T>(value: (k: 0 | 1 | 2) => T): readonly [T, T, T] => [value(0), value(1), value(2)];
