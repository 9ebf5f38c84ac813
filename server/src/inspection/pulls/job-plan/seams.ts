import type { Part } from '../../../model/chassis';
import type { Inspection } from '../../job/inspect';
import type { MovedMetal } from './moved-metal';
import { joinedTo, nearestPair, pointsOfPart } from './neighbours';

/** A seam of a pulled part to one that is not pulled with it. */
export interface OpeningSeam {
  readonly part: Part;
  readonly to: Part;
  /** The point of the other part that stands nearest to the metal that moves. */
  readonly nearId: string;
}

/** Where a joined part stays behind, the seam between them opens. */
export function openingSeams(inspection: Inspection, metals: readonly MovedMetal[]): OpeningSeam[] {
  const { chassis } = inspection;
  const joined = joinedTo(inspection);
  const pulled = new Set(metals.map(({ plan }) => plan.part.id));
  return metals.flatMap(({ plan: { part }, points }) =>
    [...(joined.get(part.id) ?? [])].flatMap((id): OpeningSeam[] => {
      const to = chassis.parts.get(id);
      const pair = nearestPair(points, pointsOfPart(chassis).get(id) ?? []);
      return to === undefined || pair === null || pulled.has(id) ? [] : [{ part, to, nearId: pair.to.id }];
    }),
  );
}
