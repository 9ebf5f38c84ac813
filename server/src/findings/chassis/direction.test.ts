import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { axesOrder } from '../../inspection/job/axes-order';
import { chassisOf } from '../../model/testing/read';
import { analysed } from '../testing/analysed';
import { afterFix, fixed, found, silent } from '../testing/kit';

const rule = 'chassis/direction';
const sheet = (points: string, head = '') => ({
  'a.chassis.yaml': `framewright: chassis/1\n${head}vehicle: Marten\npoints:\n${points}`,
});

const told = async (files: Record<string, string>) =>
  (await analysed(files, 'a.chassis.yaml')).findings.filter((each) => each.rule === rule);

const rearward = `  floor-front: { both: [600, 420, 95] }
  floor-rear: { both: [2150, 455, 90] }
  rail-fore-lower: { both: [-900, 430, 200] }
  rail-aft-lower: { both: [400, 435, 190] }
`;

describe(rule, () => {
  it('says of pairs that are all reversed which axis, and what to write', async () => {
    await found(rule, {
      'a.chassis.yaml': `framewright: chassis/1
#<^^^^^^^^^ warning: chassis/direction floor-front stands behind floor-rear and rail-fore-lower stands behind rail-aft-lower: the sheet counts length the other way. See the sheet, then write \`axes: [rearward, outboard, up]\`
vehicle: Marten
points:
${rearward}`,
    });
    await fixed(
      rule,
      sheet(rearward, 'axes: [forward, left, up]\n'),
      sheet(rearward, 'axes: [rearward, left, up]\n')['a.chassis.yaml'],
    );
    await found(
      rule,
      sheet(
        `  post-upper: { centre: [0, 0, -905] }
  post-lower: { centre: [0, 0, -160] }
  rail-upper: { both: [900, 430, -356] }
  rail-lower: { both: [900, 430, -212] }
`,
        'axes: [rearward, outboard, up]\n#     ^^^^^^^^^^^^^^^^^^^^^^^^ warning: chassis/direction `axes: [rearward, outboard, down]`\n',
      ),
    );
  });

  it('says of one pair among right ones that these two are exchanged', () =>
    found(
      rule,
      sheet(`  floor-front: { both: [1180, 430, 92] }
  floor-rear: { both: [-360, 461, 90] }
  sill-front: { both: [-400, 700, 20] }
# ^^^^^^^^^^ warning: chassis/direction sill-front stands behind sill-rear, and other pairs stand as they are named
  sill-rear: { both: [600, 700, 20] }
`),
    ));

  it('says where a minus means right', async () => {
    const before = `  strut-top: { left: [2244, 563, 828], right: [2244, -568, 828] }
#                                                    ^^^^ warning: chassis/direction width is + outboard on both sides: drop the minus
`;
    await found(rule, sheet(before));
    await fixed(rule, sheet(before), sheet(before.replace('-568', '568'))['a.chassis.yaml']);
    await silent(rule, sheet(before.replace(/#.*\n/, ''), 'axes: [forward, left, up]\n'));
  });

  it('lists the side that is there alone', async () => {
    const text = (span: string) =>
      sheet(`  filler: { right: [-610, 742, 705] }
  floor-rear: { both: [-360, 461, 90] }
spans:
  - ${span}
`);
    await fixed(
      rule,
      text('{ from: filler, to: floor-rear, distance: 725, pairs: straight }'),
      text('{ from: filler.R, to: floor-rear.R, distance: 725 }')['a.chassis.yaml'],
    );
    await fixed(
      rule,
      text('{ from: floor-rear, to: filler, pairs: crossed, distance: 1378 }'),
      text('{ from: floor-rear.L, to: filler.R, distance: 1378 }')['a.chassis.yaml'],
    );
  });

  it('says which side a pair of distances does not have', () =>
    found(rule, {
      'a.chassis.yaml': `framewright: chassis/1
vehicle: Marten
points:
  filler: { right: [-610, 742, 705] }
  floor-rear: { both: [-360, 461, 90] }
spans:
  - { from: filler, to: floor-rear, distance: 725, pairs: straight }
#           ^^^^^^ warning: chassis/direction filler has no left point
`,
    }));

  it('writes the axes where none stand, and exchanges two positions', async () => {
    await fixed(
      rule,
      sheet(rearward),
      sheet(rearward)['a.chassis.yaml'].replace(
        'vehicle: Marten\n',
        'vehicle: Marten\naxes: [rearward, outboard, up]\n',
      ),
    );
    const swapped = `  floor-front: { both: [1180, 430, 92] }
  floor-rear: { both: [-360, 461, 90] }
  sill-front: { both: [-400, 700, 20] }
  sill-rear: { both: [600, 701, 20] }
`;
    await fixed(
      rule,
      sheet(swapped),
      sheet(
        swapped
          .replace('front: { both: [-400, 700, 20]', 'front: { both: [600, 701, 20]')
          .replace('rear: { both: [600, 701, 20]', 'rear: { both: [-400, 700, 20]'),
      )['a.chassis.yaml'],
    );
    const apart = swapped.replace(
      '{ both: [-400, 700, 20] }',
      '{ left: [-400, 700, 20], right: [-401, 700, 20] }',
    );
    await expect(afterFix(rule, sheet(apart))).rejects.toThrow('offers no fix');
  });

  const points = `  floor-front: { both: [1180, 430, 92] }
  floor-rear: { both: [-360, 461, 90] }
  rail-front-lower: { both: [3005, 446, 212] }
  rail-front-upper: { both: [3005, 450, 356] }
  rail-rear-lower: { both: [1745, 438, 190] }
  rail-rear-upper: { both: [1745, 441, 322] }
`;
  const reordered = (of: string, write: (x: string, y: string, z: string) => string): string =>
    of.replace(/\[([-\d]+), ([-\d]+), ([-\d]+)\]/g, (_, x, y, z) => `[${write(x, y, z)}]`);
  const unnamed = points
    .replaceAll('front', 'one')
    .replaceAll('rear', 'two')
    .replaceAll('upper', 'a')
    .replaceAll('lower', 'b');

  it.each([
    ['width first', (x: string, y: string, z: string) => `${y}, ${x}, ${z}`, 'left, forward, up'],
    ['height second', (x: string, y: string, z: string) => `${x}, ${z}, ${y}`, 'forward, up, left'],
    ['length last', (x: string, y: string, z: string) => `${y}, ${z}, ${x}`, 'left, up, forward'],
  ])('says of numbers in another order what to write: %s', async (_, write, mended) => {
    const [{ message }, ...more] = await told(sheet(reordered(points, write)));
    expect(more).toEqual([]);
    expect(message).toContain('the numbers stand in another order than the file says');
    expect(message).toContain(`write \`axes: [${mended}]\``);
    await silent(rule, sheet(reordered(points, write), `axes: [${mended}]\n`));
  });

  it('sees it by positions alone, and by names alone', async () => {
    const widthFirst = (of: string) => reordered(of, (x, y, z) => `${y}, ${x}, ${z}`);
    const [byPlaces] = await told(sheet(widthFirst(unnamed)));
    expect(byPlaces.message).toContain('would stand farther out than any car is wide');
    expect(byPlaces.message).not.toContain('differ in');
    const near = points.replaceAll('3005', '1205').replaceAll('1745', '705');
    const [byNames] = await told(sheet(widthFirst(near)));
    expect(byNames.message).toContain('differ in width and not in length');
    expect(byNames.message).not.toContain('farther out');
    await silent(rule, sheet(widthFirst(unnamed.replaceAll('3005', '1205').replaceAll('1745', '705'))));
  });

  const sheets = Object.entries(sampleTexts).filter(([path]) => path.endsWith('.chassis.yaml'));
  it.each(sheets)('sees no other order in %s', (_, text) => {
    expect(text.length).toBeGreaterThan(100);
    expect(axesOrder(chassisOf(text))).toBeNull();
  });

  it('keeps silent of one pair alone, of pairs that differ in more than a word or by little, and of a sheet that counts as it says', async () => {
    await silent(
      rule,
      sheet('  floor-front: { both: [600, 420, 95] }\n  floor-rear: { both: [2150, 455, 90] }\n'),
    );
    await silent(rule, sheet(rearward.replace('rail-aft-lower', 'rail-aft-upper')));
    await silent(rule, sheet(rearward.replace('2150', '605')));
    await silent(rule, sheet(rearward, 'axes: [rearward, outboard, up]\n'));
  });
});
