import { moved, rigidFit } from '../../server/src/geometry/rigid-motion';
import { subtract, type Vec3 } from '../../server/src/geometry/vector';
import { generalisedLeastSquares } from '../published/generalised-least-squares';

/**
 * Whether some placement of a body brings every one of these points within a tolerance of its reference on each axis: the least largest
 * deviation over all rigid motions is no more than it. Lawson's iteration: weights grow with what is left, and the root of the weighted
 * mean square never exceeds the least largest deviation, so that most cases are decided in a few steps. Motions are linearised about
 * the best fit by least squares, which is right to hundredths of a millimetre for turns under half a degree from there. Lawson 1961.
 */
export function fitsWithin(
  positions: readonly Vec3[],
  references: readonly Vec3[],
  toleranceMm: number,
): boolean {
  const fit = rigidFit(
    positions,
    references,
    positions.map(() => 1),
  );
  const placed = positions.map((position) => moved(fit, position) as unknown as Vec3);
  const design = placed.flatMap(([x, y, z]) => [
    [1, 0, 0, 0, z / armMm, -y / armMm],
    [0, 1, 0, -z / armMm, 0, x / armMm],
    [0, 0, 1, y / armMm, -x / armMm, 0],
  ]);
  const needed = placed.flatMap((position, i) => subtract(references[i], position));
  let weights = needed.map(() => 1 / needed.length);
  for (let step = 0; step < mostSteps; step++) {
    const variances = weights.map((weight) => 1 / Math.max(weight, 1e-9));
    const left = generalisedLeastSquares(design, needed, variances).residuals.map(Math.abs);
    if (Math.max(...left) <= toleranceMm) return true;
    const total = weights.reduce((sum, weight, i) => sum + weight * left[i] ** 2, 0);
    if (total > toleranceMm ** 2) return false;
    const grown = weights.map((weight, i) => weight * left[i]);
    const sum = grown.reduce((a, b) => a + b, 0);
    weights = grown.map((weight) => weight / sum);
  }
  // so near the edge that it is neither: it counts as having left the tolerance
  return false;
}

/** Angles in thousandths, so that columns are alike in size. */
const armMm = 1000;
const mostSteps = 1000;
