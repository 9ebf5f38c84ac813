import { type BrokenLine, Offsets } from '../../server/src/geometry/broken-line';
import { inOneRow } from './generalised-least-squares';

/** The broken line of some offsets, from a covariance as rows. */
export const brokenLineFit = (
  positions: readonly number[],
  offsets: readonly (readonly [number, number])[],
  covariance: readonly (readonly number[])[],
): BrokenLine | null => new Offsets(positions, offsets, inOneRow(covariance)).brokenLine();
