import { describe, expect, it } from 'vitest';
import { inspectionOf, jobOn, measured } from '../../testing/car';

const chassisWith = (points: string, along = 'length') => `framewright: chassis/1
vehicle: Marten five-door hatchback
build: 0.1
parts:
  beam: { along: ${along} }
points:
  floor-front: { both: [1200, 420, 95], base: true }
  floor-rear: { both: [-350, 455, 90], base: true }
  tunnel-front: { both: [905, 188, 242], base: true }
  cowl-hole: { both: [1480, 612, 905], base: true }
${points}
`;
const beamOf = (points: string, rows: string, along?: string) =>
  inspectionOf(jobOn(measured(rows)), chassisWith(points, along)).stages[0].parts.find(
    (part) => part.part.id === 'beam',
  )!;
const degrees = (rad: number) => (rad * 180) / Math.PI;

describe('stations', () => {
  it('end where the next point is more than 40 mm from the first', () => {
    const names = ['a', 'b', 'c', 'd'];
    const at = [2000, 2025, 2040, 2041];
    const points = names.map((name, i) => `  ${name}: { centre: [${at[i]}, 0, 300], part: beam }`).join('\n');
    const rows = names.map((name, i) => `      ${name}: [${at[i]}, 0, 300]`).join('\n');
    expect(
      beamOf(points, rows).stations.map((station) => station.members.map(({ point }) => point.id)),
    ).toEqual([['a', 'b', 'c'], ['d']]);
  });

  it('show a top that leans right as a positive twist, with √2 u over the arm', () => {
    const points =
      '  low: { centre: [2000, 300, 200], part: beam }\n  high: { centre: [2000, 300, 340], part: beam }';
    const [station] = beamOf(points, '      low: [2000, 300, 200]\n      high: [2000, 293, 340]').stations;
    expect(degrees(station.twist!.angleRad)).toBeCloseTo(degrees(Math.atan2(7, 140)), 6);
    // about √(u₁² + u₂²)/h, and the alignment's share of the turn on top
    const plain = (Math.SQRT2 * 0.2) / 140;
    expect(station.twist!.uncertaintyRad).toBeGreaterThan(0.98 * plain);
    expect(station.twist!.uncertaintyRad).toBeLessThan(1.1 * plain);
    expect(station.shift[1]).toBeCloseTo(-3.5, 6);
  });

  it('share the doubt of the alignment’s turn about the part, whichever way the arm stands', () => {
    const points =
      '  low: { centre: [2000, 300, 200], part: beam }\n  high: { centre: [2000, 350, 290], part: beam }';
    const { stages } = inspectionOf(
      jobOn(measured('      low: [2000, 300, 200]\n      high: [2000, 350, 290]')),
      chassisWith(points),
    );
    const [{ parts, doubt }] = stages;
    const { twist } = parts.find((part) => part.part.id === 'beam')!.stations[0];
    const own = (2 * 0.2 ** 2) / (50 ** 2 + 90 ** 2);
    const turn = doubt!.rotation[0][0];
    expect(turn).toBeGreaterThan(1e-9);
    expect(twist!.uncertaintyRad ** 2 - own).toBeCloseTo(turn, 12);
  });

  it('turn right-handed about the way of a part that runs along width or height', () => {
    const across = beamOf(
      '  low: { centre: [2000, 300, 200], part: beam }\n  high: { centre: [2000, 300, 340], part: beam }',
      '      low: [2000, 300, 200]\n      high: [2007, 300, 340]',
      'width',
    ).stations[0];
    expect(degrees(across.twist!.angleRad)).toBeCloseTo(degrees(Math.atan2(7, 140)), 6);
    const up = beamOf(
      '  rear: { centre: [2000, 300, 500], part: beam }\n  front: { centre: [2140, 300, 500], part: beam }',
      '      rear: [2000, 300, 500]\n      front: [2140, 307, 500]',
      'height',
    ).stations[0];
    expect(degrees(up.twist!.angleRad)).toBeCloseTo(degrees(Math.atan2(7, 140)), 6);
  });

  it('show no twist from two sides, nor from points 40 mm apart', () => {
    const sides = beamOf(
      '  edge: { both: [2000, 300, 200], part: beam }',
      '      edge.L: [2000, 300, 200]\n      edge.R: [2000, -300, 210]',
    );
    expect(sides.stations[0].twist).toBeNull();
    const near = beamOf(
      '  low: { centre: [2000, 300, 200], part: beam }\n  high: { centre: [2000, 300, 240], part: beam }',
      '      low: [2000, 300, 200]\n      high: [2000, 300, 240]',
    );
    expect(near.stations[0].twist).toBeNull();
  });

  it('have a bow: the largest offset from the chord', () => {
    const points = [1800, 2200, 2600, 3000]
      .map((x, i) => `  p${i}: { centre: [${x}, 0, 300], part: beam }`)
      .join('\n');
    const rows = [0, 3, 5, 3].map((y, i) => `      p${i}: [${1800 + 400 * i}, ${y}, 300]`).join('\n');
    // chord 0, 1, 2, 3: offsets 0, 2, 3, 0
    expect(beamOf(points, rows).bow.sideways?.mm).toBeCloseTo(3, 6);
    expect(beamOf(points, rows).bow.vertical?.mm).toBeCloseTo(0, 6);
    // by the readings alone, 2/3 along: u √(1 + (1/3)² + (2/3)²); the alignment moves a straight line to a straight line
    expect(beamOf(points, rows).bow.sideways?.uncertaintyMm).toBeCloseTo(0.2 * Math.sqrt(14 / 9), 9);
  });

  it('tell how the twist grows, and how certain that is: what turns the whole stage does not count', () => {
    const points = [1800, 3000]
      .flatMap((x) => [200, 340].map((z) => `  p${x}-${z}: { centre: [${x}, 300, ${z}], part: beam }`))
      .join('\n');
    const rows = `      p1800-200: [1800, 300, 200]
      p1800-340: [1800, 300, 340]
      p3000-200: [3000, 300, 200]
      p3000-340: [3000, 293, 340]`;
    const growth = beamOf(points, rows).twistGrowth!;
    expect(growth.radPerMetre).toBeCloseTo(Math.atan2(7, 140) / 1.2, 9);
    // four readings, each across an arm: 140 mm, and 140.2 mm where it leans
    const own = 0.2 * Math.sqrt(2 / 140 ** 2 + 2 / (140 ** 2 + 7 ** 2));
    expect(growth.uncertaintyRadPerMetre).toBeCloseTo(own / 1.2, 5);
    expect(beamOf(points, rows.split('\n').slice(0, 3).join('\n')).twistGrowth).toBeNull();
  });
});

