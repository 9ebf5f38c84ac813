import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/conditions';
const arm = 'instrument: { uncertainty: 0.2 }';

describe(rule, () => {
  it('shows what both files state', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(''),
          `${arm}
conditions: { powertrain: out, suspension: off }
#                         ^^^ warning: reading/conditions powertrain: out here, but the reference dimensions were taken with powertrain: in`,
        ),
      ),
    ));

  it('lets a measure’s own conditions go before the job’s', async () => {
    const own = (word: string) => `${measured('')}\n    conditions: { powertrain: ${word} }`;
    await silent(rule, filesOf(jobOn(own('In'), `${arm}\nconditions: { powertrain: out }`)));
    await found(
      rule,
      filesOf(
        jobOn(
          `${own('out')}\n#                             ^^^ warning: reading/conditions`,
          `${arm}\nconditions: { powertrain: in }`,
        ),
      ),
    );
  });

  it('is silent about what one file alone states', () =>
    silent(rule, filesOf(jobOn(measured(''), `${arm}\nconditions: { suspension: off }`))));
});
