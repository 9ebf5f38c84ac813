import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/repeat-spread';

describe(rule, () => {
  it('names the axis by what the instrument’s number means', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      latch: [[3050, 0, 780], [3050, 0.2, 781.3]]
#     ^^^^^ warning: reading/repeat-spread differ by 1.3 mm in height (780.0 to 781.3); with this instrument they should stay within 0.8 mm`),
        ),
      ),
    ));

  it('takes the repeatability or the uncertainty, whichever is larger, and 1 mm where none is stated', async () => {
    const row = (spread: number) => measured(`      latch: [[3050, 0, 780], [3050, 0, ${780 + spread}]]`);
    await silent(rule, filesOf(jobOn(row(2.1), 'instrument: { uncertainty: 0.5, repeatability: 0.5 }')));
    await silent(rule, filesOf(jobOn(row(4.2), '')));
    await found(
      rule,
      filesOf(
        jobOn(
          `${row(4.3)}
#     ^^^^^ warning: reading/repeat-spread`,
          '',
        ),
      ),
    );
  });

  it('shows distances, by the uncertainty of a distance', async () => {
    const head = 'instrument: { uncertainty: 0.2, span-uncertainty: 1 }';
    const spans = (second: number, mark = '') => `${measured('')}
    spans:
      - [floor-front.L, floor-rear.L, [1550.4, ${second}]]
${mark}`;
    await found(
      rule,
      filesOf(
        jobOn(
          spans(
            1554.8,
            '#       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/repeat-spread differ by 4.4 mm (1550.4 to 1554.8); with this instrument they should stay within 4.2 mm',
          ),
          head,
        ),
      ),
    );
    await silent(rule, filesOf(jobOn(spans(1554.6), head)));
  });

  it('says it alone where nothing but the repeats makes a point undecided', () =>
    silent(
      'reading/undecided',
      filesOf(jobOn(measured('      latch: [[3050, 0, 780], [3050, 0.2, 781.3]]'))),
    ));

  it('is silent about one reading', () =>
    silent(rule, filesOf(jobOn(measured('      latch: [[3050, 90, 780]]')))));
});
