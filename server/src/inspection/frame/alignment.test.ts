import { describe, expect, it } from 'vitest';
import { inspectionOf, jobOn, measured, soundBase } from '../../testing/car';

const alignmentsOf = (timeline: string, head?: string) =>
  inspectionOf(jobOn(timeline, head)).stages.map((stage) => stage.alignment!);
const faultsOf = (timeline: string, head?: string) =>
  alignmentsOf(timeline, head).map((each) => each.faults.map((fault) => fault.kind));
const latch = (name: string, more = '') =>
  `  - measure: ${name}\n${more}    readings: { latch: [3050, 0, 780] }`;

describe('an alignment', () => {
  it('takes readings to vehicle axes: measured = rotation · reading + translation', () => {
    // the instrument is turned by a quarter to the left and its zero lies at (100, 200, 300) of the car
    const turned = soundBase.replace(
      /\[(-?\d+), (-?\d+), (-?\d+)\]/g,
      (_, x, y, z) => `[${y - 200}, ${100 - x}, ${z - 300}]`,
    );
    const [{ rotation, translation, scale, rmsMm, mirrored }] = alignmentsOf(
      `  - measure: turned\n    readings:\n${turned}`,
    );
    const expected = [
      [0, -1, 0],
      [1, 0, 0],
      [0, 0, 1],
    ];
    rotation!.flat().forEach((value, i) => {
      expect(value).toBeCloseTo(expected.flat()[i], 9);
    });
    [100, 200, 300].forEach((value, i) => {
      expect(translation![i]).toBeCloseTo(value, 7);
    });
    expect(scale).toBeCloseTo(1, 9);
    expect(rmsMm).toBeCloseTo(0, 7);
    expect(mirrored).toBe(false);
  });

  it('is taken over from the newest earlier stage with readings, which is named', () => {
    const [first, spans, second, third] = inspectionOf(
      jobOn(
        `${measured('')}\n  - measure: distances\n    spans: [[latch, floor-front.L, 2000]]\n${latch('more')}\n${latch('and more')}`,
      ),
    ).stages;
    expect(first.alignment?.inherited).toBeNull();
    expect(spans.alignment).toBeNull();
    expect(second.alignment).toMatchObject({
      inherited: 'as received',
      faults: [],
      base: first.alignment?.base,
    });
    expect(third.alignment?.inherited).toBe('as received');
    expect(second.points.map((point) => point.inBase)).toEqual([false]);
  });

  it('is not taken over with `set-up: new`, nor with one control point unless `set-up: same`', () => {
    const one = (setUp: string) =>
      `  - measure: one\n${setUp}    readings: { floor-front.L: [1200, 420, 95] }`;
    expect(faultsOf(`${measured('')}\n${latch('more', '    set-up: new\n')}`)[1]).toEqual(['too-few']);
    expect(faultsOf(`${measured('')}\n${one('')}`)[1]).toEqual(['too-few']);
    const same = inspectionOf(jobOn(`${measured('')}\n${one('    set-up: same\n')}`)).stages[1];
    expect(same.alignment?.inherited).toBe('as received');
    expect(same.points[0]).toMatchObject({ inBase: false, verdict: 'within' });
  });

  it('keeps a listed point that has moved in the base', () => {
    const [alignment] = alignmentsOf(
      measured('').replace('[-350, -455, 90]', '[-340, -455, 96]'),
      'instrument: { uncertainty: 0.2 }\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, cowl-hole.L, cowl-hole.R]',
    );
    expect(alignment.baseIds).toContain('floor-rear.R');
    expect(alignment.movedIds).toEqual([]);
    expect(alignment.faults).toContainEqual({ kind: 'moved', ids: ['floor-rear.R'], kept: true });
  });

  it('reports the scale before any point is dropped', () => {
    const [inches] = alignmentsOf(measured(''), 'units: inch\ninstrument: { uncertainty: 0.01 }');
    expect(inches.scale).toBeCloseTo(1 / 25.4, 9);
    const [dropped] = alignmentsOf(measured('').replace('[-350, -455, 90]', '[-330, -455, 90]'));
    expect(dropped.movedIds).toEqual(['floor-rear.R']);
    expect(Math.abs(dropped.scale! - 1)).toBeGreaterThan(1e-4);
  });

  it('leaves nothing of a mirrored stage', () => {
    const [stage] = inspectionOf(
      jobOn(
        `${measured('')}\n    spans: [[latch, floor-front.L, 1000]]`,
        'instrument: { uncertainty: 0.2 }\naxes: [forward, right, up]',
      ),
    ).stages;
    expect(stage).toMatchObject({ points: [], spans: [], parts: [], body: null });
    expect(stage.alignment).toMatchObject({ mirrored: true, rotation: null });
  });

  it('takes one reading with a lost sign for what it is', () => {
    // a floor that is flat but for the cowl, of which one point has its height below the datum
    expect(faultsOf(measured('').replace('[1480, 612, 905]', '[1480, 612, -905]'))[0]).not.toContain(
      'mirrored',
    );
  });
});
