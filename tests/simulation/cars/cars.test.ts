import { describe, expect, it } from 'vitest';
import { Tally } from '../tally';
import { carRequirements, carsPrinted, scattersPrinted } from './print';
import { carCounts, talliedReferences } from './references';

/** The whole is `npm run simulate -- --cars 50`; here two trials a cell, which knows a share to some percent only. */
describe('reference points from simulated sound cars', () => {
  const tally = new Tally();
  talliedReferences(tally, 2, 3);

  it.each(carCounts)('cover from %i as they say, where the file states the scatter that is true', (cars) => {
    const { hits, of } = tally.of('reference covered', 'true', cars);
    expect(of).toBeGreaterThan(40);
    expect(hits / of).toBeGreaterThan(0.86);
  });

  it('cover less where cars are few and the file states less than is true', () => {
    const share = (stating: string, cars: number) => {
      const { hits, of } = tally.of('reference covered', stating, cars);
      return hits / of;
    };
    // of one car nothing else is known; from five on what is stated does not matter
    expect(Math.abs(share('default', 10) - share('true', 10))).toBeLessThan(0.1);
  });

  it('are told with what is asked of them', () => {
    expect(carRequirements(tally)).toHaveLength(carCounts.length);
    expect(carsPrinted(tally)).toContain('a new point from one sound car');
  });
});

describe('measured scatter', () => {
  const printed = (hits: number, of: number): string => {
    const tally = new Tally();
    for (let i = 0; i < of; i++) tally.count(['scatter covered', 'build'], i < hits);
    return scattersPrinted(tally);
  };

  it('is told with how well the share is known, and refuted only by what cannot be chance', () => {
    expect(printed(45, 50)).toContain('45 / 50, 90.0 % (78.6–95.7)');
    expect(printed(45, 50)).toContain('asked: 93–97 % | agrees; more are needed to tell |');
    expect(printed(240, 300)).toContain('asked: 93–97 % | **does not hold** |');
    expect(printed(500, 500)).toContain('asked: 93–97 % | **does not hold** |');
    expect(printed(9500, 10000)).toContain('asked: 93–97 % | holds |');
  });
});
