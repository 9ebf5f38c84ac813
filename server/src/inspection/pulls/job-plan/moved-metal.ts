import { chiSquareQuantile } from '../../../geometry/distributions';
import type { MovedPoints } from '../../../geometry/motion-agreement';
import { rigidFit } from '../../../geometry/rigid-motion';
import type { Chassis, Point } from '../../../model/chassis';
import type { PlannedPart } from '../plan';

/** What of a part stands beyond its straight metal, as points that moved. */
export interface MovedMetal {
  readonly plan: PlannedPart;
  /** The points there, in the order of the stage. */
  readonly points: readonly Point[];
  /** The same with 1/u²: of reading and reference, and of how sound cars vary there. */
  readonly moved: MovedPoints;
  /** One rigid motion explains them; else they were bent besides, and their motion is as much less certain. */
  readonly isRigid: boolean;
}

/** That a part has moved as one body is doubted from here on. */
const rigidAt = 0.99;

/** Beyond the bend; where no single bend is known, from the first point outside tolerance to the last. */
export function movedMetal(plan: PlannedPart, { buildElsewhereMm }: Chassis): MovedMetal {
  const outside = new Set(plan.moves.flatMap(({ point, verdict }) => (verdict === 'outside' ? [point] : [])));
  const isBeyond = beyondIn(plan, [...outside]);
  const read = plan.stage.displacements.filter(({ point }) => point.part === plan.part.id);
  const beyond = read.filter(({ point }) => outside.has(point) || isBeyond(point));
  const moved: MovedPoints = {
    from: beyond.map(({ point }) => point.reference),
    to: beyond.map(({ measured }) => measured),
    weights: beyond.map(({ variance }) => 1 / (variance + buildElsewhereMm ** 2)),
  };
  const factor = scatterFactor(moved);
  return {
    plan,
    points: beyond.map(({ point }) => point),
    moved: factor === 1 ? moved : { ...moved, weights: moved.weights.map((weight) => weight / factor) },
    isRigid: factor === 1,
  };
}

/** What of the metal was moved, by its place along the part. */
function beyondIn({ hold, part }: PlannedPart, outside: readonly Point[]): (point: Point) => boolean {
  const at = ({ reference }: Point): number => reference[part.along];
  if (hold.kind === 'before-bend') return (point) => hold.place.towards * (at(point) - hold.bendMm) < 0;
  const [first, last] = [Math.min(...outside.map(at)), Math.max(...outside.map(at))];
  return (point) => at(point) >= first && at(point) <= last;
}

/** Birge's ratio: χ² over its degrees of freedom where one rigid motion does not explain the points (Birge 1932). */
function scatterFactor({ from, to, weights }: MovedPoints): number {
  const degreesOfFreedom = 3 * from.length - 6;
  if (degreesOfFreedom <= 0) return 1;
  const { chiSquare } = rigidFit(from, to, weights);
  return chiSquare > chiSquareQuantile(rigidAt, degreesOfFreedom) ? chiSquare / degreesOfFreedom : 1;
}
