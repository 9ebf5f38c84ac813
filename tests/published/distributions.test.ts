import { describe, it } from 'vitest';
import { chiSquareQuantile, fQuantile, normalCdf } from '../../server/src/geometry/distributions';
import { expectClose, expectRelative } from './expect-close';
import r from './r-cases.json';

describe('the normal distribution', () => {
  it('has the values of any handbook table (as Abramowitz & Stegun 1964, table 26.1)', () => {
    expectClose([0, 1, 1.96, 2.58, 3].map(normalCdf), [0.5, 0.84134, 0.975, 0.99506, 0.99865], 5e-6);
  });
  it('agrees with pnorm of R far into both tails', () => {
    for (const { z, value } of r.normal) expectRelative(normalCdf(z), value, 1e-9);
  });
});

describe('conformity by JCGM 106:2012', () => {
  const conformity = (estimate: number, u: number, lower: number, upper: number): number =>
    normalCdf((upper - estimate) / u) - normalCdf((lower - estimate) / u);
  it('one limit: the Zener diode example, −5.47 V with u = 0.05 V against at most −5.40 V, gives 0.92 (numbers from memory; Φ(1.4) recomputed)', () => {
    expectClose(conformity(-5.47, 0.05, Number.NEGATIVE_INFINITY, -5.4), 0.92, 5e-3);
    expectClose(conformity(-5.47, 0.05, Number.NEGATIVE_INFINITY, -5.4), 0.919243, 5e-7);
  });
  it('the guard of one limit for 95 % is 1.64 u, for 99 % 2.33 u (its table of z; from memory, recomputed with qnorm of R)', () => {
    expectClose(conformity(-1.6448536, 1, Number.NEGATIVE_INFINITY, 0), 0.95, 1e-8);
    expectClose(conformity(-2.3263479, 1, Number.NEGATIVE_INFINITY, 0), 0.99, 1e-8);
  });
});

describe('quantiles of χ²', () => {
  it('are those of the handbook tables (as NIST/SEMATECH e-Handbook 1.3.6.7.4)', () => {
    const [p, expected] = [
      [0.9, 0.95, 0.975, 0.99, 0.999],
      [
        [1, 2.706, 3.841, 5.024, 6.635, 10.828],
        [3, 6.251, 7.815, 9.348, 11.345, 16.266],
        [6, 10.645, 12.592, 14.449, 16.812, 22.458],
        [10, 15.987, 18.307, 20.483, 23.209, 29.588],
        [30, 40.256, 43.773, 46.979, 50.892, 59.703],
      ],
    ];
    for (const [degreesOfFreedom, ...values] of expected) {
      expectClose(
        p.map((each) => chiSquareQuantile(each, degreesOfFreedom)),
        values,
        5e-4,
      );
    }
  });
  it('agree with qchisq of R, for whole and broken degrees of freedom', () => {
    for (const { p, dof, value } of r.chiSquareQuantiles)
      expectRelative(chiSquareQuantile(p, dof), value, 1e-8);
  });
});

describe('quantiles of F', () => {
  it('are those of the handbook tables (as NIST/SEMATECH e-Handbook 1.3.6.7.3; from memory, recomputed with scipy)', () => {
    const table: [p: number, numerator: number, denominator: number, value: number][] = [
      [0.9, 3, 6, 3.289],
      [0.9, 3, 12, 2.606],
      [0.95, 3, 10, 3.708],
      [0.95, 1, 10, 4.965],
      [0.99, 6, 6, 8.466],
      [0.99, 6, 12, 4.821],
      [0.99, 6, 24, 3.667],
    ];
    expectClose(
      table.map(([p, numerator, denominator]) => fQuantile(p, numerator, denominator)),
      table.map(([, , , value]) => value),
      5e-4,
    );
  });
});
