import { describe, expect, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'reading/outside';

describe(rule, () => {
  it('says how far, which way, how certain and where to', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-upper.L: [3012, 440.8, 352]
#     ^^^^^^^^^^^^^^^^ error: reading/outside rail-tip-upper.L is 11.2 mm too far right (inboard); limit ±3.0, certain to ±0.
      latch: [3045, 4, 780]
#     ^^^^^ error: reading/outside latch is 5.0 mm too far rearward and 4.0 mm too far left;`),
        ),
      ),
    ));

  it('ends with the move', async () => {
    const { findings } = await analysed(
      filesOf(jobOn(measured('      rail-tip-upper.L: [3012, 440.8, 352]'))),
      'w.readings.yaml',
    );
    expect(findings.find((each) => each.rule === rule)?.message).toMatch(
      /Move it 11\.2 mm left \(outboard\)\.$/,
    );
  });

  it('is information in an earlier stage and under load', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured(`      rail-tip-upper.L: [3012, 440, 352]
#     ^^^^^^^^^^^^^^^^ information: reading/outside It was measured again in “after first pull”.`)}
  - pull: left rail to the left
    part: front-rail.L
  - measure: under load
    readings:
      rail-tip-upper.L: [3012, 460, 352]
#     ^^^^^^^^^^^^^^^^ information: reading/outside It was under load then
  - release: all
  - measure: after first pull
    readings:
      rail-tip-upper.L: [3012, 446, 352]
#     ^^^^^^^^^^^^^^^^ error: reading/outside 6.0 mm too far right (inboard)`),
      ),
    ));

  it('shows where the reference stands for the newest reading only: history takes one line', async () => {
    const { findings } = await analysed(
      filesOf(
        jobOn(
          `${measured('      rail-tip-upper.L: [3012, 440, 352]')}\n${measured('      rail-tip-upper.L: [3012, 446, 352]', 'again')}`,
        ),
      ),
      'w.readings.yaml',
    );
    const found = findings.filter((each) => each.rule === rule);
    expect(found.map(({ severity, related }) => [severity, related.map(({ message }) => message)])).toEqual([
      ['information', []],
      ['error', ['the reference of rail-tip-upper.L']],
    ]);
  });

  it('says lopsided limits with their directions, outboard to the right on the right', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-upper.R: [3012, -448, 352]
#     ^^^^^^^^^^^^^^^^ error: reading/outside limits 4.0 mm right (outboard) and 2.0 mm left (inboard)`),
        ),
        carChassis.replace('rail-tip-upper: {', 'rail-tip-upper: { tolerance: { width: [-2, 4] },'),
      ),
    ));

  it('says that the stage is provisional', () =>
    found(
      rule,
      filesOf(
        jobOn(`${measured(`      rail-tip-upper.L: [3012, 440, 352]
#     ^^^^^^^^^^^^^^^^ error: reading/outside Provisional: a file has errors.`)}
  - note: [`),
      ),
      { broken: true },
    ));

  it('is silent within tolerance and where it cannot be told', () =>
    silent(
      rule,
      filesOf(jobOn(measured('      rail-tip-upper.L: [3012, 449.1, 352]\n      latch: [3050, 3.1, 780]'))),
    ));
});
