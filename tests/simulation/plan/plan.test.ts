import { beforeAll, describe, expect, it } from 'vitest';
import type { Count, Tally } from '../tally';
import { damageKinds, kindsWithSeams } from './damage';
import { planPrinted, talliedPlans } from './run';

/** A small sample of what `npm run simulate:plan` runs whole. */
let tally: Tally;
/** The same with the seams of all neighbours named, and metal that was crushed besides. */
let joined: Tally;

beforeAll(() => {
  tally = talliedPlans(2 * damageKinds.length, 1);
  joined = talliedPlans(2 * kindsWithSeams.length, 1, 'joined');
}, 120_000);

const share = ({ hits, of }: Count): number => hits / of;
const seen = (key: string, least: number, of = tally): Count => {
  const count = of.of(key);
  expect(count.of, key).toBeGreaterThanOrEqual(least);
  return count;
};

describe('the plan of a simulated car', () => {
  it('pulls within 15° of the way home', () => expect(share(seen('direction', 40))).toBe(1));
  it('turns a twist back', () => expect(share(seen('couple', 1))).toBe(1));
  it('never holds with the damage on the farther side', () =>
    expect(share(seen('hold away from damage', 30))).toBe(1));
  it('holds on the base’s side of the bend', () =>
    expect(share(seen('hold on the base’s side', 10))).toBe(1));
  it('has words that never point towards the damage', () => expect(share(seen('words', 40))).toBe(1));
  it('has no step for a sound part', () =>
    expect(share(seen('step for a sound part', 300))).toBeLessThan(0.02));
  it('takes together what moved as one', () =>
    expect(share(seen('one motion in one step', 4))).toBeGreaterThan(0.7));
  it('keeps apart what moved otherwise', () =>
    expect(share(seen('other motions joined', 4))).toBeLessThan(0.2));
  it('keeps all that where seams are named', () => {
    expect(share(seen('direction', 40, joined))).toBe(1);
    expect(share(seen('hold away from damage', 30, joined))).toBe(1);
    expect(share(seen('one motion in one step', 4, joined))).toBeGreaterThan(0.9);
    expect(share(seen('other motions joined', 4, joined))).toBeLessThan(0.05);
  });
  it('is printed with a row for each requirement', () => {
    const text = planPrinted(tally, 'npm run simulate:plan', 40);
    expect(text).toContain('| chains within 15° of the way home, where 6 mm or more are left |');
    expect(text.split('\n').length).toBeGreaterThan(9);
  });
});
