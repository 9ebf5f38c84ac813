import { describe, expect, it } from 'vitest';
import { chassisOf } from '../testing/read';

const parent = `framewright: chassis/1
vehicle: Marten
source: { kind: donor, uncertainty: 0.4 }
conditions: { powertrain: in }
build: 0.7
build-elsewhere: 1.4
tolerance: 4
parts:
  floor: {}
  front-rail: { sided: true, section: [2450, 2700] }
points:
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  rail-tip: { both: [3012, 448, 210], part: front-rail, tolerance: { width: [-1, 5] }, fixing: bolt }
  latch: { centre: [3050, 12, 780] }
spans:
  - { from: rail-tip.L, to: latch, distance: 720 }
  - { from: floor-front, to: rail-tip, distance: 1816, pairs: straight }
`;
const child = (lines: string): string => `framewright: chassis/1\nextends: ./0.chassis.yaml\n${lines}`;

describe('one file', () => {
  const { points, parts, spans, ...body } = chassisOf(parent);

  it('has its points on both sides, width outboard', () => {
    expect(points.get('rail-tip.L')?.reference).toEqual([3012, 448, 210]);
    expect(points.get('rail-tip.R')?.reference).toEqual([3012, -448, 210]);
    expect(points.get('latch')?.reference).toEqual([3050, 12, 780]);
  });

  it('turns a lopsided width tolerance round on the right: outboard is right there', () => {
    expect(points.get('rail-tip.L')?.limits).toEqual([
      [-4, 4],
      [-1, 5],
      [-4, 4],
    ]);
    expect(points.get('rail-tip.R')?.limits).toEqual([
      [-4, 4],
      [-5, 1],
      [-4, 4],
    ]);
  });

  it('gives a sided point the part of its own side', () => {
    expect(points.get('rail-tip.L')?.part).toBe('front-rail.L');
    expect(points.get('rail-tip.R')?.part).toBe('front-rail.R');
    expect(points.get('floor-front.R')?.part).toBe('floor');
    expect([...parts.keys()]).toEqual(['floor', 'front-rail.L', 'front-rail.R']);
  });

  it('writes pairs of spans out and takes the largest tolerance in force for them', () => {
    expect(spans.map(({ from, to, limits }) => [from, to, limits])).toEqual([
      ['rail-tip.L', 'latch', [-4, 4]],
      ['floor-front.L', 'rail-tip.L', [-4, 4]],
      ['floor-front.R', 'rail-tip.R', [-4, 4]],
    ]);
  });

  it.each([
    ['chassis/1', 'chassis/2'],
    ['framewright: chassis/1\n', ''],
    ['build: 0.7', 'build: 0,7'],
    ['build-elsewhere: 1.4', 'build-elsewhere: 1,4'],
    ['tolerance: 4', 'tolerance: four'],
  ])('is not relied on where what all is judged by is not understood: %s written %s', (right, wrong) =>
    expect(chassisOf(parent.replace(right, wrong)).broken).toBe(true),
  );

  it('has nothing wrong with it', () => {
    expect(body.problems).toEqual([]);
    expect(body.broken).toBe(false);
    expect([body.buildMm, body.buildElsewhereMm]).toEqual([0.7, 1.4]);
    expect(points.get('latch')?.uncertaintyMm).toBe(0.4);
  });

  it('crosses pairs and lets a centre point stand on either side', () => {
    const { spans: crossed } =
      chassisOf(`${parent}  - { from: floor-front, to: rail-tip, distance: 2000, pairs: crossed }
  - { from: latch, to: floor-front, distance: 1900, pairs: straight }
`);
    expect(crossed.slice(3).map(({ from, to }) => [from, to])).toEqual([
      ['floor-front.L', 'rail-tip.R'],
      ['floor-front.R', 'rail-tip.L'],
      ['latch', 'floor-front.L'],
      ['latch', 'floor-front.R'],
    ]);
  });

  it('has one pair only where one end stands on one side only', () => {
    const { spans: found } = chassisOf(`framewright: chassis/1
vehicle: Marten
points:
  jack: { left: [100, 500, 100] }
  sill: { both: [900, 600, 100] }
spans:
  - { from: jack, to: sill, distance: 806, pairs: straight }
`);
    expect(found.map(({ from, to }) => [from, to])).toEqual([['jack.L', 'sill.L']]);
  });

  it('in inches is the same body in mm', () => {
    const inches = chassisOf(`framewright: chassis/1
vehicle: Marten
units: inch
source: { kind: donor, uncertainty: 0.01 }
build: 0.02
build-elsewhere: 0.06
tolerance: { length: 0.1, width: [-0.1, 0.2] }
parts:
  front-rail: { sided: true, section: [96, 106] }
points:
  rail-tip: { both: [118.5, 17.5, 8.25], part: front-rail }
spans:
  - { from: rail-tip.L, to: rail-tip.R, distance: 35 }
`);
    const tip = inches.points.get('rail-tip.R')!;
    expect(tip.reference).toEqual([118.5 * 25.4, -17.5 * 25.4, 8.25 * 25.4]);
    expect(tip.limits[0][1]).toBeCloseTo(2.54, 12);
    expect(tip.limits[1][0]).toBeCloseTo(-5.08, 12);
    expect(tip.limits[2]).toEqual([-3, 3]);
    expect(tip.uncertaintyMm).toBeCloseTo(0.254, 12);
    expect(inches.buildMm).toBeCloseTo(0.508, 12);
    expect(inches.buildElsewhereMm).toBeCloseTo(1.524, 12);
    expect(inches.spans[0].distanceMm).toBeCloseTo(889, 12);
    expect(inches.parts.get('front-rail.L')?.section).toEqual([96 * 25.4, 106 * 25.4]);
  });

  it('takes ±3 mm, 0.5 mm of build, 1 mm elsewhere and no uncertainty where nothing is stated', () => {
    const bare = chassisOf(
      'framewright: chassis/1\nvehicle: Marten\nunits: inch\npoints:\n  latch: { centre: [1, 2, 3] }\n',
    );
    expect(bare.points.get('latch')).toMatchObject({
      limits: [
        [-3, 3],
        [-3, 3],
        [-3, 3],
      ],
      uncertaintyMm: 0,
      base: false,
      part: null,
    });
    expect([bare.buildMm, bare.buildElsewhereMm, bare.spanToleranceMm]).toEqual([0.5, 1, 3]);
  });

  it('lets a point have its own source and uncertainty', () => {
    const { points: found } = chassisOf(
      `${parent.replace('latch: {', 'latch: { source: { kind: published },')}`,
    );
    expect(found.get('latch')).toMatchObject({ uncertaintyMm: 0, source: { kind: 'published' } });
    const own = chassisOf(parent.replace('latch: {', 'latch: { uncertainty: 0.9,'));
    expect(own.points.get('latch')?.uncertaintyMm).toBe(0.9);
  });
});

