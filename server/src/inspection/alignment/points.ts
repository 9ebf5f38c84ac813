import { variancesAt } from '../../geometry/motion-covariance';
import { movedVector } from '../../geometry/rigid-motion';
import { subtract, type Vec3 } from '../../geometry/vector';
import { type Axis, type Point, referenceVariance } from '../../model/chassis';
import type { Reading } from '../../model/job';
import type { Displacement } from './displacements';
import type { ByOthers, JudgingFrame } from './judging-frame';
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
  /** Only of a point that helped to align the stage without being a control point: how far it is believed, 0 to 1. */
  readonly witness?: number;
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

const nothingMore: Pick<JudgedPoint, 'best' | 'witness'> = {};

/** What is known too badly is no figure: null where it is not known at all. */
const isFigure = (deviation: MaybeVec3, uncertainty: MaybeVec3, k: Axis): boolean => {
  const mm = deviation[k];
  return mm === null || isKnownLength(mm, uncertainty[k] ?? Number.POSITIVE_INFINITY);
};

const areFigures = (deviation: MaybeVec3, uncertainty: MaybeVec3): boolean =>
  isFigure(deviation, uncertainty, 0) &&
  isFigure(deviation, uncertainty, 1) &&
  isFigure(deviation, uncertainty, 2);

/** Null on every axis that is known too badly. */
function onlyKnown({ measured, deviation, uncertainty, alignmentVariance }: Figures): Figures {
  const known = (values: MaybeVec3): MaybeVec3 =>
    mapAxes((k) => (isFigure(deviation, uncertainty, k) ? values[k] : null));
  return {
    measured: measured && known(measured),
    deviation: known(deviation),
    uncertainty: known(uncertainty),
    alignmentVariance: known(alignmentVariance),
  };
}

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
  readonly best?: JudgedPoint['best'];
  readonly witness?: number;

  constructor(
    {
      id,
      point,
      reading,
      contradictory,
    }: Pick<PreparedReading, 'id' | 'point' | 'reading' | 'contradictory'>,
    readonly inBase: boolean,
    { measured, deviation, uncertainty, alignmentVariance }: Figures,
    { best, witness }: Pick<JudgedPoint, 'best' | 'witness'> = nothingMore,
  ) {
    if (best !== undefined) this.best = best;
    if (witness !== undefined) this.witness = witness;
    // points are what a check makes most of: nothing is made for one of which all is known
    if (areFigures(deviation, uncertainty)) {
      this.measured = measured;
      this.deviation = deviation;
      this.uncertainty = uncertainty;
      this.alignmentVariance = alignmentVariance;
    } else {
      const known = onlyKnown({ measured, deviation, uncertainty, alignmentVariance });
      this.measured = known.measured;
      this.deviation = known.deviation;
      this.uncertainty = known.uncertainty;
      this.alignmentVariance = known.alignmentVariance;
    }
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

/**
 * Judges every reading of an aligned stage.
 * @param displacements of the readings, one for one, by this alignment
 * @param ownBase what the alignment rests on counts here, false where it was taken over
 */
export function judgedPoints(
  frame: JudgingFrame,
  readings: readonly PreparedReading[],
  displacements: readonly Displacement[],
  ownBase: boolean,
): JudgedPoint[] {
  return readings.map((prepared, i) => {
    const byOthers = ownBase ? frame.byOthers(prepared.id) : null;
    return byOthers === null
      ? judgedByFrame(frame, prepared, displacements[i])
      : judgedByOthers(byOthers, prepared, displacements[i]);
  });
}

/** Every point's displacement by the alignment, base points too: what shapes of parts are computed from. */
export function displacementsOf(frame: JudgingFrame, readings: readonly PreparedReading[]): Displacement[] {
  return readings.map(({ point, measured, variance }) => {
    const place = movedVector(frame, measured);
    return {
      point,
      measured: place,
      shift: subtract(place, point.reference),
      variance: variance + point.uncertaintyMm ** 2,
    };
  });
}

function judgedByFrame(
  { doubt }: JudgingFrame,
  prepared: PreparedReading,
  displacement: Displacement,
): JudgedPoint {
  const { point, variance } = prepared;
  const shared = variancesAt(doubt, point.reference);
  return new PointJudged(prepared, false, {
    measured: displacement.measured,
    deviation: displacement.shift,
    uncertainty: [
      Math.sqrt(variance + referenceVariance(point, 0) + shared[0]),
      Math.sqrt(variance + referenceVariance(point, 1) + shared[1]),
      Math.sqrt(variance + referenceVariance(point, 2) + shared[2]),
    ],
    alignmentVariance: shared,
  });
}

function judgedByOthers(
  { inBase, witness, off, shared, known }: ByOthers,
  prepared: PreparedReading,
  { measured }: Displacement,
): JudgedPoint {
  const own = ownVariances(prepared);
  const figures = {
    measured,
    deviation: mapAxes((k) => (known[k] ? off[k] : null)),
    uncertainty: mapAxes((k) => (known[k] ? Math.sqrt(own[k] + shared[k]) : null)),
    alignmentVariance: mapAxes((k) => (known[k] ? shared[k] : null)),
  };
  return new PointJudged(prepared, inBase, figures, witness === null ? {} : { witness });
}

/** u(reading)² + u(reference)² of each axis: a reference may be known better along one than along another. */
const ownVariances = ({ point, variance }: PreparedReading): Vec3 => [
  variance + referenceVariance(point, 0),
  variance + referenceVariance(point, 1),
  variance + referenceVariance(point, 2),
];

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
