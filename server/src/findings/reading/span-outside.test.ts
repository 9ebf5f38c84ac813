import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/span-outside';

describe(rule, () => {
  it('says by how much, against a listed distance and one between positions', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans:
      - [strut-top.R, rail-tip-lower.L, 1399.7]
#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error: reading/span-outside is 12.1 mm too short: 1399.7 mm against 1411.8 mm in the chassis file; limit ±3.0, certain to ±0.6
      - [floor-front.L, floor-front.R, 845]
#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error: reading/span-outside is 5.0 mm too long: 845.0 mm against 840.0 mm between their reference positions`),
      ),
    ));

  it('is information once the distance was read again, in either order', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans: [[rail-tip-lower.L, strut-top.R, 1399.7]]
#           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ information: reading/span-outside measured again in “later”
  - measure: later
    spans: [[strut-top.R, rail-tip-lower.L, 1411]]`),
      ),
    ));

  it('is silent where the distance is less certain than its tolerance: then nothing is known', () =>
    silent(
      rule,
      filesOf(
        jobOn(
          `${measured('')}
    spans: [[rail-tip-lower.L, strut-top.R, 1441.8]]`,
          'instrument: { uncertainty: 0.2, span-uncertainty: 30 }',
        ),
      ),
    ));

  it('is silent within tolerance, and about a distance from a point to itself', () =>
    silent(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans: [[rail-tip-lower.L, strut-top.R, 1412.8], [latch, latch, 100]]`),
      ),
    ));
});
