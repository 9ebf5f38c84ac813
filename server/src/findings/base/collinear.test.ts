import { describe, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/collinear';
const chassis = carChassis.replace(
  '  latch:',
  '  sill-hole: { centre: [400, 437, 92.5], base: true }\n  latch:',
);

describe(rule, () => {
  it('names the points and one off the line', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ error: base/collinear floor-front.L, sill-hole and floor-rear.L stand on one line, and the car may still roll about it
    readings:
      floor-front.L: [1200, 420, 95]
      sill-hole: [400, 437, 92.5]
      floor-rear.L: [-350, 455, 90]`),
        chassis,
      ),
    ));

  it('shows readings on one line of points that spread', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ error: base/collinear floor-rear.L and cowl-hole.R stand on one line, but the points themselves do not
    readings:
      floor-front.L: [1200, 420, 95]
      floor-rear.L: [-350, 420, 95]
      cowl-hole.R: [1480, 420, 95]`),
      ),
    ));

  it('is silent about points that spread', () => silent(rule, filesOf(jobOn(measured('')), chassis)));
});
