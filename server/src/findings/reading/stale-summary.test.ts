import { describe, expect, it } from 'vitest';
import { analysed } from '../fixture';
import { expectMarked, expectSilent, filesOf, jobOn, measured } from '../measured-car.fixture';

const rule = 'reading/stale-summary';

const rows = '      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]';
const withSummary = (lines: string) => jobOn(`${measured(rows)}\n    summary:\n${lines}`);

describe(rule, () => {
  it('shows a line that is no longer true, and one that names nothing', () =>
    expectMarked(
      rule,
      withSummary(`      front-rail.L twist: 2.3° ±0.4° top leans right at 3012 mm
#                         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary it would now be: 4.0° ±0.
      front-rail.R twist: none
#     ^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary \`front-rail.R twist\` cannot be told from this stage
      front-rail.L colour: red
#     ^^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary cannot be told from this stage`),
    ));

  it('is silent after its own fix', async () => {
    const job = withSummary("      front-rail.L sweep: 'zzz'\n      body: zzz\n      front-rail.L bend: zzz");
    const { findings } = await analysed(filesOf(job), 'w.readings.yaml');
    const fixes = findings.filter((each) => each.rule === rule).flatMap((each) => each.replacements);
    expect(fixes).toHaveLength(3);
    const fixed = fixes.reduceRight((text, { place, text: now }) => {
      const [start, end] = [
        place.block.start + place.start,
        (place.endBlock ?? place.block).start + place.end,
      ];
      return text.slice(0, start) + now + text.slice(end);
    }, job);
    expect(fixed).not.toContain('zzz');
    await expectSilent(rule, fixed);
  });

  it('is silent while the text is broken', () =>
    expectSilent(rule, withSummary('      body: old\n  - note: [')));
});
