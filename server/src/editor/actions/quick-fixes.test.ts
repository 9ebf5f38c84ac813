import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { before, chosenAt, offeredAt } from '../testing/asked';

const name = 'w.readings.yaml';
const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, [name]: job });

/** Titles of the fixes at a piece of a file. */
const fixesAt = async (files: Record<string, string>, file: string, piece: string): Promise<string[]> => {
  const offered = await offeredAt({ ...files, [file]: before(files[file], piece) }, file);
  return [...offered.values()]
    .filter(({ mends, ask }) => mends !== null && ask === undefined)
    .map(({ title }) => title);
};

describe('a fix that would write a name where it stands already is not offered', () => {
  it('a row of readings gets the side that the measure lacks', async () => {
    const both = ['Change to rail-tip-lower.L', 'Change to rail-tip-lower.R'];
    const alone = jobOn(measured('      rail-tip-lower: [3012, 448, 210]'));
    expect(await fixesAt(shop(alone), name, 'rail-tip-lower')).toEqual(both);
    const beside = jobOn(
      measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-lower: [3012, -448, 210]'),
    );
    expect(await fixesAt(shop(beside), name, 'rail-tip-lower:')).toEqual(both.slice(1));
  });

  it('a key is not made of two', async () => {
    const two = jobOn(measured('      latch: [3050, 0, 780]')).replace(
      'instrument:',
      'instrument: { name: a }\ninstrumen:',
    );
    expect(await fixesAt(shop(two), name, 'instrumen:')).toEqual([]);
    const one = two.replace('instrument: { name: a }\n', '');
    expect(await fixesAt(shop(one), name, 'instrumen:')).toEqual(['Change to instrument']);
  });

  it('a distance has two ends, in a job and in a chassis file', async () => {
    const spans = (ends: string) =>
      jobOn(`${measured('      latch: [3050, 0, 780]')}\n    spans:\n      - [${ends}, 900]`);
    const lacking = await fixesAt(shop(spans('strut-top, rail-tip-lower.L')), name, 'strut-top,');
    expect(lacking).toEqual(['Change to strut-top.L', 'Change to strut-top.R']);
    const same = await fixesAt(shop(spans('strut-top.L, strut-top')), name, 'strut-top, 900');
    expect(same).toEqual(['Change to strut-top.R']);
    const sheet = carChassis.replace(
      'from: rail-tip-lower.L, to: strut-top.R',
      'from: strut-top.L, to: strut-top',
    );
    const inSheet = await fixesAt({ 'car.chassis.yaml': sheet }, 'car.chassis.yaml', 'strut-top, distance');
    expect(inSheet).toEqual(['Change to strut-top.R']);
  });
});

it('another fix is offered and does what it says', async () => {
  const job = jobOn(measured('      rail-tip-uper.L: [3012, 452, 352]'));
  const files = shop(before(job, 'rail-tip-uper'));
  expect(await chosenAt(files, name, 'Change to rail-tip-upper.L')).toBe(job.replace('uper', 'upper'));
});
