import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../geometry/distributions';
import { beyond, conformity, type Judgement, verdictOf, verdictOfAxes } from './verdict';

const of = (
  deviationMm: number | null,
  uncertaintyMm: number | null,
  limits: readonly [number, number] = [-3, 3],
): Judgement => ({
  deviationMm,
  uncertaintyMm,
  limits,
});

describe('conformity', () => {
  it('is the normal probability between the limits', () => {
    // Φ((3 − 2)/0.5) − Φ((−3 − 2)/0.5) = Φ(2) − Φ(−10); Φ(2) = 0.977250, normal table
    expect(conformity(of(2, 0.5))).toBeCloseTo(0.97725, 5);
    // on the limit one half, but for the far tail
    expect(conformity(of(3, 0.5))).toBeCloseTo(0.5, 9);
    // lopsided, upper limit 4, lower −2: Φ(2) − Φ(−4)
    expect(conformity(of(2, 1, [-2, 4]))).toBeCloseTo(0.97725 - 0.0000317, 5);
  });

  it('is certain without uncertainty, and unknown without a deviation', () => {
    expect(conformity(of(3, 0))).toBe(1);
    expect(conformity(of(3.1, 0))).toBe(0);
    expect(conformity(of(null, null))).toBeNull();
  });
});

describe('verdictOf', () => {
  it('needs 95 % on every axis to be within', () => {
    // 1.645 u from the limit is 95 %: normal table
    expect(verdictOf([of(0, 0.1), of(3 - 1.65 * 0.5, 0.5)])).toBe('within');
    expect(verdictOf([of(0, 0.1), of(3 - 1.64 * 0.5, 0.5)])).toBe('undecided');
  });

  it('needs 95 % on one axis to be outside, and the deviation past its limit', () => {
    expect(verdictOf([of(0, 0.1), of(-3 - 1.65 * 0.5, 0.5)])).toBe('outside');
    expect(verdictOf([of(0, 0.1), of(-3 - 1.64 * 0.5, 0.5)])).toBe('undecided');
    // so uncertain that nothing is probable, yet inside: not outside
    expect(conformity(of(0, 100))).toBeLessThan(0.05);
    expect(verdictOf([of(0, 100)])).toBe('undecided');
  });

  it('is not outside where the uncertainty is larger than the tolerance, however improbable it is to be within', () => {
    // both ends of the band are near against u, so p_c is small wherever the point truly lies
    const judged = of(20.4, 12.25);
    expect(conformity(judged)).toBeLessThan(0.05);
    expect(verdictOf([judged])).toBe('undecided');
    expect(verdictOf([of(-20.4, 12.25)])).toBe('undecided');
    expect(
      verdictOfAxes([0, 20.4, 0], [0.1, 12.25, 0.1], [judged.limits, judged.limits, judged.limits]),
    ).toBe('undecided');
    // past the limit by 1.645 u it is, by JCGM 106:2012 for one limit
    expect(verdictOf([of(3 + 1.65 * 12.25, 12.25)])).toBe('outside');
    expect(verdictOf([of(-3 - 1.65 * 12.25, 12.25)])).toBe('outside');
    expect(verdictOf([of(-3 - 1.64 * 12.25, 12.25)])).toBe('undecided');
  });

  it('is what the chance says, also where its size settles it without asking', () => {
    const mm = fc.integer({ min: -12_000, max: 12_000 }).map((micrometres) => micrometres / 1000);
    const width = fc.integer({ min: 0, max: 6000 }).map((micrometres) => micrometres / 1000);
    fc.assert(
      fc.property(mm, width, width, width, (d, u, below, above) => {
        const judgement = of(d, u, [-below, above]);
        const chance = conformity(judgement)!;
        const past = Math.max(d - above, -below - d);
        const chancePast = u === 0 ? Number(past > 0) : normalCdf(past / u);
        const expected = chance >= 0.95 ? 'within' : chancePast >= 0.95 ? 'outside' : 'undecided';
        expect(verdictOf([judgement])).toBe(expected);
      }),
      { numRuns: 2000 },
    );
    // at the very bounds of what its size settles
    for (const z of [1.644, 1.645, 1.646, 1.959, 1.96, 1.961])
      for (const d of [3 - z * 0.5, 3 + z * 0.5]) {
        const chance = conformity(of(d, 0.5))!;
        const expected = chance >= 0.95 ? 'within' : chance <= 0.05 ? 'outside' : 'undecided';
        expect(verdictOf([of(d, 0.5)]), `${z} from the limit`).toBe(expected);
      }
  });

  it('is unjudged where an axis is unknown and none is outside', () => {
    expect(verdictOf([of(null, null), of(0, 0.1)])).toBe('unjudged');
    expect(verdictOf([of(null, null), of(9, 0.1)])).toBe('outside');
  });

  it('counts the limit itself as inside', () => {
    expect(beyond(3, [-3, 3])).toBe(false);
    expect(beyond(-3.0001, [-3, 3])).toBe(true);
  });
});
