import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/inconsistent';

describe(rule, () => {
  it('shows where no three agree', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ error: base/inconsistent no three of the control points cowl-hole.R, floor-front.L, floor-rear.L and floor-rear.R agree with each other
    readings:
      floor-front.L: [1230, 420, 95]
      floor-rear.L: [-350, 435, 110]
      floor-rear.R: [-390, -455, 60]
      cowl-hole.R: [1480, -572, 945]`),
      ),
    ));

  it('is silent where three agree', () => silent(rule, filesOf(jobOn(measured('')))));
});
