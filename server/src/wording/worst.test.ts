import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../testing/car';
import { worstCertainty, worstPoint } from './worst';

/** The latch may stand 2 too far back and 10 too far forward, the strut top 3 each way. */
const chassis = carChassis.replace(
  'latch: { centre: [3050, 0, 780] }',
  'latch: { centre: [3050, 0, 780], tolerance: { length: [-2, 10] } }',
);

const worstOf = (latch: number, strut: number) =>
  worstPoint(
    inspectionOf(
      jobOn(
        measured(`      latch: [${3050 + latch}, 0, 780]\n      strut-top.L: [2250, ${561 + strut}, 830]`),
      ),
      chassis,
    ).stages[0].points,
  );

describe('the worst point', () => {
  it.each([
    // deviations, and by how much each is past its own limit
    ['latch', 'forward', 14, 6.5, 4],
    ['strut-top.L', 'forward', 12, 6.5, 3.5],
    ['latch', 'back', -6.8, 7.2, 4.8],
    ['strut-top.L', 'back', -6, 7.5, 4.5],
  ])(
    'is %s, with the latch %s by %d and the strut top off by %d: farthest past its own limit',
    (id, _, latch, strut, excess) => {
      const worst = worstOf(latch, strut)!;
      expect(worst.judged.id).toBe(id);
      expect(worst.excessMm).toBeCloseTo(excess, 6);
      expect(worst.deviation).toBeCloseTo(id === 'latch' ? latch : strut, 6);
      expect(worstCertainty(worst, 'mm')).toMatch(/^, ±0\.\d \(95 %\)$/);
    },
  );

  it('is none where all are inside, a wide limit used to its end', () => {
    expect(worstOf(9.5, 2.5)).toBeNull();
  });
});
