import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured, soundBase } from '../../testing/car';
import { recordOf, sectionOf, shownText } from '../sample.fixture';

const recordOn = (job: string) =>
  recordOf({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job }, 'w.readings.yaml');

describe('what was not measured', () => {
  it('is told apart: never, out of reach, under load only, before the last work', async () => {
    const text = shownText(
      sectionOf(
        await recordOn(
          jobOn(
            `${measured('      rail-tip-upper.L: [3012, 452, 352]\n      rail-tip-upper.R: unreachable\n      rail-root-upper.L: [1760, 445, 328]')}
  - pull: left rail
    part: front-rail.L
    chains: [{ hook: rail-tip-upper.L, direction: [1, 0, 0] }]
  - measure: under load
    readings:
      rail-tip-lower.L: [3012, 448, 210]
  - release: all`,
            'scope: [front-rail]',
          ),
        ),
        'unmeasured',
      ),
    );
    expect(text).toMatch(
      /not measured \(4\) rail-root-lower \(both sides\), rail-root-upper\.R, rail-tip-lower\.R –/,
    );
    expect(text).toMatch(/unreachable, not measured \(1\) rail-tip-upper\.R as received/);
    expect(text).toMatch(/measured under load only \(1\) rail-tip-lower\.L under load/);
    expect(text).toMatch(
      /not measured since the last work \(2\) rail-root-upper\.L, rail-tip-upper\.L as received/,
    );
    // what is older than the work is not counted as within
    expect(text).not.toContain('Every point to be judged was read');
  });

  it('counts nothing of a part that is still being pulled, and does not say that all was read', async () => {
    const record = await recordOn(
      jobOn(
        `${measured('      rail-tip-upper.L: [3012, 452, 352]\n      rail-root-upper.L: [1760, 445, 328]')}
  - pull: left rail
    part: front-rail.L
    chains: [{ hook: rail-tip-upper.L, direction: [1, 0, 0] }]`,
        'scope: [front-rail.L]',
      ),
    );
    expect(shownText(sectionOf(record, 'standing'))).toContain(
      'Of 4 points to be judged, by readings off load that no later work has outdated: 0 within, 0 outside, 0 undecided, 0 unjudged, 4 without such a reading.',
    );
    const unmeasured = shownText(sectionOf(record, 'unmeasured'));
    expect(unmeasured).toContain('Still under load at the end: front-rail.L');
    expect(unmeasured).not.toContain('Every point to be judged was read');
  });

  it('counts nothing as within where the base is not settled, and says that the stage is provisional', async () => {
    // the rear control points stand 12 mm high together: either half of the body may be the sound one
    const torn = soundBase
      .split('\n')
      .map((row) =>
        /floor-rear|tunnel/.test(row) ? row.replace(/(\d+)\]/, (_, up) => `${Number(up) + 12}]`) : row,
      );
    const record = await recordOn(
      jobOn(`  - measure: as received\n    readings:\n${torn.join('\n')}\n      latch: [3050, 0, 780]`),
    );
    const counts = shownText(sectionOf(record, 'standing')).match(
      /(\d+) within, (\d+) outside, (\d+) undecided/,
    )!;
    expect(Number(counts[1])).toBe(0);
    expect(Number(counts[2]) + Number(counts[3])).toBe(9);
    expect(Number(counts[3])).toBeGreaterThan(0);
    const open = shownText(sectionOf(record, 'open-points'));
    expect(open).toContain('(provisional)');
    expect(open).toMatch(/latch .*undecided/);
  });

  it('holds counts back where a file has errors', async () => {
    const record = await recordOn(`${jobOn(measured(''))}sign-off: { by: [\n`);
    expect(shownText(sectionOf(record, 'standing'))).not.toContain('to be judged, by readings');
    expect(shownText(sectionOf(record, 'standing'))).toContain('nothing is judged until they are corrected');
    expect(shownText(sectionOf(record, 'unmeasured'))).toContain('Not judged until');
  });

  it('counts no outdated reading as within', async () => {
    const record = await recordOn(
      jobOn(
        `${measured('      rail-tip-upper.L: [3012, 452, 352]')}
  - pull: left rail
    part: front-rail.L
    chains: [{ hook: rail-tip-upper.L, direction: [1, 0, 0] }]
  - release: all`,
        'scope: [front-rail.L]',
      ),
    );
    expect(shownText(sectionOf(record, 'standing'))).toContain(
      'Of 4 points to be judged, by readings off load that no later work has outdated: 0 within, 0 outside, 0 undecided, 0 unjudged, 4 without such a reading.',
    );
  });
});
