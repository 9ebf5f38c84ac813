import { normalCdf } from './distributions';
import { requireFinite } from './inputs';

/**
 * Quantile of the sum of a normal value about 0 and one that lies anywhere between 0 and a width with equal chance: the distributions
 * are propagated, not only their standard deviations, since a sum that the rectangle rules is not normal. JCGM 101:2008, 5.
 *
 * @param probability above 0, below 1
 * @param standardDeviation of the normal value, above 0; @param width of the rectangle, above 0, in the same unit
 * @throws RangeError for anything else
 */
export function normalAndRectangularQuantile(
  probability: number,
  standardDeviation: number,
  width: number,
): number {
  requireFinite('Probability, standard deviation, width', [probability, standardDeviation, width]);
  if (!(probability > 0 && probability < 1 && standardDeviation > 0 && width > 0))
    throw new RangeError(
      'A probability lies between 0 and 1; a standard deviation and a width must be above 0.',
    );
  // ∫Φ: the chance that the sum is at most x is the mean of Φ((x − r)/σ) over the rectangle
  const chance = (x: number): number =>
    (standardDeviation / width) *
    (integratedCdf(x / standardDeviation) - integratedCdf((x - width) / standardDeviation));
  let [low, high] = [-farEnough * standardDeviation, width + farEnough * standardDeviation];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (chance(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Beyond so many standard deviations a double holds no chance that is worth asking for. */
const farEnough = 10;

/** ∫ Φ from −∞ to z: z Φ(z) + φ(z). */
const integratedCdf = (z: number): number =>
  z * normalCdf(z) + Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI);
