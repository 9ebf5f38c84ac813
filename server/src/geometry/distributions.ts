import quantile from '@stdlib/stats-base-dists-chisquare-quantile';
import quantileOfF from '@stdlib/stats-base-dists-f-quantile';
import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { MostRecent } from '../memory/most-recent';

/** Φ(z): the chance that a standard normal value is at most z. */
export const normalCdf = (z: number): number => (z > certain ? 1 : cdf(z, 0, 1));

/** From here on Φ(z) is 1 to the last digit that a number holds. */
const certain = 8.3;

/**
 * A quantile takes an iteration, and the same few are asked for again and again: by probability, then by degrees of freedom. Probabilities come
 * from a few places in the code, shared out among numbers of cuts.
 */
type Quantiles<Key> = MostRecent<number, MostRecent<Key, number>>;
const rememberedQuantiles = 200;
const chiSquares: Quantiles<number> = new MostRecent(rememberedQuantiles);
const ofF: Quantiles<string> = new MostRecent(rememberedQuantiles);

/**
 * The value that a χ² variable with so many degrees of freedom stays under with this probability.
 * @param degreesOfFreedom above 0, need not be whole
 * @throws RangeError for a probability outside [0, 1) or degrees of freedom that are not above 0
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  return remembered(chiSquares, probability, degreesOfFreedom, () => {
    requireQuestion(probability, [degreesOfFreedom]);
    return quantile(probability, degreesOfFreedom);
  });
}

/**
 * The value that the ratio of two mean squares stays under with this probability, where both have the same variance.
 * @param numerator degrees of freedom of the mean square above the line, above 0; @param denominator of that below
 * @throws RangeError for a probability outside [0, 1) or degrees of freedom that are not above 0
 */
export function fQuantile(probability: number, numerator: number, denominator: number): number {
  return remembered(ofF, probability, `${numerator} ${denominator}`, () => {
    requireQuestion(probability, [numerator, denominator]);
    return quantileOfF(probability, numerator, denominator);
  });
}

function requireQuestion(probability: number, degreesOfFreedom: readonly number[]): void {
  if (!(probability >= 0 && probability < 1)) {
    throw new RangeError(`A probability must be in [0, 1), not ${probability}.`);
  }
  for (const each of degreesOfFreedom)
    if (!(each > 0 && Number.isFinite(each))) {
      throw new RangeError(`Degrees of freedom must be above 0, not ${each}.`);
    }
}

const remembered = <Key>(known: Quantiles<Key>, probability: number, key: Key, make: () => number): number =>
  known.remembered(probability, () => new MostRecent<Key, number>(rememberedQuantiles)).remembered(key, make);
