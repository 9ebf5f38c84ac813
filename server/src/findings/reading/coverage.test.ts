import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'reading/coverage';
const arm = 'instrument: { uncertainty: 0.2 }';

describe(rule, () => {
  it('names the points of the scope that no stage read, and the unreachable apart', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: unreachable'),
          `${arm}
scope: [front-rail.L, apron]
#       ^^^^^^^^^^^^^^^^^^^ information: reading/coverage 4 points of the scope never read: rail-root-lower.L, rail-root-upper.L and strut-top (both sides). Marked unreachable: rail-tip-upper.L.`,
        ),
      ),
    ));

  it('takes the parts worked on or read where there is no scope', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured('      rail-tip-lower.L: [3012, 448, 210]')}
  - replace: apron.R`).replace(
          'framewright: readings/1',
          'framewright: readings/1\n#<^^^^^^^^^ information: reading/coverage 4 points of the scope never read: rail-root-lower.L, rail-root-upper.L, rail-tip-upper.L and strut-top.R.',
        ),
      ),
    ));

  it('is silent where all were read, and while the text is broken', async () => {
    await silent(
      rule,
      filesOf(
        jobOn(
          measured('      strut-top.L: [2250, 561, 830]\n      strut-top.R: [2250, -561, 830]'),
          `${arm}\nscope: [apron]`,
        ),
      ),
    );
    await silent(rule, filesOf(jobOn(`${measured('')}\n  - note: [`, `${arm}\nscope: [apron]`)), {
      broken: true,
    });
  });
});
