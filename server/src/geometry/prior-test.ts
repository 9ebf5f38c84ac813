import type { NetworkPoint } from './distance-network';
import { eigenPairs } from './symmetric';
import { diagonal, dot, scaledMatrix, subtract, sum, type Vec3 } from './vector';

/** Whether a point of an adjusted network stands where it was thought to be known; lengths in the unit of the network. */
export interface PriorTest {
  /** χ² that goes away when the point may move freely, standard χ² for a sound one; 0 where nothing checks it. */
  readonly statistic: number;
  /** Directions in which the rest of the network checks the point: 0 to 3. */
  readonly degreesOfFreedom: number;
  /** How far from its prior place the rest of the network has it, 0 along what nothing checks. */
  readonly shift: Vec3;
  /** Standard uncertainty of the shift on each axis. */
  readonly shiftUncertainty: Vec3;
}

/** Share of the prior's variance under which a direction counts as checked by nothing. */
const unchecked = 0.01;

/**
 * Tests the prior position of a point as an observation of three coordinates (Baarda 1968; Ghilani & Wolf, Adjustment Computations:
 * data snooping). With v = position − prior and Q = prior variance · I − covariance, the statistic is vᵀ Q⁻¹ v, and the prior
 * without itself would be found at prior variance · Q⁻¹ v; both along the directions in which Q is more than 1 % of the prior's.
 *
 * @param prior as it went into the network
 * @param position as adjusted; @param covariance of that position
 */
export function priorTest(
  prior: NetworkPoint,
  position: Vec3,
  covariance: readonly [Vec3, Vec3, Vec3],
): PriorTest {
  const none: PriorTest = {
    statistic: 0,
    degreesOfFreedom: 0,
    shift: [0, 0, 0],
    shiftUncertainty: [0, 0, 0],
  };
  const variance = prior.priorVariance;
  if (!(variance > 0)) return none;
  const correction = subtract(position, prior.position);
  const left = sum(diagonal(variance), scaledMatrix(covariance, -1));
  let statistic = 0;
  let degreesOfFreedom = 0;
  const shift: [number, number, number] = [0, 0, 0];
  const shiftVariance: [number, number, number] = [0, 0, 0];
  for (const { value, vector } of eigenPairs(left)) {
    if (value < unchecked * variance) continue;
    const along = dot(correction, vector);
    statistic += along ** 2 / value;
    degreesOfFreedom++;
    for (const k of [0, 1, 2] as const) {
      shift[k] += (variance / value) * along * vector[k];
      shiftVariance[k] += (variance ** 2 / value) * vector[k] ** 2;
    }
  }
  const [x, y, z] = shiftVariance;
  return { statistic, degreesOfFreedom, shift, shiftUncertainty: [Math.sqrt(x), Math.sqrt(y), Math.sqrt(z)] };
}
