import { describe, expect, it } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'reading/undecided';

describe(rule, () => {
  it('says that repeats would decide it, where they would', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-lower.L: [3012, 450.2, 210]
#     ^^^^^^^^^^^^^^^^ warning: reading/undecided off by 2.2 mm left (outboard), just inside (limit ±3.0, certain only to ±`),
          'instrument: { name: arm, uncertainty: 0.6, repeatability: 0.6 }',
        ),
      ),
    ));

  it('says how many repeats are enough', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-root-lower.L: [1760, 443.2, 188]
#     ^^^^^^^^^^^^^^^^^ warning: reading/undecided repeats of the reading are enough`),
          'instrument: { name: arm, uncertainty: 0.6, repeatability: 0.6 }',
        ),
      ),
    ));

  it('says where the base alone is too weak for it', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-tip-lower.L: [3012, 450.9, 210]
#     ^^^^^^^^^^^^^^^^ warning: reading/undecided the alignment alone leaves`),
          'instrument: { name: arm, uncertainty: 0.5 }',
        ),
      ),
    ));

  it('names what to read where a stronger base decides it', async () => {
    const saidOf = async (height: number) => {
      const rows = `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rail-tip-lower.L: [3012, 448, ${height}]`;
      const head = 'instrument: { name: arm, uncertainty: 0.8 }\nscope: [front-rail]';
      const { findings } = await analysed(filesOf(jobOn(rows, head)), 'w.readings.yaml');
      return findings.find((each) => each.rule === rule && each.message.startsWith('rail-tip-lower.L'))
        ?.message;
    };
    expect(await saidOf(215.2)).toContain(': read cowl-hole, both sides, and that is enough.');
    // nearer to its limit it needs more than that
    expect(await saidOf(214.6)).toContain(': read cowl-hole, both sides, first.');
  });

  it('takes a point for undecided where its uncertainty is larger than the tolerance, and calls it not near', async () => {
    // a base of three points on one side and a coarse instrument: the latch is known to an inch
    const weak = (mark: string) => `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-rear.L: [-350, 455, 90]
      tunnel-front.L: [905, 188, 242]
      latch: [3050, 0, 800.4]
${mark}`;
    const coarse = 'instrument: { name: arm, uncertainty: 4.87 }';
    await found(
      rule,
      filesOf(
        jobOn(
          weak(
            '#     ^^^^^ warning: reading/undecided 20.4 mm up, outside (limit ±3.0, certain only to ±24.0\n',
          ),
          coarse,
        ),
      ),
    );
    await silent('reading/outside', filesOf(jobOn(weak(''), coarse)));
  });

  it('says that nothing decides a point on its limit', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      latch: [3050, 3, 780]
#     ^^^^^ warning: reading/undecided It stands exactly on the limit`),
        ),
      ),
    ));

  it('asks no more than decides one axis of a point that is outside, whatever its other axes do', () =>
    found(
      rule,
      filesOf(
        jobOn(
          measured(`      latch: [3050, 3, 783.4]
#     ^^^^^ warning: reading/undecided An uncertainty of ±0.5 mm would decide it`),
        ),
      ),
    ));

  it('counts only the newest released reading', () =>
    silent(
      rule,
      filesOf(
        jobOn(`${measured('      latch: [3050, 3, 780]')}
  - measure: again
    readings: { latch: [3050, 1, 780] }
  - pull: latch down
    hook: latch
    direction: [0, 0, -1]
    force: 5 kN
  - measure: under load
    readings: { latch: [3050, 3, 780] }`),
      ),
    ));
});
