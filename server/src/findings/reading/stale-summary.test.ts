import { describe, expect, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { applyEdits } from '../../text/edits';
import { offsetsOf } from '../../text/tree';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'reading/stale-summary';

const rows = '      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]';
const withSummary = (lines: string) => jobOn(`${measured(rows)}\n    summary:\n${lines}`);

describe(rule, () => {
  it('shows a line that is no longer true, and one that names nothing', () =>
    found(
      rule,
      filesOf(
        withSummary(`      front-rail.L twist: 2.3° ±0.4° top leans right at 3012 mm
#                         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary it would now be: 4.0° ±0.
      front-rail.R twist: none
#     ^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary \`front-rail.R twist\` cannot be told from this stage
      front-rail.L colour: red
#     ^^^^^^^^^^^^^^^^^^^ warning: reading/stale-summary cannot be told from this stage`),
      ),
    ));

  it('is silent after its own fix', async () => {
    const job = withSummary("      front-rail.L sweep: 'zzz'\n      body: zzz\n      front-rail.L bend: zzz");
    const { findings } = await analysed(filesOf(job), 'w.readings.yaml');
    const fixes = findings.filter((each) => each.rule === rule).flatMap((each) => each.replacements);
    expect(fixes).toHaveLength(3);
    const fixed = applyEdits(
      job,
      fixes.map(({ place, text }) => ({ ...offsetsOf(place), text })),
    );
    expect(fixed).not.toContain('zzz');
    await silent(rule, filesOf(fixed));
  });

  it('is silent while the text is broken', () =>
    silent(rule, filesOf(withSummary('      body: old\n  - note: [')), { broken: true }));
});
