import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import { distance, type Vec3 } from '../../geometry/vector';
import { inspectionOf, jobOn } from '../../testing/car';
import type { Stage } from './stage';

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

describe('simulated tram-only stages', () => {
  const control: Record<string, Vec3> = {
    'floor-front.L': [1200, 420, 95],
    'floor-front.R': [1200, -420, 95],
    'floor-rear.L': [-350, 455, 90],
    'floor-rear.R': [-350, -455, 90],
    'cowl-hole.L': [1480, 612, 905],
    'cowl-hole.R': [1480, -612, 905],
  };
  const others: Record<string, Vec3> = {
    'tip.L': [3012, 448, 210],
    'tip.R': [3012, -448, 210],
    'strut.L': [2250, 561, 830],
    'latch.L': [3050, 20, 780],
  };
  const places = { ...control, ...others };
  const written = (points: Record<string, Vec3>, more: string) =>
    Object.entries(points)
      .filter(([id]) => id.endsWith('.L'))
      .map(([id, place]) => `  ${id.slice(0, -2)}: { both: [${place.join(', ')}]${more} }`);
  const sheet = [
    'framewright: chassis/1',
    'vehicle: Marten five-door hatchback',
    'build: 0.5',
    'points:',
    ...written(control, ', base: true'),
    ...written(others, ''),
    '',
  ].join('\n');
  const ids = Object.keys(control);
  const pairs = [
    ...ids.flatMap((from) => Object.keys(others).map((to) => [from, to] as const)),
    ['tip.L', 'tip.R'] as const,
  ];

  /** Control points scatter by what the file states, distances too; the others stand a few millimetres off. */
  function simulated(
    seed: number,
    used: readonly string[],
    fault: { moved?: string; misread?: number } = {},
  ) {
    const random = seededRandom(seed);
    const near = ([x, y, z]: Vec3, u: number): Vec3 => [
      x + random.normal(u),
      y + random.normal(u),
      z + random.normal(u),
    ];
    const truth = Object.fromEntries(
      Object.entries(places).map(([id, place]) => [id, near(place, id in control ? 0.5 : 3)]),
    );
    if (fault.moved) {
      const [x, y, z] = truth[fault.moved];
      truth[fault.moved] = [x - 15, y, z];
    }
    const rows = pairs.flatMap(([from, to], i) => {
      const mm = distance(truth[from], truth[to]) + random.normal(0.5) + (i === fault.misread ? 15 : 0);
      return from in control && !used.includes(from) ? [] : [`      - [${from}, ${to}, ${mm.toFixed(2)}]`];
    });
    const job = jobOn(
      `  - measure: tram\n    spans:\n${rows.join('\n')}`,
      'instrument: { span-uncertainty: 0.5 }',
    );
    return { truth, stage: inspectionOf(job, sheet).stages[0] };
  }

  /** Of the known axes of points outside the base: how many there are, and of how many the 95 % interval holds the truth. */
  function covered(truth: Record<string, Vec3>, { points }: Stage): [number, number] {
    const known = points.flatMap(({ id, deviation, uncertainty }) =>
      deviation.flatMap((d, k) =>
        d === null || id in control
          ? []
          : [Math.abs(places[id][k] + d - truth[id][k]) <= 1.96 * uncertainty[k]!],
      ),
    );
    return [known.length, known.filter(Boolean).length];
  }

  it('have 95 % intervals that cover about 95 %, and seldom name anything in a sound network', () => {
    let [known, inside, named] = [0, 0, 0];
    const rounds = 100;
    for (let seed = 1; seed <= rounds; seed++) {
      const { truth, stage } = simulated(seed, ids);
      const [all, within] = covered(truth, stage);
      known += all;
      inside += within;
      if (stage.network!.suspect !== null || stage.network!.moved.length > 0) named++;
    }
    expect(known).toBeGreaterThan(1000);
    // twelve axes of a network hang together: as uncertain as some 400 cases, ±2 %
    expect(inside / known).toBeGreaterThan(0.925);
    expect(inside / known).toBeLessThan(0.985);
    // one in a hundred is meant
    expect(named / rounds).toBeLessThanOrEqual(0.04);
  });

  it('show a control point that has moved as such, and judge it like any other point', () => {
    let named = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const bad = ids[seed % ids.length];
      const { stage } = simulated(seed, ids, { moved: bad });
      const { moved, provisional } = stage.network!;
      if (moved.length === 0 || provisional) continue;
      // where one is named it is the right one
      expect(moved.map(({ id, kept }) => [id, kept])).toEqual([[bad, false]]);
      const [{ shift, shiftUncertainty }] = moved;
      // of first order, and the place scattered before it moved
      expect(Math.abs(shift[0] + 15)).toBeLessThan(3 * Math.hypot(shiftUncertainty[0], 0.5) + 1);
      expect(stage.points.map(({ id }) => id)).toContain(bad);
      named++;
    }
    expect(named).toBeGreaterThanOrEqual(24);
  });

  it('do not say which where four control points cannot tell, and leave the stage provisional', () => {
    const used = ids.slice(-4);
    let open = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const bad = used[seed % 4];
      const { stage } = simulated(seed, used, { moved: bad });
      const [first] = stage.network!.moved;
      if (first === undefined) continue;
      expect([first.id, ...first.orElse]).toContain(bad);
      expect(first.kept).toBe(first.orElse.length > 0);
      expect(stage.provisional).toBe(first.kept);
      if (first.kept) open++;
    }
    expect(open).toBeGreaterThan(15);
  });

  it('still name the distance where one was misread, and are less certain then', () => {
    let named = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const misread = (7 * seed) % pairs.length;
      const { stage } = simulated(seed, ids, { misread });
      const { suspect, moved } = stage.network!;
      expect(moved).toEqual([]);
      if (
        suspect === null ||
        suspect.reading.from !== pairs[misread][0] ||
        suspect.reading.to !== pairs[misread][1]
      )
        continue;
      named++;
      expect(Math.abs(suspect.residualMm - 15)).toBeLessThan(5);
      // along the direction that is known best
      const least = ({ points }: Stage) => points[0].best!.uncertaintyMm;
      expect(least(stage)).toBeGreaterThan(1.5 * least(simulated(seed, ids).stage));
    }
    expect(named).toBeGreaterThanOrEqual(27);
  });
});
