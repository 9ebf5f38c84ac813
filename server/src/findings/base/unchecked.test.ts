import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/unchecked';

describe(rule, () => {
  it('shows three points', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ warning: base/unchecked three control points cannot check each other: if one has moved a little, nothing shows it, and the figures of this stage move with it. Read cowl-hole.
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]`),
      ),
    ));

  it('shows points in one plane and the way that nothing checks, once for an alignment that was taken over', () =>
    found(
      rule,
      filesOf(
        jobOn(`  - measure: as received
#   ^^^^^^^ warning: base/unchecked the 4 control points stand in one plane: if one has moved up or down, nothing shows it
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
  - measure: more
    readings: { latch: [3050, 0, 780] }`),
      ),
    ));

  it('of a listed base names only what is listed', async () => {
    const rows = `    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]`;
    const said = (text: string) => `  - measure: as received
#   ^^^^^^^ warning: base/unchecked ${text}
${rows}`;
    const listed = 'floor-front.L, floor-front.R, floor-rear.L';
    await found(rule, filesOf(jobOn(said('and list it under `base`.'), `base: [${listed}]`)));
    await found(rule, filesOf(jobOn(said('Read cowl-hole.R too'), `base: [${listed}, cowl-hole.R]`)));
  });

  it('is silent where the base stands off one plane', () => silent(rule, filesOf(jobOn(measured('')))));
});
