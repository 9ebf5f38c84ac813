import { describe, expect, it } from 'vitest';
import { recordPage } from '../../report/record/record';
import { teal } from '../../testing/teal';
import { analysed } from '../testing/analysed';
import { chassisFiles, fixed, found, foundBy, silent } from '../testing/kit';

const rule = 'chassis/wider-tolerance';
const parent = teal
  .replace(
    'part: front-rail }\n  strut-top',
    'part: front-rail, tolerance: { length: 2, width: [-1, 2] } }\n  strut-top',
  )
  .replace('vehicle:', 'tolerance: 3\nvehicle:');
const parents = { 'teal.chassis.yaml': parent };
const child = (lines: string): string =>
  `framewright: chassis/1\nvehicle: Teal van\nextends: teal.chassis.yaml\n${lines}`;
const tip = (tolerance: string) =>
  child(`points:\n  rail-tip: { both: [2600, 400, 200], part: front-rail, tolerance: ${tolerance} }\n`);

describe(rule, () => {
  it('tells a wider limit of a point, and the fix writes the parent’s', async () => {
    const files = (text: string) => chassisFiles(text, parents);
    await found(
      rule,
      files(
        child(`points:
  rail-tip:
    both: [2600, 400, 200]
    part: front-rail
    tolerance: { length: 2, width: [-1, 4], height: 5 }
#              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: ${rule} the tolerance of rail-tip is wider than in teal.chassis.yaml: width [-1, 4] (there [-1, 2]) and height ±5 (there ±3), in mm
`),
      ),
    );
    await fixed(rule, files(tip('5')), tip('{ length: 2, width: [-1, 2], height: 3 }'));
  });

  it('tells a wider tolerance of the whole file', async () => {
    expect(await foundBy(rule, child('tolerance: { height: 4 }\n'), parents)).toEqual([
      {
        message: 'the tolerance of this file is wider than in teal.chassis.yaml: height ±4 (there ±3), in mm',
        fixes: ['3'],
      },
    ]);
    // the default of the format is a limit, too
    const bare = { 'teal.chassis.yaml': teal };
    expect(await foundBy(rule, child('tolerance: 5\n'), bare)).toHaveLength(1);
  });

  it('tells a wider limit of a distance, and not one that is as before', async () => {
    const listed = (tolerance: string) =>
      child(`spans:\n  - { from: rail-tip.L, to: rail-tip.R, distance: 800${tolerance} }\n`);
    const of = {
      'teal.chassis.yaml': `${parent}  - { from: rail-tip.R, to: rail-tip.L, distance: 800, tolerance: 2 }\n`,
    };
    expect((await foundBy(rule, listed(', tolerance: 6'), of)).map(({ message }) => message)).toEqual([
      'the tolerance of the distance rail-tip.L to rail-tip.R is wider than in teal.chassis.yaml: ±6.0 (there ±2.0), in mm',
    ]);
    expect(await foundBy(rule, listed(', tolerance: 2'), of)).toEqual([]);
    expect(await foundBy(rule, listed(', tolerance: 6'), parents)).toEqual([]);
  });

  it('compares in vehicle axes and in any unit', async () => {
    const turned = child(
      'units: inch\naxes: [rearward, outboard, up]\npoints:\n  rail-tip: { both: [-102.36, 15.748, 7.874], part: front-rail, tolerance: { length: [-0.05, 0.1], width: [-0.03, 0.07] } }\n',
    );
    expect((await foundBy(rule, turned, parents)).map(({ message }) => message)).toEqual([
      'the tolerance of rail-tip is wider than in teal.chassis.yaml: length [-0.05, 0.1] (there ±0.07874), in inch',
    ]);
  });

  it.each([
    ['the limits are the same or narrower', tip('{ length: 1, width: [-1, 2], height: 3 }')],
    ['a point is new', child('points:\n  hook: { both: [1, 2, 3], tolerance: 9 }\n')],
    ['the file has a narrower one', child('tolerance: 2\n')],
    ['nothing is said of limits', child('points:\n  rail-tip: { both: [2600, 400, 200] }\n')],
  ])('is silent where %s', async (_, text) => silent(rule, chassisFiles(text, parents)));

  it('is silent in a file that extends none', async () =>
    silent(rule, chassisFiles(teal.replace('vehicle:', 'tolerance: 9\nvehicle:'))));
});

describe('the record', () => {
  const job = `framewright: readings/1
chassis: w.chassis.yaml
scope: [front-rail]
timeline:
  - measure: as received
`;
  const recordOf = async (text: string) => {
    const files = { ...parents, 'w.chassis.yaml': text, 'w.readings.yaml': job };
    const analysis = await analysed(files, 'w.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('not judged');
    return recordPage({ ...analysis, inspection: analysis.inspection });
  };

  it('names the limits that are wider than in the first file', async () => {
    const page = await recordOf(tip('{ length: 2, width: [-1, 2], height: 5 }'));
    expect(page).toContain('Limits wider than in the file it extends');
    expect(page).toMatch(/rail-tip\.R height ±5\.0 \(first ±3\.0\)/);
    expect(await recordOf(child(''))).not.toContain('Limits wider');
  });
});
