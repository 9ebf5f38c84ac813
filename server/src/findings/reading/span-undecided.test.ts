import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/span-undecided';

describe(rule, () => {
  it('says on which side of the limit a distance stands, and what would decide it', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans:
      - [strut-top.R, rail-tip-lower.L, 1408.6]
#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/span-undecided is 3.2 mm too short: 1408.6 mm against 1411.8 mm in the chassis file; limit ±3.0, certain to ±0.6 (95 %). It is over its limit, but not for certain: read both its points in three numbers, which also tells which end is off, or read it again with an instrument certain to ±0.2 mm in distances
      - [floor-front.L, floor-front.R, 842.8]
#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/span-undecided is 2.8 mm too long: 842.8 mm against 840.0 mm between their reference positions; limit ±3.0, certain to ±0.6 (95 %). It is inside its limit, but not for certain: read both`),
      ),
    ));

  it('names no certainty that nobody has', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans:
      - [floor-front.L, floor-front.R, 843.01]
#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/span-undecided It stands on its limit, and no reading of it decides that: read both its points in three numbers
`),
      ),
    ));

  it('is silent where it was read again since, in either order, within, and where it is outside', () =>
    silent(
      rule,
      filesOf(
        jobOn(`${measured('')}
    spans: [[rail-tip-lower.L, strut-top.R, 1408.6], [floor-front.L, floor-front.R, 845]]
  - measure: later
    spans: [[strut-top.R, rail-tip-lower.L, 1411]]`),
      ),
    ));

  it('is silent about what was read under load', () =>
    silent(
      rule,
      filesOf(
        jobOn(`${measured('')}
  - pull: out
    part: front-rail.L
  - measure: under load
    spans: [[rail-tip-lower.L, strut-top.R, 1408.6]]`),
      ),
    ));
});
