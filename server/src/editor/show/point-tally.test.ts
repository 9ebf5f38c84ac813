import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { shopFolder, shopOf } from '../testing/shop';
import { pointTally, tallyText } from './point-tally';

const row = (width: number) =>
  `      rail-tip-lower.L: [3012, ${width}, 210]\n      rail-tip-lower.R: [3012, -448, 210]\n      rail-tip-upper.L: [3012, 452, 352]\n      rail-tip-upper.R: [3012, -452, 352]`;
const zone = 'instrument: { name: arm, uncertainty: 0.2 }\nbase: { between: [-800, 1500] }';
const job = (width: number) => jobOn(measured(row(width)), zone);

const variant =
  'framewright: chassis/1\nextends: ./car.chassis.yaml\nvehicle: van\npoints:\n  latch: { centre: [3100, 0, 780] }\n';

const texts = {
  'car.chassis.yaml': carChassis,
  'van.chassis.yaml': variant,
  'other.chassis.yaml': carChassis.replace('vehicle: Marten five-door hatchback', 'vehicle: Teal'),
  'w-1.readings.yaml': job(468),
  'w-2.readings.yaml': job(448),
  'w-3.readings.yaml': job(430).replace('car.chassis', 'van.chassis'),
  'w-4.readings.yaml': job(500).replace('car.chassis', 'other.chassis'),
};

const tallyOf = async (files: Record<string, string>, name: string, point: string) =>
  tallyText(point, await pointTally(shopOf(files).workspaceQuery(), shopFolder + name));

describe('above a point of a chassis', () => {
  it('stands in how many jobs it was outside, side by side, those of a body that extends it too', async () => {
    expect(await tallyOf(texts, 'car.chassis.yaml', 'rail-tip-lower')).toBe(
      'L outside in 2 of 3 jobs, R outside in 0 of 3 jobs',
    );
  });

  it('counts for a file what is written in it: not what it has from its parent', async () => {
    expect(await tallyOf(texts, 'van.chassis.yaml', 'rail-tip-lower')).toBe('read in no job');
    expect(await tallyOf(texts, 'other.chassis.yaml', 'rail-tip-lower')).toBe(
      'L outside in 1 of 1 job, R outside in 0 of 1 job',
    );
  });

  it('counts neither peaks nor a measure whose base is not settled', async () => {
    const pulled = jobOn(
      `${measured(row(448))}\n  - pull: out\n    part: front-rail.L\n  - measure: under load\n    readings: { rail-tip-lower.L: [3012, 480, 210] }`,
      zone,
    );
    const only = { 'car.chassis.yaml': carChassis, 'w-1.readings.yaml': pulled };
    expect(await tallyOf(only, 'car.chassis.yaml', 'rail-tip-lower')).toMatch(/^L outside in 0 of 1 job,/);
    const few = jobOn('  - measure: a\n    readings:\n      rail-tip-lower.L: [3012, 480, 210]');
    const unsettled = { 'car.chassis.yaml': carChassis, 'w-1.readings.yaml': few };
    expect(await tallyOf(unsettled, 'car.chassis.yaml', 'rail-tip-lower')).toBe('read in no job');
  });

  it('says where jobs were left out', () => {
    const tallies = new Map([['latch', { read: 300, outside: 2 }]]);
    expect(tallyText('latch', { tallies, left: 5 })).toBe('outside in 2 of 300 jobs (of the first 300)');
  });
});
