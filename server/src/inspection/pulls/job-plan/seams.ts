import type { Part, Point } from '../../../model/chassis';
import type { Inspection } from '../../job/inspect';
import type { PlannedHold } from '../plan-hold';
import type { MovedMetal } from './moved-metal';
import { joinedTo, nearestPair, pointsOfPart } from './neighbours';

/** A seam of a pulled part to one that is not pulled with it. */
export interface OpeningSeam {
  readonly part: Part;
  readonly to: Part;
  /** The point of the other part that stands nearest to the metal that moves. */
  readonly nearId: string;
}

/** Where a joined part stays behind, the seam between them opens, unless all of that part stands beside metal that is held and does not move. */
export function openingSeams(inspection: Inspection, metals: readonly MovedMetal[]): OpeningSeam[] {
  const { chassis } = inspection;
  const joined = joinedTo(inspection);
  const pulled = new Set(metals.map(({ plan }) => plan.part.id));
  return metals.flatMap(({ plan: { part, hold }, points }) =>
    [...(joined.get(part.id) ?? [])].flatMap((id): OpeningSeam[] => {
      const to = chassis.parts.get(id);
      const beside = (pointsOfPart(chassis).get(id) ?? []).filter((point) => !isHeld(part, hold, point));
      const pair = nearestPair(points, beside);
      return to === undefined || pair === null || pulled.has(id) ? [] : [{ part, to, nearId: pair.to.id }];
    }),
  );
}

/** Beside what of a part lies on the base's side of its hold. */
const isHeld = ({ along }: Part, hold: PlannedHold, { reference }: Point): boolean =>
  hold.kind === 'before-bend' && hold.place.towards * (reference[along] - hold.place.atMm) >= 0;
