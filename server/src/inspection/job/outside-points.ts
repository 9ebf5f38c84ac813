import { derived } from '../../memory/derived';
import type { JudgedPoint } from '../alignment/points';

/** Of the points of a stage those outside their limits: a few of many, which several rules ask for. */
export const outsidePoints = derived((points: readonly JudgedPoint[]): readonly JudgedPoint[] =>
  points.filter(({ verdict }) => verdict === 'outside'),
);
