import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add } from '../../../server/src/geometry/vector';
import { jobRandom, normalVec3 } from '../random';
import { damageKinds, planDamage } from './damage';
import { planIn, views } from './views';
import { world } from './world';

/** What is off on a damaged car, with scatter and errors of the readings. */
function offOf(kind: (typeof damageKinds)[number], seed: number) {
  const random = jobRandom(seed, damageKinds.indexOf(kind));
  const damage = planDamage(kind, random);
  return new Map(
    [...world.points.values()].map((point) => [point.id, add(damage.field(point), normalVec3(random, 0.5))]),
  );
}

const kind = fc.constantFrom(...damageKinds);
const seed = fc.integer({ min: 1, max: 100_000 });

describe('the plan of one car', () => {
  for (const [name, view] of Object.entries(views).slice(1))
    it(`is the same seen ${name}`, () => {
      fc.assert(
        fc.property(kind, seed, (of, number) => {
          const off = offOf(of, number);
          expect(planIn(view, off)).toEqual(planIn(views['as it stands'], off));
        }),
        { numRuns: 12 },
      );
    });

  it('has steps to compare', () => {
    expect(planIn(views['as it stands'], offOf('both rails bent', 1))).toHaveLength(2);
  });
});
