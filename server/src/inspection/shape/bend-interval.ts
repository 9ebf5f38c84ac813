import { normalAndRectangularQuantile } from '../../geometry/normal-and-rectangular';

/**
 * How far before the corner of a broken line metal may begin to bend, mm: half the length of a hinge. The hinge of a thin-walled
 * rectangular tube is about as long as the smaller side of its section (Kecman 1983, from memory); that rails are up to 80 mm there
 * is an estimate of the project.
 */
export const halfHingeMm = 40;

/**
 * Where metal begins to bend, as a 95 % interval about the corner h of a sharp bend (server/README.md, "Where the bend starts").
 *
 * Metal does not bend at a corner: it bends over a length, and where it goes on curving the same way beyond that, the corner of a straight
 * course moves farther out still. So the start lies on the base's side of h, anywhere up to half a hinge with equal chance, and that is
 * folded with what the readings leave in doubt. The uncertainty of the model belongs into the budget: JCGM 100:2008, 3.4.1 and 4.3.7;
 * JCGM 101:2008 for the sum.
 *
 * @param cornerMm h counted away from the base; @param uncertaintyMm u(h), standard
 * @returns the nearer and the farther end, counted alike: never nearer to each other than what holds h and leaves h − 2u out
 */
export function bendStartInterval(cornerMm: number, uncertaintyMm: number): readonly [number, number] {
  const before = (probability: number): number =>
    normalAndRectangularQuantile(probability, Math.max(uncertaintyMm, leastUncertaintyMm), halfHingeMm);
  return [cornerMm - Math.max(before(0.975), 2 * uncertaintyMm), cornerMm - Math.min(before(0.025), 0)];
}

/** No corner is known better, whatever an instrument claims. */
const leastUncertaintyMm = 0.01;
