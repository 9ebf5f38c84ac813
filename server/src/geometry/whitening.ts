import { requireSameLength } from './inputs';
import { factored, whiten } from './positive-definite';

/** Takes columns of values with a covariance, one after the other, in their place to values with covariance I. */
export type Whitener = (columns: Float64Array) => void;

/**
 * @param covariance count × count, row after row
 * @throws RangeError for a wrong size, or a covariance that is not finite and positive definite
 */
export function byCovariance(covariance: Float64Array, count: number): Whitener {
  requireSameLength('Covariance', count * count, covariance.length);
  const factors = factored(covariance, count);
  if (!factors) throw new RangeError('Covariance: not positive definite.');
  return (columns) => whiten(factors, columns);
}
