import { describe, expect, it } from 'vitest';
import { teal } from '../../testing/teal';
import { foundIn } from '../testing/analysed';
import { afterFix, chassisFiles, fixed, found, foundBy, silent } from '../testing/kit';

const rule = 'chassis/transposed-digits';
const apart = (left: string, right: string) =>
  teal
    .replace('strut-top: { both: [2200, 700, 1400] }', `strut-top: { left: ${left}, right: ${right} }`)
    .replace(/spans:[\s\S]*$/, '');

describe(rule, () => {
  it('is silent where nothing is exchanged', async () => expect(await foundBy(rule, teal)).toEqual([]));

  it('marks the number of left or right that would make them agree', () =>
    found(
      rule,
      chassisFiles(
        apart('[2250, 561, 830]', '[2520, 561, 830]').replace(
          '830] }\n',
          `830] }
#                     ^^^^ warning: chassis/transposed-digits 2250 → 2520 (length of strut-top.L) or 2520 → 2250 (length of strut-top.R) would make left and right of strut-top agree; see the sheet
`,
        ),
      ),
    ));

  it('offers either, and either mends it', async () => {
    const text = apart('[2250, 561, 830]', '[2520, 561, 830]');
    for (const nth of [0, 1]) await silent(rule, chassisFiles(await afterFix(rule, chassisFiles(text), nth)));
    expect(await afterFix(rule, chassisFiles(text), 1)).toBe(apart('[2250, 561, 830]', '[2250, 561, 830]'));
  });

  it('allows for the tolerance, and keeps the decimals', async () => {
    expect(await foundBy(rule, apart('[2250, 561.5, 830]', '[2252, 516.5, 831]'))).toEqual([
      { message: expect.any(String), fixes: ['516.5', '561.5'] },
    ]);
    expect(await foundBy(rule, apart('[2250, 561.5, 830]', '[2252, 516.5, 834]'))).toEqual([]);
  });

  it.each([
    ['they agree as they are', '[2250, 561, 830]', '[2250, 563, 830]'],
    ['they differ in more than one number', '[2250, 561, 830]', '[2520, 516, 830]'],
    ['they differ by more than a swap', '[2250, 561, 830]', '[2350, 561, 830]'],
  ])('is silent where %s', async (_, left, right) =>
    expect(await foundBy(rule, apart(left, right))).toEqual([]),
  );

  it('marks the number that would make a listed distance fit, once for all the spans it settles', async () => {
    const text = teal.replace('[2200, 700, 1400]', '[2200, 700, 4100]').replace('1301', '1300');
    const found = await foundBy(rule, text);
    expect(found).toHaveLength(1);
    expect(found[0]).toEqual({
      message:
        'two digits exchanged? 4100 → 1400 (height of strut-top) would make rail-tip.L to strut-top.L fit its listed 1300.0; see the sheet',
      fixes: ['1400'],
    });
    await fixed(rule, chassisFiles(text), teal.replace('1301', '1300'));
  });

  it('moves both sides where they share the number', async () => {
    const text = `${teal.replace('[2600, 400, 200]', '[2600, 4000, 200]').replace(/spans:[\s\S]*$/, '')}spans:\n  - { from: rail-tip.L, to: rail-tip.R, distance: 800 }\n`;
    expect(await foundBy(rule, text)).toEqual([
      { message: expect.stringContaining('4000 → 0400 (width of rail-tip)'), fixes: ['0400'] },
    ]);
  });

  it('is silent where no exchange brings a distance, or its positions, within 1 mm', async () => {
    expect(await foundBy(rule, teal.replace('1301', '1350'))).toEqual([]);
  });

  it('tries the listed distance itself', () =>
    found(
      rule,
      chassisFiles(
        teal.replace(
          '1300, pairs: straight }',
          `3100, pairs: straight }
#                                              ^^^^ warning: chassis/transposed-digits two digits exchanged? 3100 → 1300 (the listed distance) would make rail-tip.L to strut-top.L agree with the positions of its ends; see the sheet`,
        ),
      ),
    ));

  it('offers the distance with its digits exchanged, and that mends it', async () => {
    const text = teal.replace('distance: 1300,', 'distance: 1030.0,');
    expect(await foundBy(rule, text)).toEqual([{ message: expect.any(String), fixes: ['1300.0'] }]);
    await silent('chassis/span-disagrees', chassisFiles(await afterFix(rule, chassisFiles(text))));
  });

  it('does not exchange the digits of a distance that would then fit one side of a pair only', async () => {
    const text = teal
      .replace(
        'strut-top: { both: [2200, 700, 1400] }',
        'strut-top: { left: [2200, 700, 1400], right: [2200, 700, 1600] }',
      )
      .replace('1300, pairs', '3100, pairs');
    expect(await foundBy(rule, text)).toEqual([]);
  });

  it('exchanges digits where they are typed: behind an anchor, not at its alias', async () => {
    const text = teal.replace('1300, pairs', '&far 3100, pairs').replace('1301', '*far');
    expect((await foundBy(rule, text)).map(({ fixes }) => fixes)).toEqual([['1300']]);
    expect(await afterFix(rule, chassisFiles(text))).toBe(text.replace('3100', '1300'));
  });

  it('reads inches as they are typed', async () => {
    const inches = `framewright: chassis/1
vehicle: Teal
units: inch
points:
  strut-top: { left: [88.58, 22.1, 32.7], right: [85.88, 22.1, 32.7] }
`;
    expect(await foundBy(rule, inches)).toEqual([]);
    expect(await foundBy(rule, inches.replace('85.88', '88.85').replace('88.58', '88.58'))).toEqual([
      {
        message: expect.stringContaining('88.58 → 88.85 (length of strut-top.L)'),
        fixes: ['88.85', '88.58'],
      },
    ]);
  });

  it('can be silenced with a reason', async () => {
    const text = apart('[2250, 561, 830]', '[2520, 561, 830]').replace(
      '830] }\n',
      '830] }   # framewright-ignore chassis/transposed-digits: checked on the sheet\n',
    );
    expect((await foundIn({ 'w.chassis.yaml': text }, 'w.chassis.yaml', rule)).found).toEqual([]);
  });
});
