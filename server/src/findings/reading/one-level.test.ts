import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/one-level';

describe(rule, () => {
  it('names the other level', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-root-lower.L: [1760, 441, 188]
#     ^^^^^^^^^^^^^^^^^ warning: reading/one-level Read rail-tip-upper.L (at 3012 mm) and rail-root-upper.L (at 1760 mm) too.
      rail-tip-lower.L: [3012, 448, 210]
      rail-tip-lower.R: [3012, -448, 210]
#     ^^^^^^^^^^^^^^^^ warning: reading/one-level front-rail.R
      rail-tip-upper.R: unreachable`),
        ),
      ),
    ));

  it('counts the newest released stage that reads the part', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 452, 352]')}
  - measure: later
    readings:
      rail-tip-lower.L: [3012, 448, 210]
#     ^^^^^^^^^^^^^^^^ warning: reading/one-level in “later”`),
      ),
    ));

  it('is silent with two levels at one station, and where the chassis has one', () =>
    silent(
      rule,
      filesOf(
        jobOn(
          measured(
            '      rail-root-lower.L: [1760, 441, 188]\n      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 452, 352]\n      strut-top.L: [2250, 561, 830]',
          ),
        ),
      ),
    ));

  it('is silent about a part out of scope', () =>
    silent(
      rule,
      filesOf(
        jobOn(
          measured('      rail-tip-lower.L: [3012, 448, 210]'),
          'instrument: { uncertainty: 0.2 }\nscope: [apron]',
        ),
      ),
    ));
});
