import { describe, it } from 'vitest';
import { filesOf, jobOn, measured } from '../testing/car';
import { found, silent } from '../testing/kit';

const rule = 'base/mirrored';
const rails = `      rail-tip-lower.L: [3012, 448, 210]
      rail-tip-upper.L: [3012, 452, 352]
      strut-top.R: [2250, -561, 830]`;
const mark = '#   ^^^^^^^ error: base/mirrored';
const marked = (message: string) => measured(rails).replace('received\n', `received\n${mark} ${message}\n`);
const arm = 'instrument: { uncertainty: 0.2 }';

describe(rule, () => {
  it('proposes the axes that the instrument seems to have', async () => {
    await found(
      rule,
      filesOf(jobOn(marked('`axes: [forward, left, up]`'), `${arm}\naxes: [forward, right, up]`)),
    );
    await found(
      rule,
      filesOf(jobOn(marked('`axes: [forward, left, up]`'), `${arm}\naxes: [forward, left, down]`)),
    );
    await found(
      rule,
      filesOf(jobOn(marked('counts its first number the other way'), `${arm}\naxes: [rearward, left, up]`)),
    );
  });

  it.each([
    'reading/outside',
    'reading/undecided',
    'reading/gross',
    'reading/hidden-twist',
    'reading/one-level',
  ])('judges nothing by such axes: %s is silent', (judging) =>
    silent(judging, filesOf(jobOn(measured(rails), `${arm}\naxes: [forward, right, up]`))),
  );

  it('is silent about one lost sign, about a flat set, and about another way round that is no mirror image', async () => {
    const flat = `  - measure: flat
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]`;
    await silent(
      rule,
      filesOf(jobOn(`${flat}\n      cowl-hole.L: [1480, 612, -905]\n      cowl-hole.R: [1480, -612, 905]`)),
    );
    await silent(rule, filesOf(jobOn(flat, `${arm}\naxes: [forward, right, up]`)));
    await silent(rule, filesOf(jobOn(measured(rails), `${arm}\naxes: [rearward, right, up]`)));
  });
});
