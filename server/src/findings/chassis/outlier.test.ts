import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { sheetSlips } from '../../inspection/job/sheet-slips';
import { chassisOf } from '../../model/testing/read';
import { analysed } from '../testing/analysed';
import { fixed, found, silent } from '../testing/kit';

const rule = 'chassis/outlier';
const rail = [
  ['root-lower', '1760, 441, 188'],
  ['root-upper', '1760, 445, 328'],
  ['middle-lower', '2381, 444, 199'],
  ['middle-upper', '2381, 443, 338'],
  ['tip-lower', '3012, 448, 210'],
] as const;
const sheet = (tip: string, head = '') => ({
  'a.chassis.yaml': `framewright: chassis/1
${head}vehicle: Marten
parts:
  front-rail: { sided: true }
points:
${rail.map(([name, at]) => `  ${name}: { both: [${at}], part: front-rail }`).join('\n')}
  tip-upper: { both: [${tip}], part: front-rail }
`,
});
const marked = (tip: string, mark: string) => {
  const [name, text] = Object.entries(sheet(tip))[0];
  return { [name]: `${text}#${mark}\n` };
};

describe(rule, () => {
  it.each([
    ['3012, 452, 3520', '                                ^^^^ warning: chassis/outlier a digit too many?'],
    ['3012, 45, 352', '                           ^^ warning: chassis/outlier a digit dropped?'],
    [
      '3012, 904, 352',
      '                           ^^^ warning: chassis/outlier the full width in place of the half? width of tip-upper is 456 mm off',
    ],
    ['3012, -452, 352', '                           ^^^^ warning: chassis/outlier a lost or added sign?'],
    ['3102, 452, 523', '                                ^^^ warning: chassis/outlier two digits exchanged?'],
    ['312, 452, 352', '                     ^^^ warning: chassis/outlier a digit dropped?'],
  ])('tells of [%s]', async (tip, mark) => {
    await found(rule, marked(tip, mark));
  });

  it('mends what leaves one number only', () =>
    fixed(rule, sheet('3012, 904, 352'), sheet('3012, 452, 352')['a.chassis.yaml']));

  it('offers each number that may be meant, few as they are, and an exchange of two', async () => {
    const titles = async (tip: string) =>
      (await analysed(sheet(tip), 'a.chassis.yaml')).findings.flatMap((finding) =>
        finding.rule === rule ? finding.replacements.map(({ title }) => title) : [],
      );
    expect(await titles('3012, 452, 3520')).toEqual([
      'Write 320 for 3520',
      'Write 350 for 3520',
      'Write 352 for 3520',
    ]);
    // any digit would do
    expect(await titles('3012, 45, 352')).toEqual([]);
    expect(await titles('3012, 904, 352')).toEqual(['Write 452 for 904']);
    expect(await titles('3012, 352, 452')).toEqual([]);
    expect(await titles('452, 3012, 352')).toEqual(['Exchange 452 and 3012']);
    await fixed(rule, sheet('452, 3012, 352'), sheet('3012, 452, 352')['a.chassis.yaml']);
  });

  it('keeps silent of what no slip explains, of a part of few points, and of the right number', async () => {
    await silent(rule, sheet('3012, 452, 352'));
    await silent(rule, sheet('3012, 690, 352'));
    await silent(rule, {
      'a.chassis.yaml':
        'framewright: chassis/1\nvehicle: Marten\nparts:\n  a: {}\npoints:\n  b: { centre: [0, 4, 9], part: a }\n  c: { centre: [9, 40, 900], part: a }\n',
    });
  });

  const sheets = Object.entries(sampleTexts).filter(([path]) => path.endsWith('.chassis.yaml'));
  it('keeps silent on the sample sheets', () => {
    const marten = sheets.find(([path]) => path.includes('marten-hatch'))![1];
    const teal = sheets.find(([path]) => path.includes('teal'))![1];
    expect(sheetSlips(chassisOf(marten))).toEqual([]);
    expect(sheetSlips(chassisOf(teal, marten))).toEqual([]);
  });

  it('keeps silent on 200 bodies that are like them, stretched and made otherwise', () => {
    const marten = sheets.find(([path]) => path.includes('marten-hatch'))![1];
    let state = 20260305;
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32 - 0.5;
    };
    for (let car = 0; car < 200; car++) {
      const scale = [1 + 0.3 * random(), 1 + 0.3 * random(), 1 + 0.3 * random()];
      const text = marten.replace(
        /(both|left|right|centre): \[ *([-\d.]+), *([-\d.]+), *([-\d.]+)\]/g,
        (_, key, ...numbers) =>
          `${key}: [${scale.map((each, k) => Math.round(each * Number(numbers[k]) + 20 * random())).join(', ')}]`,
      );
      expect(sheetSlips(chassisOf(text)).map(({ point, slip }) => `${car} ${point.id} ${slip}`)).toEqual([]);
    }
  });
});
