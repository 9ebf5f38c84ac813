import { describe, it } from 'vitest';
import { fixed, found, silent } from '../testing/kit';

const rule = 'chassis/direction';
const sheet = (points: string, head = '') => ({
  'a.chassis.yaml': `framewright: chassis/1\n${head}vehicle: Marten\npoints:\n${points}`,
});

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
