import { describe, it } from 'vitest';
import { expectMarked, expectSilent, jobOn, measured } from '../measured-car.fixture';

const rule = 'base/inconsistent';

describe(rule, () => {
  it('shows where no three agree', () =>
    expectMarked(
      rule,
      jobOn(`  - measure: as received
#   ^^^^^^^ error: base/inconsistent no three of the control points cowl-hole.R, floor-front.L, floor-rear.L and floor-rear.R agree with each other
    readings:
      floor-front.L: [1230, 420, 95]
      floor-rear.L: [-350, 435, 110]
      floor-rear.R: [-390, -455, 60]
      cowl-hole.R: [1480, -572, 945]`),
    ));

  it('is silent where three agree', () => expectSilent(rule, jobOn(measured(''))));
});
