import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/too-few';

describe(rule, () => {
  it('counts what was read and names what is still to read', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ error: base/too-few only two control points were read in this stage (floor-front.L and floor-front.R)
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      latch: [3050, 0, 780]`),
      ),
    ));

  it('shows where there is nothing to take over, and where the set-up is new', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ error: base/too-few no control point was read in this stage
    readings: { latch: [3050, 0, 780] }
${measured('', 'whole')}
  - measure: on another bench
#   ^^^^^^^ error: base/too-few With \`set-up: new\` the stage before cannot help
    set-up: new
    readings: { latch: [3050, 0, 780] }`),
      ),
    ));

  it('says what `base:` leaves out', () =>
    found(
      rule,
      filesOf(
        jobOn(
          `  - measure: as received
#   ^^^^^^^ error: base/too-few floor-front.L and floor-front.R were read too, but \`base:\` leaves them out
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]`,
          'base: { between: [-800, 800] }',
        ),
      ),
    ));

  it('is silent where a stage takes the alignment over', () =>
    silent(
      rule,
      filesOf(
        jobOn(`${measured('')}
  - measure: no control point
    readings: { latch: [3050, 0, 780] }
  - measure: one of them, nothing moved
    set-up: same
    readings: { floor-front.L: [1200, 420, 95] }
  - measure: distances only
    spans: [[floor-front.L, floor-front.R, 840]]`),
      ),
    ));
});
