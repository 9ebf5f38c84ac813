import { describe, expect, it } from 'vitest';
import { teal } from '../../testing/teal';
import { afterFix, chassisFiles, fixed, found, foundBy, silent } from '../testing/kit';

const rule = 'chassis/override-drops';
const parents = {
  'teal.chassis.yaml': teal.replace(
    'floor-front: { both: [1200, 420, 95], part: floor, base: true }',
    'floor-front: { both: [1200, 420, 95], part: floor, base: true, tolerance: { length: 2 }, fixing: hole }',
  ),
};
const child = (lines: string): string =>
  `framewright: chassis/1\nvehicle: Teal van\nextends: teal.chassis.yaml\npoints:\n${lines}`;
const files = (lines: string) => chassisFiles(child(lines), parents);

describe(rule, () => {
  it('names what a point loses', () =>
    found(
      rule,
      files(`  floor-front: { both: [1200, 421, 95] }
# ^^^^^^^^^^^ warning: ${rule} floor-front is given anew and loses \`part: floor\`, \`base: true\`, \`tolerance: { length: 2, width: 3, height: 3 }\` and \`fixing: hole\` of teal.chassis.yaml
  strut-top: { both: [2201, 700, 1400] }
`),
    ));

  it('tells a point that is given to another part, and the fix gives it back', async () => {
    const lines = (part: string) =>
      `  floor-front: { both: [1200, 421, 95], part: ${part}, base: true, tolerance: 2, fixing: hole }\n`;
    expect((await foundBy(rule, child(lines('front-rail')), parents)).map(({ message }) => message)).toEqual([
      'floor-front belongs to front-rail here, and to floor in teal.chassis.yaml: where floor is judged, it is not asked for',
    ]);
    await fixed(rule, files(lines('front-rail')), child(lines('floor')));
  });

  it('the fix keeps it, in braces and below each other', async () => {
    await fixed(
      rule,
      files('  floor-front: { both: [1200, 421, 95], base: false }   # moved\n'),
      child(
        '  floor-front: { both: [1200, 421, 95], base: false, part: floor, tolerance: { length: 2, width: 3, height: 3 }, fixing: hole }   # moved\n',
      ),
    );
    const block = '  floor-front:\n    both: [1200, 421, 95]   # here\n    tolerance: 2\n  latch: ~\n';
    expect(await afterFix(rule, files(block))).toBe(
      child(
        '  floor-front:\n    both: [1200, 421, 95]   # here\n    tolerance: 2\n    part: floor\n    base: true\n    fixing: hole\n  latch: ~\n',
      ),
    );
  });

  it('writes a tolerance in the unit and the axes of this file', async () => {
    const lopsided = {
      'teal.chassis.yaml': teal.replace(
        'part: front-rail }\n  strut',
        'part: front-rail, tolerance: { length: [-1, 2.54] } }\n  strut',
      ),
    };
    const text =
      'framewright: chassis/1\nextends: teal.chassis.yaml\nunits: inch\naxes: [rearward, outboard, up]\npoints:\n  rail-tip: { both: [-102, 15.7, 7.9], part: front-rail }\n';
    expect(await afterFix(rule, chassisFiles(text, lopsided))).toContain(
      'tolerance: { length: [-0.1, 0.03937], width: 0.11811, height: 0.11811 }',
    );
  });

  it.each([
    [
      'all is repeated, or said to be otherwise',
      '  floor-front: { both: [1200, 421, 95], part: floor, base: false, tolerance: 4, fixing: edge }\n',
    ],
    ['the parent says nothing more', '  strut-top: { both: [2201, 700, 1400] }\n'],
    ['a point is new, or removed', '  hook: { both: [1, 2, 3] }\n  floor-front: ~\n'],
  ])('is silent where %s', async (_, lines) => silent(rule, files(lines)));

  it('is silent about a tolerance that is in force all the same', async () => {
    const same = {
      'teal.chassis.yaml': teal.replace(
        'part: front-rail }\n  strut',
        'part: front-rail, tolerance: 3 }\n  strut',
      ),
    };
    expect(
      await foundBy(rule, child('  rail-tip: { both: [2600, 401, 200], part: front-rail }\n'), same),
    ).toEqual([]);
  });
});