describe('a part', () => {
  const points =
    '  a: { centre: [2000, 300, 200], part: beam }\n  b: { centre: [2000, 300, 400], part: beam }\n  c: { centre: [3000, 300, 300], part: beam }';

  it('has the turn that it made, and no angle that its points do not fix', () => {
    // turned by 0.01 about up, through its centroid: nose to the left
    const [c, s] = [Math.cos(0.01), Math.sin(0.01)];
    const centre = 7000 / 3;
    const turned = (x: number, z: number) =>
      `[${centre + c * (x - centre)}, ${300 + s * (x - centre)}, ${z}]`;
    const part = beamOf(
      points,
      `      a: ${turned(2000, 200)}\n      b: ${turned(2000, 400)}\n      c: ${turned(3000, 300)}`,
    );
    expect(part.yaw!.angleRad).toBeCloseTo(0.01, 8);
    expect(part.pitch!.angleRad).toBeCloseTo(0, 8);
    expect(part.twist!.angleRad).toBeCloseTo(0, 8);
    expect(part.residualMm).toBeCloseTo(0, 6);
    const line = beamOf(points, '      a: [2000, 300, 200]\n      b: [2000, 300, 400]');
    expect([line.yaw, line.stretch]).toEqual([null, null]);
    expect(line.twist).not.toBeNull();
    const one = beamOf(points, '      a: [2001, 300, 200]');
    expect([one.yaw, one.pitch, one.twist, one.residualMm]).toEqual([null, null, null, null]);
    expect(one.shift[0]).toBeCloseTo(1, 6);
  });

  it('is stretched by what its front has gone ahead of its rear', () => {
    const { stretch } = beamOf(
      points,
      '      a: [2001, 300, 200]\n      b: [2003, 300, 400]\n      c: [2996, 300, 300]',
    );
    expect(stretch!.mm).toBeCloseTo(-6, 6);
    expect(stretch!.uncertaintyMm).toBeGreaterThan(0.2 * Math.sqrt(1.5) * 0.99);
    expect(stretch!.uncertaintyMm).toBeLessThan(0.2 * Math.sqrt(1.5) * 1.1);
  });
});
