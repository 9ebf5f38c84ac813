import { describe, expect, it } from 'vitest';
import { distance } from '../../geometry/vector';
import { inspectionOf, jobOn } from '../car.fixture';

const base: Record<string, readonly [number, number, number]> = {
  'floor-front.L': [1200, 420, 95],
  'floor-front.R': [1200, -420, 95],
  'floor-rear.L': [-350, 455, 90],
  'tunnel-front.R': [905, -188, 242],
  'cowl-hole.L': [1480, 612, 905],
  'cowl-hole.R': [1480, -612, 905],
};
const flat = ['floor-front.L', 'floor-front.R', 'floor-rear.L'];

/** Distances from the latch, where it now is, to control points. */
const stageOf = (
  latch: readonly [number, number, number],
  ids = Object.keys(base),
  head = 'instrument: { span-uncertainty: 0.5 }',
) =>
  inspectionOf(
    jobOn(
      `  - measure: tram\n    spans:\n${ids.map((id) => `      - [${id}, latch, ${distance(base[id], latch)}]`).join('\n')}`,
      head,
    ),
  ).stages[0];

describe('a tram-only stage', () => {
  it('finds where a point is', () => {
    const stage = stageOf([3042, 7, 784]);
    expect(stage.alignment).toBeNull();
    expect(stage.points.map((each) => each.id)).toEqual(['latch']);
    const [{ deviation }] = stage.points;
    // known axes come out where the point is, up to the pull of the 50 mm prior
    expect(deviation[0]).toBeCloseTo(-8, 1);
    expect(deviation[1]).toBeCloseTo(7, 1);
    expect(stage.network!.suspect).toBeNull();
  });

  it('says nothing along an axis that the distances do not determine', () => {
    const [{ deviation, uncertainty, best }] = stageOf(
      [3050, 0, 780],
      ['floor-front.L', 'floor-front.R'],
    ).points;
    expect(deviation.filter((d) => d === null).length).toBeGreaterThan(0);
    deviation.forEach((d, k) => {
      expect(d === null).toBe(uncertainty[k] === null);
    });
    expect(best!.uncertaintyMm).toBeLessThan(1);
  });

  it('refuses the height of a point near the plane of the points it was measured from', () => {
    const job = (z: number) => {
      const at: [number, number, number] = [500, 100, z];
      return jobOn(
        `  - measure: tram\n    spans:\n${flat.map((id) => `      - [${id}, sill, ${distance(base[id], at)}]`).join('\n')}`,
        'instrument: { span-uncertainty: 0.5 }',
      );
    };
    const chassis = (z: number) => `framewright: chassis/1
vehicle: Marten five-door hatchback
points:
  floor-front: { both: [1200, 420, 95], base: true }
  floor-rear: { both: [-350, 455, 90], base: true }
  sill: { centre: [500, 100, ${z}] }
`;
    expect(inspectionOf(job(96), chassis(96)).stages[0].points[0].deviation[2]).toBeNull();
    expect(inspectionOf(job(900), chassis(900)).stages[0].points[0].deviation[2]).not.toBeNull();
  });

  it('leaves a distance from a point to itself out', () => {
    const job = jobOn(
      '  - measure: tram\n    spans: [[latch, latch, 10], [floor-front.L, latch, 2023]]',
      'instrument: { span-uncertainty: 1 }',
    );
    const [stage] = inspectionOf(job).stages;
    expect(stage.spans.map((span) => span.from)).toEqual(['floor-front.L']);
  });
});
