import { mirroredId, sideOf } from '../../model/names';
import type { JudgedSpan } from '../alignment/spans';

/** Two distances that cross each other, mirror images on a sound body, one of which is longer. */
interface CrossedPair {
  readonly longer: JudgedSpan;
  readonly shorter: JudgedSpan;
  /** By how much more than on the sheet, mm. */
  readonly byMm: number;
  readonly uncertaintyMm: number;
}

/**
 * Pairs of crossed distances that differ by more than 2 u and by more than the limit of either: the body is out of square between their
 * ends (server/README.md, "Tram-only jobs"). Comparing diagonals is common practice in the trade.
 */
export function crossedPairs(spans: readonly JudgedSpan[]): CrossedPair[] {
  const byEnds = new Map(spans.map((span) => [endsOf(span.from, span.to), span]));
  return [...byEnds.values()].flatMap((span) => {
    const crossing = crossingEnds(span);
    const other = crossing === null ? undefined : byEnds.get(crossing);
    // of the two the one that is longer tells
    if (other === undefined || span.deviationMm <= other.deviationMm) return [];
    const byMm = span.deviationMm - other.deviationMm;
    const uncertaintyMm = Math.hypot(span.uncertaintyMm, other.uncertaintyMm);
    const limitMm = Math.max(...[...span.limits, ...other.limits].map(Math.abs));
    return byMm > 2 * uncertaintyMm && byMm > limitMm
      ? [{ longer: span, shorter: other, byMm, uncertaintyMm }]
      : [];
  });
}

const endsOf = (one: string, other: string): string => (one < other ? `${one} ${other}` : `${other} ${one}`);

/** Of a distance from one side to the other, between two names: the ends of its mirror image. */
function crossingEnds({ from, to }: JudgedSpan): string | null {
  const [a, b] = [mirroredId(from), mirroredId(to)];
  if (a === null || b === null || sideOf(from) === sideOf(to) || a === to) return null;
  return endsOf(a, b);
}
