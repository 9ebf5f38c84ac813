import { describe, expect, it } from 'vitest';
import { filesOf, jobOn, measured, soundBase } from '../../testing/car';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'reading/undecided';

describe(rule, () => {
  /** What is said of one point read on a sound base. */
  const saidOf = async (row: string, head?: string): Promise<string> => {
    const { findings } = await analysed(filesOf(jobOn(measured(`      ${row}`), head)), 'w.readings.yaml');
    return findings.find((each) => each.rule === rule)?.message ?? 'nothing';
  };
  const repeatable = 'instrument: { name: arm, uncertainty: 0.6, repeatability: 0.6 }';
  const unstated = 'instrument: { name: arm, uncertainty: 0.6 }';

  it('of a point over its limit says how far to bring it: |d| − T to |d| − T + 1.64 u', async () => {
    await found(
      rule,
      filesOf(
        jobOn(
          measured(`      rail-root-lower.L: [1760, 444.4, 188]
#     ^^^^^^^^^^^^^^^^^ warning: reading/undecided 3.4 mm left (outboard), over its limit but not for certain (limit ±3.0, certain only to ±`),
          unstated,
        ),
      ),
    );
    const said = await saidOf('rail-root-lower.L: [1760, 444.4, 188]', unstated);
    const [, certain, least, most] =
      /only to ±([\d.]+) at 95 %\)\. Bring it ([\d.]+) to ([\d.]+) mm right \(inboard\), or read it again\.$/.exec(
        said,
      )!;
    expect(least).toBe('0.4');
    // both figures are rounded to 0.1
    expect(Math.abs(Number(most) - 0.4 - (1.645 * Number(certain)) / 1.96)).toBeLessThan(0.1);
    // the other way round
    expect(await saidOf('rail-root-lower.L: [1760, 437.6, 188]', unstated)).toContain(
      `Bring it ${least} to ${most} mm left (outboard), or read it again.`,
    );
    expect(await saidOf('rail-root-lower.L: [1760, 441, 191.4]', unstated)).toMatch(
      /Bring it 0\.4 to [\d.]+ mm down, or read it again\.$/,
    );
  });

  it('advises repeats where repeatability is stated and three suffice, and nowhere else', async () => {
    const at = (mm: number) => `rail-root-lower.L: [1760, ${441 + mm}, 188]`;
    expect(await saidOf(at(1.9), repeatable)).toMatch(/ Read it twice in all: that decides it\.$/);
    expect(await saidOf(at(2.1), repeatable)).toMatch(/ Read it three times in all: that decides it\.$/);
    for (const said of [await saidOf(at(2.3), repeatable), await saidOf(at(2.1), unstated)]) {
      expect(said).not.toMatch(/times|twice|repeat/);
      expect(said).toMatch(
        / Only ±[\d.]+ mm, alignment included, decides it as it stands: use a better instrument, or bring it [\d.]+ mm right \(inboard\)\.$/,
      );
    }
  });

  it('names what to read where a stronger base decides it, over the limit and inside', async () => {
    const weakly = async (height: number) => {
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
    // too uncertain to be within anywhere: nobody is told how far to move it
    expect(await weakly(215.2)).toMatch(
      / Its place is too uncertain to move it by: read cowl-hole, both sides\.$/,
    );
    expect(await weakly(210.9)).toMatch(/ Read cowl-hole, both sides: that decides it\.$/);
    // nearer to its limit it needs more than that
    expect(await weakly(212.6)).toMatch(/ First read cowl-hole, both sides\.$/);
  });

  it('does not ask for control points where none that the sheet has would help', async () => {
    const said = await saidOf(
      'rail-tip-lower.L: [3012, 450.9, 210]',
      'instrument: { name: arm, uncertainty: 0.5 }',
    );
    expect(said).toMatch(/use a better instrument, or bring it [\d.]+ mm right \(inboard\)\.$/);
    expect(said).not.toContain('control point');
  });

  it('takes a point for undecided where its uncertainty is larger than the tolerance', async () => {
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
            '#     ^^^^^ warning: reading/undecided latch is off by 20.4 mm up, over its limit but not for certain (limit ±3.0, certain only to ±24.0 at 95 %). Its place is too uncertain to move it by: read cowl-hole, both sides\n',
          ),
          coarse,
        ),
      ),
    );
    await silent('reading/outside', filesOf(jobOn(weak(''), coarse)));
  });

  it('never shows two equal figures: a point on its limit is off by as much as its limit, and no reading decides it', async () => {
    const on = await saidOf('latch: [3050, 3, 780]');
    expect(on).toMatch(
      /^latch is off by 3\.0 mm left, as much as its limit \(certain only to ±[\d.]+ at 95 %\)\. It stands on its limit, and no reading decides that: bring it [\d.]+ mm right, or leave it\.$/,
    );
    // over it by less than is shown
    const over = await saidOf('latch: [3050, 3.02, 780]');
    expect(over).toMatch(/as much as its limit .*\. Bring it (\d\.\d) mm right, or read it again\.$/);
  });

  it('does not tell to move or to read anything by a base that is not settled', async () => {
    const torn = soundBase
      .replace('[-350, 455, 90]', '[-350, 455, 104]')
      .replace('[-350, -455, 90]', '[-350, -455, 104]');
    const rows = `  - measure: as received\n    readings:\n${torn}\n      latch: [3050, 3.4, 780]`;
    const { findings } = await analysed(filesOf(jobOn(rows)), 'w.readings.yaml');
    const said = findings.filter((each) => each.rule === rule).map(({ message }) => message);
    expect(said.length).toBeGreaterThan(0);
    for (const message of said) {
      expect(message).toContain(' Settle the base first: what is said of it depends on that. Provisional: ');
      expect(message).not.toMatch(/[Bb]ring it|better instrument/);
    }
  });

  it('names no move that shows as nothing', async () => {
    // within by less than 0.05 mm
    for (let mm = 2.0; mm < 2.9; mm += 0.02)
      expect(await saidOf(`latch: [3050, ${mm.toFixed(2)}, 780]`)).not.toContain('0.0 mm right');
  });

  it('asks no more than decides one axis of a point that is over it, whatever its other axes do', async () => {
    const said = await saidOf('latch: [3050, 3, 783.4]');
    expect(said).toMatch(/^latch is off by 3\.4 mm up, over its limit but not for certain/);
    expect(said).toMatch(/ Bring it 0\.4 to [\d.]+ mm down, or read it again\.$/);
  });

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
