import { describe, it } from 'vitest';
import { expectMarked, expectSilent, jobOn, measured } from '../measured-car.fixture';

const rule = 'reading/conditions';
const arm = 'instrument: { uncertainty: 0.2 }';

describe(rule, () => {
  it('shows what both files state', () =>
    expectMarked(
      rule,
      jobOn(
        measured(''),
        `${arm}
conditions: { powertrain: out, suspension: off }
#                         ^^^ warning: reading/conditions powertrain: out here, but the reference dimensions were taken with powertrain: in`,
      ),
    ));

  it('lets a measure’s own conditions go before the job’s', async () => {
    const own = (word: string) => `${measured('')}\n    conditions: { powertrain: ${word} }`;
    await expectSilent(rule, jobOn(own('In'), `${arm}\nconditions: { powertrain: out }`));
    await expectMarked(
      rule,
      jobOn(
        `${own('out')}\n#                             ^^^ warning: reading/conditions`,
        `${arm}\nconditions: { powertrain: in }`,
      ),
    );
  });

  it('is silent about what one file alone states', () =>
    expectSilent(rule, jobOn(measured(''), `${arm}\nconditions: { suspension: off }`)));
});
