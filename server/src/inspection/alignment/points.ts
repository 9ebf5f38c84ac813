import { variancesAt } from '../../geometry/motion-covariance';
import { movedVector } from '../../geometry/rigid-motion';
import { subtract, type Vec3 } from '../../geometry/vector';
import type { Axis, Point } from '../../model/chassis';
import type { Reading } from '../../model/job';
import { type BaseFit, residualFromOthers } from './control-points';
import type { Displacement } from './displacements';
import { isKnownLength } from './known-figures';
import type { PreparedReading } from './prepared';
import { conformity, type Judgement, type Verdict, verdictOfAxes, withContradiction } from './verdict';

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
  /** Variance of the alignment's share, mm²; null where there is none. */
  readonly alignmentVariance: MaybeVec3;
  readonly conformity: MaybeVec3;
  readonly verdict: Verdict;
  /** The repeats of its reading cannot all be right: it is undecided at best. */
  readonly contradictory: boolean;
  /** Tram-only: the direction known best, a unit vector, and its standard uncertainty. */
  readonly best?: { readonly direction: Vec3; readonly uncertaintyMm: number };
}

/** What one alignment says of a point: its place, how far it is off, and how sure that is. */
type Figures = Pick<JudgedPoint, 'measured' | 'deviation' | 'uncertainty' | 'alignmentVariance'>;

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

/** A point with its verdict; how probably it conforms on each axis is worked out when someone asks for the figure. */
class PointJudged implements JudgedPoint {
  readonly id: string;
  readonly point: Point;
  readonly reading: Reading;
  readonly verdict: Verdict;
  readonly contradictory: boolean;
  readonly measured: MaybeVec3 | null;
  readonly deviation: MaybeVec3;
  readonly uncertainty: MaybeVec3;
  readonly alignmentVariance: MaybeVec3;

  constructor(
    {
      id,
      point,
      reading,
      contradictory,
    }: Pick<PreparedReading, 'id' | 'point' | 'reading' | 'contradictory'>,
    readonly inBase: boolean,
    { measured, deviation, uncertainty, alignmentVariance }: Figures,
    readonly best?: JudgedPoint['best'],
  ) {
    const tooDoubtful = (k: Axis): boolean =>
      deviation[k] !== null && !isKnownLength(deviation[k], uncertainty[k] ?? Number.POSITIVE_INFINITY);
    const someAre = tooDoubtful(0) || tooDoubtful(1) || tooDoubtful(2);
    const onlyKnown = (values: MaybeVec3): MaybeVec3 =>
      someAre ? mapAxes((k) => (tooDoubtful(k) ? null : values[k])) : values;
    this.measured = measured && onlyKnown(measured);
    this.deviation = onlyKnown(deviation);
    this.uncertainty = onlyKnown(uncertainty);
    this.alignmentVariance = onlyKnown(alignmentVariance);
    this.id = id;
    this.point = point;
    this.reading = reading;
    this.contradictory = contradictory;
    this.verdict = withContradiction(
      verdictOfAxes(this.deviation, this.uncertainty, point.limits),
      contradictory,
    );
  }

  get conformity(): MaybeVec3 {
    const [x, y, z] = judgementsOf(this);
    return [conformity(x), conformity(y), conformity(z)];
  }
}

export const judgedPoint = (...known: ConstructorParameters<typeof PointJudged>): JudgedPoint =>
  new PointJudged(...known);

const judgeableLimit = 0.01;

/**
 * Judges every reading of an aligned stage.
 * @param displacements of the readings, one for one, by this alignment
 * @param ownBase the base counts its members here, false where the alignment was taken over
 */
export function judgedPoints(
  base: BaseFit,
  readings: readonly PreparedReading[],
  displacements: readonly Displacement[],
  ownBase: boolean,
): JudgedPoint[] {
  const indexInBase = new Map(ownBase ? base.members.map((member, i) => [member.id, i]) : []);
  return readings.map((prepared, i) => {
    const index = indexInBase.get(prepared.id);
    return index === undefined
      ? judgedByBase(base, prepared, displacements[i])
      : judgedByOthers(base, prepared, displacements[i], index);
  });
}

/** Every point's displacement by the alignment, base points too: what shapes of parts are computed from. */
export function displacementsOf({ fit }: BaseFit, readings: readonly PreparedReading[]): Displacement[] {
  return readings.map(({ point, measured, variance }) => {
    const place = movedVector(fit, measured);
    return {
      point,
      measured: place,
      shift: subtract(place, point.reference),
      variance: variance + point.uncertaintyMm ** 2,
    };
  });
}

function judgedByBase(base: BaseFit, prepared: PreparedReading, displacement: Displacement): JudgedPoint {
  const { measured, shift, variance } = displacement;
  const shared = variancesAt(base.scatteredMotion, prepared.point.reference);
  return new PointJudged(prepared, false, {
    measured,
    deviation: shift,
    uncertainty: [
      Math.sqrt(variance + shared[0]),
      Math.sqrt(variance + shared[1]),
      Math.sqrt(variance + shared[2]),
    ],
    alignmentVariance: shared,
  });
}

function judgedByOthers(
  base: BaseFit,
  prepared: PreparedReading,
  { measured, variance }: Displacement,
  index: number,
): JudgedPoint {
  const { residual, covariance, unjudgeable } = residualFromOthers(base, index);
  const known = (k: 0 | 1 | 2) => unjudgeable[k][k] <= judgeableLimit;
  return new PointJudged(prepared, true, {
    measured,
    deviation: mapAxes((k) => (known(k) ? residual[k] : null)),
    uncertainty: mapAxes((k) => (known(k) ? Math.sqrt(variance + covariance[k][k]) : null)),
    alignmentVariance: mapAxes((k) => (known(k) ? covariance[k][k] : null)),
  });
}

const nothingKnown: Figures = {
  measured: null,
  deviation: unknownVec3,
  uncertainty: unknownVec3,
  alignmentVariance: unknownVec3,
};

/** A point that was read in a stage without a usable alignment: nothing is known of it. */
export const unjudgedPoint = (
  prepared: Pick<PreparedReading, 'id' | 'point' | 'reading' | 'contradictory'>,
): JudgedPoint => new PointJudged(prepared, false, nothingKnown);

export const mapAxes = <T>(value: (k: 0 | 1 | 2) => T): readonly [T, T, T] => [value(0), value(1), value(2)];
