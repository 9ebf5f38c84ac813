import { describe, expect, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { applyEdits } from '../../text/edits';
import { offsetsOf } from '../../text/tree';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'reading/gross';

/** The job after each fix that a gross finding offers, by title. */
async function afterFixes(job: string): Promise<Record<string, string>> {
  const { findings } = await analysed(filesOf(job), 'w.readings.yaml');
  const result: Record<string, string> = {};
  for (const { replacements } of findings.filter((each) => each.rule === rule))
    for (const { title, also, ...first } of replacements)
      result[title] = applyEdits(
        job,
        [first, ...(also ?? [])].map(({ place, text }) => ({ ...offsetsOf(place), text })),
      );
  return result;
}

describe(rule, () => {
  it('finds a lost sign, swapped digits, the wrong point, and what nothing explains', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-lower.R: [3012, 448, 210]
#     ^^^^^^^^^^^^^^^^ error: reading/gross it is at the place of rail-tip-lower.L, on the other side (then 0.0 mm off); or its second number has the wrong sign, 448 for -448
      rail-tip-upper.L: [3012, 452, -352]
#     ^^^^^^^^^^^^^^^^ error: reading/gross its third number has the wrong sign, -352 for 352 (then 0.0 mm off)
      rail-root-lower.L: [7160, 441, 188]
#     ^^^^^^^^^^^^^^^^^ error: reading/gross two digits the wrong way round, 7160 for 1760
      strut-top.L: [3050, 0, 780]
#     ^^^^^^^^^^^ error: reading/gross it is at the place of latch
      latch: [3650, 0, 780]
#     ^^^^^ error: reading/gross 600.0 mm off (600.0 mm forward): no damage moves a point so far`),
        ),
      ),
    ));

  it('asks about the sheet where both sides are off by the same large amount, and offers no mending of readings', async () => {
    const both = (left: number, right: number) =>
      measured(`      strut-top.L: [${left}, 561, 830]
      strut-top.R: [${right}, -561, 830]`);
    const messages = async (text: string, name: string) => {
      const { findings } = await analysed(filesOf(jobOn(text)), 'w.readings.yaml');
      return findings.filter((each) => each.rule === name);
    };
    // 2520 for 2250 on the sheet: two digits exchanged
    const slipped = await messages(both(2520, 2520), rule);
    expect(slipped.map(({ message }) => message)).toEqual([
      'strut-top.L is 270.0 mm off (270.0 mm forward). So is strut-top.R, by as much: look at the sheet before anything is moved.',
      'strut-top.R is 270.0 mm off (270.0 mm forward). So is strut-top.L, by as much: look at the sheet before anything is moved.',
    ]);
    expect(slipped.flatMap(({ replacements }) => replacements)).toEqual([]);
    // that no slip explains
    const moved = await messages(both(2400, 2400), 'reading/outside');
    expect(moved).toHaveLength(2);
    for (const { message } of moved) {
      expect(message).toContain('by as much: look at the sheet before anything is moved.');
      expect(message).not.toContain('Move it');
    }
    // one side alone, both by little, and both by amounts of their own are moved
    for (const text of [both(2400, 2250), both(2290, 2290), both(2400, 2430)])
      for (const { message } of await messages(text, 'reading/outside')) expect(message).toContain('Move it');
  });

  it('finds sides that were swapped', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      strut-top.L: [2250, -561, 830]
#     ^^^^^^^^^^^ error: reading/gross left and right are swapped
      strut-top.R: [2250, 561, 830]
#     ^^^^^^^^^^^ error: reading/gross left and right are swapped`),
        ),
      ),
    ));

  it('looks at the numbers of the instrument, not of the car', () =>
    // the instrument stands behind the car, looking forward from 5 m, with its second number to the right, in inches
    found(
      rule,
      filesOf(`framewright: readings/1
units: inch
chassis: car.chassis.yaml
instrument: { name: arm, uncertainty: 0.008 }
axes: [rearward, right, up]
timeline:
  - measure: as received
    readings:
      floor-front.L: [${(5000 - 1200) / 25.4}, ${-420 / 25.4}, ${95 / 25.4}]
      floor-front.R: [${(5000 - 1200) / 25.4}, ${420 / 25.4}, ${95 / 25.4}]
      floor-rear.L: [${(5000 + 350) / 25.4}, ${-455 / 25.4}, ${90 / 25.4}]
      floor-rear.R: [${(5000 + 350) / 25.4}, ${455 / 25.4}, ${90 / 25.4}]
      cowl-hole.L: [${(5000 - 1480) / 25.4}, ${-612 / 25.4}, ${905 / 25.4}]
      cowl-hole.R: [${(5000 - 1480) / 25.4}, ${612 / 25.4}, ${905 / 25.4}]
      rail-root-lower.L: [172.56, -17.36, 7.40]
#     ^^^^^^^^^^^^^^^^^ error: reading/gross its first number has two digits the wrong way round, 172.56 for 127.56`),
    ));

  it('finds a slip in one of several repeats', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      latch: [[3050, 0, 780], [3500, 0, 780], [3500, 0, 780]]   # 3050 twice the wrong way round
#     ^^^^^ error: reading/gross its first number has two digits the wrong way round, 3500 for 3050`).replace(
            '[3050, 0, 780], ',
            '',
          ),
        ),
      ),
    ));

  it('goes before reading/outside and base/moved', async () => {
    const job = jobOn(
      measured('      latch: [3650, 0, 780]').replace('floor-rear.R: [-350,', 'floor-rear.R: [350,'),
    );
    const { findings } = await analysed(filesOf(job), 'w.readings.yaml');
    expect(findings.filter((each) => each.rule === rule)).toHaveLength(2);
    await silent('reading/outside', filesOf(job));
    await silent('base/moved', filesOf(job));
  });

  it('offers corrections that settle it', async () => {
    const swapped = jobOn(
      measured(
        '      strut-top.L: [2250, -561, 830]   # mine\n      latch: [3050, 0, 780]\n      strut-top.R: [2250, 561, 830]',
      ),
    );
    const fixes = await afterFixes(swapped);
    expect(Object.keys(fixes)).toContain('Swap strut-top.L and strut-top.R');
    await silent(rule, filesOf(fixes['Swap strut-top.L and strut-top.R']));
    expect(fixes['Swap strut-top.L and strut-top.R']).toContain('strut-top.R: [2250, -561, 830]   # mine');

    const digits = await afterFixes(jobOn(measured('      rail-root-lower.L: [7160, 441, 188]')));
    await silent(rule, filesOf(digits['Write 1760 for 7160']));
    const renamed = await afterFixes(jobOn(measured('      rail-tip-lower.R: [3012, 448, 210]')));
    await silent(rule, filesOf(renamed['Rename to rail-tip-lower.L']));
  });

  it('is silent about real damage, and about a slip that stays under 100 mm', () =>
    silent(
      rule,
      filesOf(
        jobOn(measured('      latch: [2600, 30, 740]\n      rail-tip-upper.L: [3012, 452, 325]')),
        carChassis,
      ),
    ));
});
