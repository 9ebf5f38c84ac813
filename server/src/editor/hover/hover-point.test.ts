import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { before, cellsOf, shownAt } from '../testing/asked';

/** What is shown at a piece of a job on the small car. */
async function shown(job: string, piece: string, nth = 0, chassis = carChassis): Promise<string> {
  const files = { 'car.chassis.yaml': chassis, 'w.readings.yaml': before(job, piece, nth) };
  const hover = await shownAt(files, 'w.readings.yaml');
  if (hover === null) throw new Error('nothing is shown');
  return hover.markdown;
}

const tipIn = measured('      rail-tip-upper.L: [3003, 437.8, 352]');

describe('a reading', () => {
  it('tells reference, measured, deviation in words, limit, certainty and chance, axis by axis', async () => {
    const markdown = await shown(jobOn(tipIn), 'rail-tip-upper.L');
    expect(markdown).toMatch(/^\*\*rail-tip-upper\.L\*\* is \*\*outside\*\*, on front-rail\.L\n/);
    expect(cellsOf(markdown, 'length').slice(0, 5)).toEqual([
      'length',
      '3012.0',
      '3003.0',
      '9.0 rearward',
      '±3.0',
    ]);
    expect(cellsOf(markdown, 'width').slice(0, 5)).toEqual([
      'width',
      '452.0',
      '437.8',
      '14.2 right (inboard)',
      '±3.0',
    ]);
    expect(cellsOf(markdown, 'height').slice(0, 5)).toEqual(['height', '352.0', '352.0', '0', '±3.0']);
    expect(cellsOf(markdown, 'width')[5]).toMatch(/^±0\.\d$/);
    // never a certainty of 0 % or 100 %
    expect(cellsOf(markdown, 'width')[6]).toBe('< 1 %');
    expect(cellsOf(markdown, 'height')[6]).toBe('> 99 %');
    expect(markdown).toMatch(/Of this uncertainty, ±0\.\d mm at most is the alignment's\./);
  });

  it('says the same on its numbers', async () => {
    const job = jobOn(tipIn);
    // where it goes is said on the name by its finding
    const [onName, onNumbers] = [await shown(job, 'rail-tip-upper.L'), await shown(job, '437.8')];
    const move = '\n\nTo its place: 14.2 mm left (outboard) and 9.0 mm forward.';
    expect(onName).not.toContain(move);
    expect(onNumbers).toContain(move);
    expect(onNumbers.replace(move, '')).toBe(onName);
  });

  it('counts width outboard on the right too, limits with it', async () => {
    const chassis = carChassis.replace(
      'rail-tip-upper: { both: [3012, 452, 352]',
      'rail-tip-upper: { both: [3012, 452, 352], tolerance: { length: 3, width: [-2, 4], height: 3 }',
    );
    const both = jobOn(
      measured('      rail-tip-upper.L: [3012, 460, 352]\n      rail-tip-upper.R: [3012, -460, 352]'),
    );
    const [left, right] = [
      await shown(both, 'rail-tip-upper.L', 0, chassis),
      await shown(both, '-460', 0, chassis),
    ];
    expect(cellsOf(left, 'width').slice(0, 5)).toEqual([
      'width',
      '452.0',
      '460.0',
      '8.0 left (outboard)',
      '−2.0 … +4.0',
    ]);
    expect(cellsOf(right, 'width').slice(0, 5)).toEqual([
      'width',
      '452.0',
      '460.0',
      '8.0 right (outboard)',
      '−2.0 … +4.0',
    ]);
    expect(right).toContain('To its place: 8.0 mm left (inboard).');
  });

  it('is shown in the unit of the file', async () => {
    const inches = measured('      rail-tip-upper.L: [3003, 437.8, 352]').replace(/\[(.+?)\]/g, (_, row) => {
      const values = row.split(',').map((value: string) => (Number(value) / 25.4).toFixed(4));
      return `[${values.join(', ')}]`;
    });
    const markdown = await shown(
      jobOn(inches, 'units: inch\ninstrument: { uncertainty: 0.008 }'),
      'rail-tip-upper.L',
    );
    expect(markdown).toContain('reference (in)');
    // 3012, 3003, 9 and 3 mm in inches
    expect(cellsOf(markdown, 'length').slice(1, 5)).toEqual([
      '118.583',
      '118.228',
      '0.354 rearward',
      '±0.118',
    ]);
  });

  it('within needs no moving', async () => {
    const markdown = await shown(jobOn(measured('      latch: [3050, 0.2, 780]')), 'latch');
    expect(markdown).toMatch(/^\*\*latch\*\* is \*\*within\*\*\n/);
    expect(markdown).not.toContain('To its place');
  });

  it('of the base says that the others judge it', async () => {
    const markdown = await shown(jobOn(tipIn), 'floor-front.R');
    expect(markdown).toContain('is **within**, on floor, control point');
    expect(markdown).toContain('A control point of the base. It is judged by the other control points alone');
  });

  it('under tension is a peak: it counts for nothing and moves nothing', async () => {
    const job = jobOn(`${tipIn}
  - pull: rail out
    part: front-rail.L
  - measure: under load
    readings:
      rail-tip-upper.L: [3009, 446, 352]`);
    const markdown = await shown(job, 'rail-tip-upper.L', 1);
    expect(markdown).toContain('*Read under tension: a peak. What counts is the reading after release.*');
    expect(markdown).toContain('is **outside**');
    expect(markdown).not.toContain('To its place');
    expect(cellsOf(markdown, 'as received')).toEqual([
      'as received',
      '9.0 rearward',
      '14.2 right (inboard)',
      '0',
      'outside',
    ]);
    expect(cellsOf(markdown, 'under load (peak)')).toContain('6.0 right (inboard)');
  });

  it('of a stage whose base is not settled says so, and moves nothing', async () => {
    // the front of the car stands 12 mm to the left and 5 mm up of where the rear would have it
    const chassis = carChassis.replace(
      '  latch:',
      '  rear-floor: { both: [-1050, 388, 296], base: true }\n  latch:',
    );
    const torn = `  - measure: as received
    readings:
      floor-front.L: [1200, 432, 100]
      floor-front.R: [1200, -408, 100]
      cowl-hole.L: [1480, 624, 910]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rear-floor.L: [-1050, 388, 296]
      rail-tip-lower.L: [3012, 490, 215]`;
    const markdown = await shown(jobOn(torn), 'rail-tip-lower.L', 0, chassis);
    expect(markdown).toContain('*Provisional: the base of this stage is not settled');
    expect(markdown).toContain('is **outside**');
    expect(markdown).not.toContain('To its place');
  });

  it('without an alignment is not judged, and no figure is given', async () => {
    const job = jobOn(
      '  - measure: two only\n    readings:\n      floor-front.L: [1200, 420, 95]\n      latch: [3050, 9, 780]',
    );
    const markdown = await shown(job, 'latch');
    expect(markdown).toContain('is **unjudged**');
    expect(markdown).toContain('*Not judged: this stage has no alignment.*');
    expect(cellsOf(markdown, 'width')).toEqual(['width', '0.0', '', 'cannot be judged', '±3.0', '', '']);
  });

  it('says that it was unreachable, beside what the sheet has', async () => {
    const markdown = await shown(jobOn(measured('      latch: unreachable')), 'latch: unreachable');
    expect(markdown).toContain('**latch**');
    expect(cellsOf(markdown, 'length')).toEqual(['length', '3050.0', '±3.0']);
    expect(markdown).toContain('Unreachable in this stage: nothing is judged.');
  });

  it('says which reading counts where a row says as-before', async () => {
    const job = jobOn(
      [measured('      latch: [3050, 9, 780]'), measured('      latch: as-before', 'after')].join('\n'),
    );
    const markdown = await shown(job, 'latch: as-before');
    expect(markdown).toContain('The reading of “as received” counts, and stays as old as it is.');
    const first = await shown(jobOn(measured('      latch: as-before')), 'latch: as-before');
    expect(first).toContain('no earlier stage has a reading of it');
    expect(cellsOf(await shown(job, 'latch'), 'after')).toEqual(['after', 'as before', '', '', '']);
  });

  it('goes through the stages, unreachable ones too', async () => {
    const job = jobOn(
      [
        measured('      latch: [3050, 9, 780]'),
        measured('      latch: unreachable', 'folded over'),
        measured('      latch: [3050, 1, 780]', 'after'),
      ].join('\n'),
    );
    const markdown = await shown(job, 'latch', 2);
    expect(cellsOf(markdown, 'as received')).toEqual(['as received', '0', '9.0 left', '0', 'outside']);
    expect(cellsOf(markdown, 'folded over')).toEqual(['folded over', 'unreachable', '', '', '']);
    expect(cellsOf(markdown, 'after')).toEqual(['after', '0', '1.0 left', '0', 'within']);
    expect(await shown(jobOn(tipIn), 'rail-tip-upper.L')).not.toContain('Through the stages');
  });

  it('tells how well the reference itself is known', async () => {
    const chassis = carChassis.replace('latch: { centre: [3050, 0, 780]', '$&, uncertainty: 0.5');
    const markdown = await shown(jobOn(measured('      latch: [3050, 0, 780]')), 'latch', 0, chassis);
    // 1.96 × 0.5 at 95 %
    expect(markdown).toContain('The reference itself is known to ±1.0 mm.');
  });
});

describe('a distance', () => {
  const span = (row: string) => `${tipIn}\n    spans:\n      - [${row}]`;

  it('that the chassis lists', async () => {
    const markdown = await shown(jobOn(span('rail-tip-lower.L, strut-top.R, 1399.7')), '[rail-tip-lower.L');
    expect(markdown).toMatch(/^\*\*rail-tip-lower\.L to strut-top\.R\*\* is \*\*outside\*\*/);
    expect(cellsOf(markdown, '1411.8').slice(0, 4)).toEqual(['1411.8', '1399.7', '12.1 too short', '±3.0']);
    expect(markdown).toContain('The chassis lists this distance.');
  });

  it('that it does not list is computed from the two positions', async () => {
    const markdown = await shown(jobOn(span('latch, floor-front.L, 2019.5')), '2019.5');
    // √(1850² + 420² + 685²)
    expect(cellsOf(markdown, '2017.0').slice(0, 3)).toEqual(['2017.0', '2019.5', '2.5 too long']);
    expect(markdown).toContain('does not list this distance');
  });
});

describe('a point of the sheet', () => {
  it('has its place, its source and how it stands in the job', async () => {
    const job = jobOn(
      `${tipIn}\n  - pull: out\n    part: front-rail.L\n    hook: rail-tip-upper.L\n    direction: [0, 1, 0]`,
    );
    const chassis = carChassis.replace(
      'rail-tip-upper: { both: [3012, 452, 352]',
      '$&, fixing: bolt, uncertainty: 0.5, source: { kind: donor, reference: Teal in bay 4 }',
    );
    const markdown = await shown(job, 'rail-tip-upper.L', 1, chassis);
    expect(markdown).toMatch(/^\*\*rail-tip-upper\.L\*\*, on front-rail\.L, bolt\n/);
    expect(cellsOf(markdown, 'width')).toEqual(['width', '452.0', '±3.0']);
    expect(markdown).toContain('Source: donor, Teal in bay 4, known to ±1.0 mm (95 %).');
    expect(markdown).toContain('Newest reading ("as received"): **outside**.');
  });
});
