import { describe, it } from 'vitest';
import { randomEffectsMean } from '../../server/src/geometry/random-effects-mean';
import { varianceComponents } from '../../server/src/geometry/variance-components';
import { expectClose, expectRelative } from './expect-close';
import cases from './variance-cases.json';

const startOf = (values: readonly number[], components: number): number[] => {
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  const variance = values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (values.length - 1);
  return Array.from({ length: components }, () => variance / components);
};

describe('restricted maximum likelihood, against lme4 (Bates et al. 2015)', () => {
  it.each(cases.linear)('$name', ({ values, design, labels, variances, remlCriterion, fixed }) => {
    const found = varianceComponents([{ values, design, labels }], startOf(values, variances.length));
    if (found === null) throw new Error('no estimate');
    // what lme4 gives is good to a millionth: it searches, too
    const largest = Math.max(...variances);
    expectClose(found.variances, variances, 2e-6 * largest);
    const constant = (values.length - fixed) * Math.log(2 * Math.PI);
    expectClose(constant - 2 * found.logLikelihood, remlCriterion, 1e-7);
  });

  it('of the balanced sets, by their mean squares, as printed by Davies & Goldsmith 1972', () => {
    // six batches of five: mean squares 11271.5 between and 2451.25 within
    const { values, design, labels } = cases.linear[0];
    const found = varianceComponents([{ values, design, labels }], startOf(values, 2));
    expectRelative(found?.variances ?? [], [(11271.5 - 2451.25) / 5, 2451.25], 1e-9);
    // exact for a balanced design: 2 (EMS)²/f over the squares of the coefficients (Searle, Casella & McCulloch 1992, 3.5)
    const [between, within] = [(2 * 11271.5 ** 2) / 5, (2 * 2451.25 ** 2) / 24];
    expectRelative(
      found?.covariance ?? [],
      [
        [(between + within) / 25, -within / 5],
        [-within / 5, within],
      ],
      1e-9,
    );
  });
});

describe('a mean over objects that scatter, against metafor', () => {
  it.each(cases.means)('of $estimates.length: interval of Hartung & Knapp', (each) => {
    const found = randomEffectsMean(each.estimates, each.variances, 0);
    expectRelative(found.between ?? Number.NaN, each.between, 1e-9);
    expectRelative(found.value, each.mean, 1e-9);
    const half = 1.959963984540054 * found.uncertainty;
    expectRelative([found.value - half, found.value + half], [each.low, each.high], 1e-9);
  });

  it.each(cases.few)('of $estimates.length: mean and variance between', (each) => {
    const found = randomEffectsMean(each.estimates, each.variances, 0);
    expectClose(found.between ?? Number.NaN, each.between, 1e-9);
    expectRelative(found.value, each.mean, 1e-9);
  });
});
