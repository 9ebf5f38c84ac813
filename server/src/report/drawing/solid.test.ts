import { describe, expect, it } from 'vitest';
import type { Inspection } from '../../inspection/job/inspect';
import { inspectionOf, jobOn, measured } from '../../testing/car';
import { drawingOf } from './drawing';
import { magnificationOf } from './drawing-arrow';
import { solidOf } from './solid';

const head = 'instrument: { name: arm, uncertainty: 0.2 }\naxes: [forward, left, up]';

const drawn = (inspection: Inspection) =>
  drawingOf(inspection, inspection.stages[0], { width: 600, views: [] });

describe('an arrow in space', () => {
  it('is told to be cut where a point is too far off to be drawn, and only there', () => {
    const inspection = inspectionOf(
      jobOn(
        measured(
          '      rail-tip-lower.L: [3012, 443, 210]\n      rail-tip-upper.L: [3012, 447, 352]\n      latch: [3050, 260, 780]',
        ),
        head,
      ),
    );
    const { points } = solidOf(inspection, drawn(inspection), null);
    const { factor, longestMm } = magnificationOf(inspection);
    const arrow = (id: string) => points.find((each) => each.id === id)!;
    expect(arrow('rail-tip-lower.L').cut).toBe(false);
    expect(arrow('rail-tip-lower.L').tip![1]).toBeCloseTo(448 - 5 * factor, 6);
    expect(arrow('latch').cut).toBe(true);
    expect(arrow('latch').tip![1]).toBeCloseTo(longestMm, 6);
    expect(points.filter(({ cut }) => cut).map(({ id }) => id)).toEqual(['latch']);
  });

  it('is told to be partial where an axis cannot be judged', () => {
    // each of three judged by the other two can turn about their line, and the strut top, judged by all three, cannot
    const inspection = inspectionOf(
      jobOn(
        '  - measure: as received\n    readings:\n      floor-front.L: [1200, 420, 95]\n      floor-front.R: [1200, -420, 95]\n      cowl-hole.L: [1480, 612.4, 905]\n      strut-top.L: [2250, 566, 830]',
        head,
      ),
    );
    expect(inspection.stages[0].points.find(({ id }) => id === 'cowl-hole.L')!.deviation).toEqual([
      null,
      expect.closeTo(0.4, 3),
      null,
    ]);
    const { points } = solidOf(inspection, drawn(inspection), null);
    expect(points.filter(({ partial }) => partial).map(({ id }) => id)).toEqual([
      'floor-front.L',
      'floor-front.R',
      'cowl-hole.L',
    ]);
  });
});