describe('a file that extends another', () => {
  it('takes over everything that it does not state', () => {
    const body = chassisOf(child(''), parent);
    const whole = chassisOf(parent);
    expect(
      [...body.points.values()].map(({ id, reference, limits, uncertaintyMm }) => ({
        id,
        reference,
        limits,
        uncertaintyMm,
      })),
    ).toEqual(
      [...whole.points.values()].map(({ id, reference, limits, uncertaintyMm }) => ({
        id,
        reference,
        limits,
        uncertaintyMm,
      })),
    );
    expect(body).toMatchObject({
      vehicle: 'Marten',
      buildMm: 0.7,
      buildElsewhereMm: 1.4,
      spanToleranceMm: 4,
      problems: [],
      source: { kind: 'donor' },
    });
    expect(body.conditions).toEqual(new Map([['powertrain', 'in']]));
  });

  it('counts blank blocks as nothing yet', () => {
    const body = chassisOf(child('parts:\npoints:\nspans:\n'), parent);
    expect(body.problems).toEqual([]);
    expect(body.points.size).toBe(5);
  });

  it('overrides by name, whole: nothing of the old entry is kept', () => {
    const { points } = chassisOf(
      child('points:\n  rail-tip: { both: [3020, 450, 212], part: front-rail }\n'),
      parent,
    );
    expect(points.get('rail-tip.L')).toMatchObject({
      reference: [3020, 450, 212],
      fixing: null,
      limits: [
        [-4, 4],
        [-4, 4],
        [-4, 4],
      ],
    });
  });

  it('removes by null', () => {
    const { points, spans, problems } = chassisOf(child('points:\n  latch: ~\n'), parent);
    expect(points.has('latch')).toBe(false);
    expect(spans.map(({ from }) => from)).toEqual(['floor-front.L', 'floor-front.R']);
    expect(problems).toEqual([]);
  });

  it('overrides a span by its two ends in either order', () => {
    const { spans } = chassisOf(
      child('spans:\n  - { from: latch, to: rail-tip.L, distance: 725, tolerance: 2 }\n'),
      parent,
    );
    expect(spans.filter(({ from, to }) => [from, to].includes('latch'))).toEqual([
      expect.objectContaining({ from: 'latch', to: 'rail-tip.L', distanceMm: 725, limits: [-2, 2] }),
    ]);
  });

  it('overrides one span of a pair by its two ends', () => {
    const { spans } = chassisOf(
      child('spans:\n  - { from: rail-tip.R, to: floor-front.R, distance: 1820 }\n'),
      parent,
    );
    expect(spans.map(({ from, to, distanceMm }) => `${from} ${to} ${distanceMm}`).sort()).toEqual([
      'floor-front.L rail-tip.L 1816',
      'rail-tip.L latch 720',
      'rail-tip.R floor-front.R 1820',
    ]);
  });

  it('leaves inherited points the tolerance and uncertainty in force where they were written', () => {
    const lines =
      'tolerance: { height: 1 }\nsource: { kind: measured, uncertainty: 0.1 }\npoints:\n  sill: { centre: [0, 0, 9] }\n';
    const { points, spans } = chassisOf(child(lines), parent);
    expect(points.get('latch')).toMatchObject({
      limits: [
        [-4, 4],
        [-4, 4],
        [-4, 4],
      ],
      uncertaintyMm: 0.4,
      source: { kind: 'donor' },
    });
    // of the child's own, what it does not state is the parent's
    expect(points.get('sill')).toMatchObject({
      limits: [
        [-4, 4],
        [-4, 4],
        [-1, 1],
      ],
      uncertaintyMm: 0.1,
      source: { kind: 'measured' },
    });
    expect(spans[0].limits).toEqual([-4, 4]);
  });

  it('has a unit of its own', () => {
    const { points, unit } = chassisOf(
      child('units: inch\npoints:\n  sill: { centre: [10, 0, 1] }\n'),
      parent,
    );
    expect(unit).toBe('inch');
    expect(points.get('sill')?.reference).toEqual([254, 0, 25.4]);
    expect(points.get('latch')?.reference).toEqual([3050, 12, 780]);
  });

  it('in a chain of three starts from the farthest', () => {
    const middle = child('tolerance: 2\npoints:\n  latch: { centre: [3050, 0, 785] }\n');
    const last = child('vehicle: Marten tow package\npoints:\n  floor-front: ~\n');
    const { points, vehicle, chain } = chassisOf(last, middle, parent);
    expect(vehicle).toBe('Marten tow package');
    expect([...points.keys()]).toEqual(['rail-tip.L', 'rail-tip.R', 'latch']);
    expect(points.get('latch')).toMatchObject({
      reference: [3050, 0, 785],
      limits: [
        [-2, 2],
        [-2, 2],
        [-2, 2],
      ],
    });
    expect(chain.map(({ text }) => text)).toEqual([last, middle, parent]);
  });

  it('does not fall back on the parent where its own entry cannot be read', () => {
    const { points, unread } = chassisOf(child('points:\n  latch: { centre: [3050, 12] }\n'), parent);
    expect(points.has('latch')).toBe(false);
    expect([...unread.points]).toEqual(['latch']);
  });

  it('is told of inherited points that stand on a part it removes', () => {
    const { problems, points } = chassisOf(child('parts:\n  front-rail: ~\n'), parent);
    expect(problems.map(({ rule, message }) => [rule, message])).toEqual([
      [
        'name/unknown-part',
        'front-rail is removed, but rail-tip stands on it: remove it too, or give another part',
      ],
    ]);
    expect(points.get('rail-tip.L')?.part).toBeNull();
  });

  it("is not told of its parents' mistakes, but is broken where a parent is", () => {
    const { problems, broken } = chassisOf(child(''), parent.replace('[3050, 12, 780]', '[3050, 12, 780'));
    expect(problems).toEqual([]);
    expect(broken).toBe(true);
  });
});
