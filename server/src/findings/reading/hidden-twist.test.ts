import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/hidden-twist';

describe(rule, () => {
  it('shows on the level that looks right', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-lower.L: [3012, 448.4, 210]
#     ^^^^^^^^^^^^^^^^ warning: reading/hidden-twist at 3012 mm rail-tip-lower.L is in tolerance and rail-tip-upper.L, 142 mm higher, is not, turned 4.8°
      rail-tip-upper.L: [3012, 440.4, 352]`),
        ),
      ),
    ));

  it('shows where the upper level looks right, once for all stations of the part', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-root-lower.L: [1760, 450, 188]
      rail-root-upper.L: [1760, 445, 328]
#     ^^^^^^^^^^^^^^^^^ warning: reading/hidden-twist 140 mm lower, is not
      rail-tip-lower.L: [3012, 460, 210]
      rail-tip-upper.L: [3012, 452, 352]`),
        ),
      ),
    ));

  it('is silent where both levels are off, on different sides, mistyped, or corrected since', async () => {
    await silent(
      rule,
      filesOf(
        jobOn(measured('      rail-tip-lower.L: [3012, 438, 210]\n      rail-tip-upper.L: [3012, 442, 352]')),
      ),
    );
    await silent(
      rule,
      filesOf(
        jobOn(
          measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.R: [3012, -442, 352]'),
        ),
      ),
    );
    await silent(
      rule,
      filesOf(
        jobOn(
          measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, -452, 352]'),
        ),
      ),
    );
    await silent(
      rule,
      filesOf(
        jobOn(`${measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]')}
  - measure: corrected
    readings: { rail-tip-upper.L: [3012, 452, 352] }`),
      ),
    );
  });
});
