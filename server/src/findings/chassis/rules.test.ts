import { describe, expect, it } from 'vitest';
import { teal } from '../../testing/teal';
import { chassisFiles, fixed, found, foundBy } from '../testing/kit';

const child = (lines: string) => `framewright: chassis/1\nextends: ./teal.chassis.yaml\n${lines}`;
const parent = { 'teal.chassis.yaml': teal };

describe('chassis/coincident-points', () => {
  const rule = 'chassis/coincident-points';

  it('marks the second of two in one place, once for both sides', () =>
    found(
      rule,
      chassisFiles(
        teal.replace(
          'spans:',
          `  rail-end: { both: [2600.3, 400.4, 200], part: front-rail }
# ^^^^^^^^ warning: chassis/coincident-points rail-end stands where rail-tip is (0.5 mm apart)
spans:`,
        ),
      ),
    ));

  it('tells a centre point written as a pair', () =>
    found(
      rule,
      chassisFiles(
        teal.replace(
          'spans:',
          `  tunnel: { both: [900, 0.4, 240] }
# ^^^^^^ warning: chassis/coincident-points left and right of tunnel are 0.8 mm apart: a point on the centre plane is \`centre\`
spans:`,
        ),
      ),
    ));

  it('is silent from 1 mm on, and of the parent’s own', async () => {
    expect(
      await foundBy(rule, teal.replace('spans:', '  rail-end: { both: [2601, 400, 200] }\nspans:')),
    ).toEqual([]);
    const faulty = teal.replace('spans:', '  rail-end: { both: [2600, 400, 200] }\nspans:');
    expect(await foundBy(rule, child(''), { 'teal.chassis.yaml': faulty })).toEqual([]);
    expect(
      await foundBy(rule, child('points:\n  rail-end: { left: [2600, 400, 200] }\n'), parent),
    ).toHaveLength(1);
  });
});

describe('chassis/units', () => {
  const rule = 'chassis/units';
  const inches = `framewright: chassis/1
vehicle: Teal
units: mm
points:
  rail-tip: { both: [118.6, 17.6, 8.3] }
  sill: { both: [-13.8, 20, 3.5] }
`;

  it('marks the unit of inches taken for millimetres', async () => {
    await found(
      rule,
      chassisFiles(
        inches.replace(
          'mm\n',
          'mm\n#      ^^ warning: chassis/units the points lie within 132.4 mm of length, and no car body has that length: are these figures in inches?\n',
        ),
      ),
    );
    await fixed(rule, chassisFiles(inches), inches.replace('units: mm', 'units: inch'));
  });

  it('tells millimetres taken for inches', async () => {
    const [found] = await foundBy(rule, teal.replace('vehicle', 'units: inch\nvehicle'));
    expect(found).toEqual({
      message: expect.stringContaining(
        '3050.000 in of length, and no car body has that length: are these figures in mm?',
      ),
      fixes: ['mm'],
    });
  });

  it('suspects a digit where the unit cannot be it', async () => {
    const [found] = await foundBy(rule, teal.replace('[2700, 12, 780]', '[27000, 12, 780]'));
    expect(found).toEqual({ message: expect.stringContaining('a digit too many or too few'), fixes: [] });
  });

  it('is silent of a body between 1 and 20 m, of one point, and of what a parent shows', async () => {
    expect(await foundBy(rule, teal)).toEqual([]);
    expect(
      await foundBy(rule, 'framewright: chassis/1\nvehicle: Teal\npoints:\n  latch: { centre: [1, 2, 3] }\n'),
    ).toEqual([]);
    expect(
      await foundBy(rule, child('points:\n  hook: { centre: [9, 2, 3] }\n'), { 'teal.chassis.yaml': inches }),
    ).toEqual([]);
  });
});

describe('chassis/twist-unobservable', () => {
  const rule = 'chassis/twist-unobservable';
  const oneLevel = teal.replace(/ {2}rail-root-upper.*\n/, '');

  it('marks a rail with one level', () =>
    found(
      rule,
      chassisFiles(
        oneLevel.replace(
          'front-rail: { sided: true }\n',
          'front-rail: { sided: true }\n# ^^^^^^^^^^ information: chassis/twist-unobservable the points of front-rail stand on one level over 840.0 mm: a twist of it cannot be seen\n',
        ),
      ),
    ));

  it('is silent where one station has two levels over 40 mm apart', async () => {
    expect(await foundBy(rule, teal)).toEqual([]);
    expect(await foundBy(rule, teal.replace('[1760, 400, 322]', '[1760, 400, 228]'))).toHaveLength(1);
    expect(await foundBy(rule, teal.replace('[1760, 400, 322]', '[1760, 400, 228.5]'))).toEqual([]);
    // beside is not above
    expect(await foundBy(rule, teal.replace('[1760, 400, 322]', '[1760, 460, 188]'))).toHaveLength(1);
    // nor is somewhere else along the rail
    expect(await foundBy(rule, teal.replace('[1760, 400, 322]', '[1810, 400, 322]'))).toHaveLength(1);
  });

  it('counts what stands across a pillar', async () => {
    const pillar = (second: string) =>
      teal
        .replace('floor: {}', 'floor: {}\n  pillar: { sided: true, along: height }')
        .replace(
          'spans:',
          `  pillar-foot: { both: [900, 700, 200], part: pillar }\n  pillar-head: { both: [850, 600, 1300], part: pillar }\n  pillar-lock: { both: ${second}, part: pillar }\nspans:`,
        );
    expect(await foundBy(rule, pillar('[930, 700, 210]'))).toHaveLength(1);
    expect(await foundBy(rule, pillar('[950, 700, 210]'))).toEqual([]);
  });

  it('is silent of short parts, unsided ones and those of a parent', async () => {
    expect(await foundBy(rule, oneLevel.replace('[2600, 400, 200]', '[2060, 400, 200]'))).toEqual([]);
    expect(await foundBy(rule, oneLevel.replace('{ sided: true }', '{}'))).toEqual([]);
    expect(await foundBy(rule, child(''), { 'teal.chassis.yaml': oneLevel })).toEqual([]);
  });
});

describe('chassis/no-source', () => {
  const rule = 'chassis/no-source';
  const none = teal.replace('source: { kind: published }\n', '');

  it('marks the file', () =>
    found(
      rule,
      chassisFiles(
        none.replace('chassis/1\n', 'chassis/1\n#<^^^^^^^^^ information: chassis/no-source add `source`\n'),
      ),
    ));

  it('is silent where it is stated, in each point, or by the parent', async () => {
    expect(await foundBy(rule, teal)).toEqual([]);
    const own =
      'framewright: chassis/1\nvehicle: Teal\npoints:\n  latch: { centre: [1, 2, 3], source: { kind: donor } }\n';
    expect(await foundBy(rule, own)).toEqual([]);
    expect(await foundBy(rule, child(''), parent)).toEqual([]);
    expect(await foundBy(rule, child(''), { 'teal.chassis.yaml': none })).toEqual([]);
  });
});
