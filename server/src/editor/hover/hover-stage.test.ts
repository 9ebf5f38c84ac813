import { describe, expect, it } from 'vitest';
import { signed, filesOf as signedFiles } from '../../findings/testing/sign-off';
import { bentFrom, job, measure, off } from '../../testing/body';
import { carChassis, filesOf, jobOn, measured, soundBase } from '../../testing/car';
import { before, shownAt } from '../testing/asked';

async function shown(text: string, piece = 'measure:', nth = 0, chassis = carChassis): Promise<string> {
  return (await shownAt(filesOf(before(text, piece, nth), chassis), 'w.readings.yaml'))?.markdown ?? '';
}

describe('a stage', () => {
  it('says what it was aligned on, how well, what was assumed, and what it shows', async () => {
    const markdown = await shown(
      jobOn(measured('      rail-tip-lower.L: [3012, 438, 210]\n      rail-tip-upper.L: [3012, 435, 352]')),
    );
    expect(markdown).toMatch(/^\*\*as received\*\*: 8 within, 2 outside, 0 undecided\n/);
    expect(markdown).toContain('- base: cowl-hole.L, cowl-hole.R, floor-front.L');
    expect(markdown).toContain('- the base fits to 0.0 mm rms; scale 1.0000');
    expect(markdown).toContain('- assumed: control points of sound cars scatter by 0.1 mm');
    // 10 mm right below and 17 mm right 142 mm higher
    expect(markdown).toMatch(/- front-rail\.L twist: 2\.8° ±0\.\d° top leans right at 3012 mm/);
  });

  it('names what moved and is left out', async () => {
    const moved = soundBase.replace('[1480, 612, 905]', '[1480, 612, 925]');
    const markdown = await shown(jobOn(`  - measure: as received\n    readings:\n${moved}`));
    expect(markdown).toContain('- moved, left out of the base: cowl-hole.L');
    expect(markdown).not.toMatch(/- base: [^\n]*cowl-hole\.L/);
  });

  it('says from where an alignment was taken over, and that peaks are peaks', async () => {
    const text = jobOn(`${measured('      latch: [3050, 9, 780]')}
  - pull: out
    part: front-rail.L
  - measure: under load
    readings:
      latch: [3050, 5, 780]`);
    const markdown = await shown(text, 'under load');
    expect(markdown).toContain(
      '- alignment taken over from "as received": by the alignment from before the pull, and nothing confirms it',
    );
    expect(markdown).toContain('- read under tension: these are peaks');
  });

  it('that is not settled tells both stories', async () => {
    const chassis = carChassis.replace(
      '  latch:',
      '  rear-floor: { both: [-1050, 388, 296], base: true }\n  latch:',
    );
    const torn = jobOn(`  - measure: as received
    readings:
      floor-front.L: [1200, 432, 100]
      floor-front.R: [1200, -408, 100]
      cowl-hole.L: [1480, 624, 910]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rear-floor.L: [-1050, 388, 296]`);
    const markdown = await shown(torn, 'measure:', 0, chassis);
    expect(markdown).toContain('- provisional: the base is not settled, so every figure may change');
    expect(markdown).toMatch(/- as believable: base [^;]+; then moved: /);
  });

  it.each([
    ['too few points', '      floor-front.L: [1200, 420, 95]', 'no alignment: too few control points'],
    ['a mirror image', soundBase.replace(/, (-?\d+), /g, (_, y) => `, ${-y}, `), 'mirrored or out of scale'],
  ])('that cannot be aligned: %s', async (_, rows, words) => {
    expect(await shown(jobOn(`  - measure: as received\n    readings:\n${rows}`))).toContain(words);
  });

  it('of distances only', async () => {
    const text = jobOn('  - measure: tram\n    spans:\n      - [rail-tip-lower.L, strut-top.R, 1400]');
    expect(await shown(text)).toContain('- distances only');
  });

  it('of which nothing is read yet', async () => {
    const text = jobOn('  - measure: as received\n    readings:\n      # floor-front.L: [ , , ]');
    expect(await shown(text)).toContain('- nothing to judge yet');
  });
});

describe('an order', () => {
  const orderIn = async (text: string, rule?: string) => {
    const files = signedFiles(
      before(text.replace('chassis: body', 'order: W-9\nchassis: body'), 'W-9'),
      rule,
    );
    return (await shownAt(files, 'job.readings.yaml'))?.markdown ?? '';
  };
  const finished = (mm: number) => measure('finished', off({ 'rail-tip-lower.L': [0, mm, 0] }));
  const head = 'scope: [front-rail.L]\n';

  it('says what remains', async () => {
    const markdown = await orderIn(job(measure('as received', bentFrom(2400)), head));
    expect(markdown).toMatch(
      /^\*\*W\\-9\*\* is open\n\nWhat remains:\n\n- rail-(middle|front|tip)-lower\.L: outside\n/,
    );
    expect(markdown).toContain('It covers dimensions only: not welds');
  });

  it('says that nothing remains', async () => {
    expect(await orderIn(job(finished(0), head))).toContain(
      'Nothing remains: the dimensions may be signed off.',
    );
  });

  it('says by which rule', async () => {
    expect(await orderIn(job(finished(0), head))).toContain('simple (a deviation inside its limit passes)');
    const guarded = await orderIn(job(finished(2.9), head), 'guarded');
    expect(guarded).toContain('guarded (only what is certainly within passes)');
    expect(guarded).toContain('- rail-tip-lower.L: undecided');
  });

  it('says whether a sign-off stands', async () => {
    const closed = (mm: number) => job(finished(mm), head, signed());
    expect(await orderIn(closed(0))).toMatch(/is signed off\n/);
    expect(await orderIn(closed(9))).toMatch(/is signed off, but the sign-off does not stand\n/);
  });
});
