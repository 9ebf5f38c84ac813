import { describe, expect, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { analysed } from '../testing/analysed';
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

  const twoPairs = carChassis.replace(
    'spans:',
    '  sill-front: { both: [500, 700, 60] }\n  sill-rear: { both: [-500, 700, 60] }\nspans:',
  );

  /** The sheet of that car with its lengths typed as they count from the nose. */
  const rearwardSheet = (text: string, axes = '') =>
    text
      .replace(/(both|centre|left|right): \[(-?[\d.]+)/g, (_, key, x) => `${key}: [${4000 - Number(x)}`)
      .replace('vehicle:', `${axes}vehicle:`);
  /** Names that tell nothing of the way that the car faces. */
  const unnamed = (text: string) =>
    text
      .replaceAll('front', 'one')
      .replaceAll('rear', 'two')
      .replaceAll('upper', 'a')
      .replaceAll('lower', 'b');

  it('names the sheet where its names contradict its positions, and does not turn the instrument round', async () => {
    const files = filesOf(jobOn(measured(rails), arm), rearwardSheet(twoPairs));
    const { findings } = await analysed(files, 'w.readings.yaml');
    const told = findings.filter((each) => each.rule === rule).map(({ message }) => message);
    expect(told).toHaveLength(1);
    expect(told[0]).toContain('`axes: [rearward, outboard, up]`');
    expect(told[0]).toContain('Mend car.chassis.yaml first');
    expect(told[0]).not.toContain('the instrument counts');
    await silent(
      rule,
      filesOf(jobOn(measured(rails), arm), rearwardSheet(twoPairs, 'axes: [rearward, outboard, up]\n')),
    );
  });

  it('names the order of the numbers, of the instrument and of the sheet', async () => {
    const messageOf = async (files: Record<string, string>) =>
      (await analysed(files, 'w.readings.yaml')).findings.find((each) => each.rule === rule)?.message ?? '';
    const readAcross = await messageOf(filesOf(jobOn(measured(rails), `${arm}\naxes: [left, forward, up]`)));
    expect(readAcross).toContain('stand in another order: write `axes: [forward, left, up]` in this file');
    expect(readAcross).not.toContain('the other way');
    const acrossSheet = carChassis.replace(
      /(both|centre|left|right): \[([-\d.]+), ([-\d.]+), ([-\d.]+)\]/g,
      (_, key, x, y, z) => `${key}: [${z}, ${y}, ${x}]`,
    );
    const sheet = await messageOf(filesOf(jobOn(measured(rails), arm), acrossSheet));
    expect(sheet).toContain('The sheet shows why: the numbers stand in another order');
    expect(sheet).toContain('write `axes: [up, outboard, forward]`. Mend car.chassis.yaml first');
  });

  it('names instrument, sheet and exchanged sides where the names tell nothing, and not the sheet where they agree with it', async () => {
    const messageOf = async (files: Record<string, string>) =>
      (await analysed(files, 'w.readings.yaml')).findings.find((each) => each.rule === rule)?.message ?? '';
    const open = await messageOf(
      filesOf(unnamed(jobOn(measured(rails), arm)), unnamed(rearwardSheet(carChassis))),
    );
    expect(open).toContain('`axes: [rearward, left, up]` in this file');
    expect(open).toContain('`axes: [rearward, outboard, up]` in car.chassis.yaml');
    expect(open).toContain('exchange .L and .R');
    const sure = await messageOf(filesOf(jobOn(measured(rails), `${arm}\naxes: [rearward, left, up]`)));
    expect(sure).toContain('`axes: [forward, left, up]` in this file');
    expect(sure).not.toContain('in car.chassis.yaml');
  });
});
