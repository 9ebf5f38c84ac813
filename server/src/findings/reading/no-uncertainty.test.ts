import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/no-uncertainty';

describe(rule, () => {
  it('stands at the instrument, once', () =>
    found(
      rule,
      filesOf(
        jobOn(
          `${measured('      latch: [3050, 0, 780]')}\n    spans: [[floor-front.L, floor-front.R, 840]]\n${measured('', 'again')}`,
          `instrument: { name: borrowed arm }
#<^^^^^^^^ information: reading/no-uncertainty borrowed arm states no uncertainty: 1.0 mm on each axis of a reading and 1.4 mm for a distance are assumed`,
        ),
      ),
    ));

  it('stands at a measure’s own instrument', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('')}
  - measure: by tape
    instrument: { name: tape }
#   ^^^^^^^^^^ information: reading/no-uncertainty 1.4 mm for a distance is assumed
    spans: [[floor-front.L, floor-front.R, 840]]`),
      ),
    ));

  it('stands at the head where no instrument is named', () =>
    found(
      rule,
      filesOf(
        jobOn(measured(''), '').replace(
          'framewright: readings/1',
          'framewright: readings/1\n#<^^^^^^^^^ information: reading/no-uncertainty no instrument is stated',
        ),
      ),
    ));

  it('is silent where the distance alone is stated and alone is used, and for √2 of the stated', async () => {
    await silent(
      rule,
      filesOf(
        jobOn(
          '  - measure: tape\n    spans: [[floor-front.L, latch, 2023]]',
          'instrument: { span-uncertainty: 1 }',
        ),
      ),
    );
    await silent(rule, filesOf(jobOn(`${measured('')}\n    spans: [[floor-front.L, latch, 2023]]`)));
  });
});
