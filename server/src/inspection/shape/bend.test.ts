import { describe, expect, it } from 'vitest';
import { inspectionOf, jobOn, measured } from '../../testing/car';

const stations = [1700, 1950, 2200, 2450, 2700, 2950];
const chassisOf = (at: readonly number[], build = '0.1') => `framewright: chassis/1
vehicle: Marten five-door hatchback
build: ${build}
parts:
  beam: {}
points:
  floor-front: { both: [1200, 420, 95], base: true }
  floor-rear: { both: [-350, 455, 90], base: true }
  tunnel-front: { both: [905, 188, 242], base: true }
  cowl-hole: { both: [1480, 612, 905], base: true }
${at.map((x, i) => `  p${i}: { centre: [${x}, 0, 300], part: beam }`).join('\n')}
`;
const bendOf = (
  at: readonly number[],
  sideways: (x: number) => number,
  up: (x: number) => number = () => 0,
  head?: string,
  build?: string,
) =>
  inspectionOf(
    jobOn(measured(at.map((x, i) => `      p${i}: [${x}, ${sideways(x)}, ${300 + up(x)}]`).join('\n')), head),
    chassisOf(at, build),
  ).stages[0].parts.find((part) => part.part.id === 'beam')!.bend;
const beyond = (h: number, k: number) => (x: number) => k * Math.max(0, x - h);

describe('a bend', () => {
  it('starts where the part leaves its course: left and up are positive going away from the base', () => {
    const bend = bendOf(stations, beyond(2300, -0.03), beyond(2300, 0.01));
    expect(bend).toMatchObject({ kind: 'bend', away: 1 });
    if (bend.kind !== 'bend') return;
    expect(bend.atMm).toBeCloseTo(2300, 0);
    expect(bend.sidewaysRad).toBeCloseTo(Math.atan(-0.03), 4);
    expect(bend.verticalRad).toBeCloseTo(Math.atan(0.01), 4);
    expect(bend.straightToMm).toBeCloseTo(bend.atMm - 2 * bend.uncertaintyMm, 9);
    expect(bend.startsBetweenMm[0]).toBe(bend.holdToMm);
    expect(bend.holdToMm).toBeLessThan(bend.straightToMm);
    expect(bend.holdToMm).toBeLessThan(bend.atMm - 39);
    expect(bend.startsBetweenMm[1]).toBeGreaterThan(bend.atMm);
  });

  it('is looked for the other way behind the base', () => {
    const rear = stations.map((x) => -x);
    const bend = bendOf(rear, (x) => 0.03 * Math.max(0, -x - 2300));
    expect(bend).toMatchObject({ kind: 'bend', away: -1 });
    if (bend.kind !== 'bend') return;
    expect(bend.atMm).toBeCloseTo(-2300, 0);
    expect(bend.sidewaysRad).toBeCloseTo(Math.atan(0.03), 4);
    expect(bend.straightToMm).toBeGreaterThan(bend.atMm);
    expect(bend.holdToMm).toBe(bend.startsBetweenMm[1]);
    expect(bend.holdToMm).toBeGreaterThan(bend.atMm + 39);
    expect(bend.startsBetweenMm[0]).toBeLessThan(bend.atMm);
  });

  it('is found at either end of a part that runs past the base', () => {
    // the base's centroid stands near 800: the middle of these stations lies ahead of it, the bend behind
    const long = [-1500, -1100, -700, -300, 300, 900, 1700, 2300, 2900, 3300, 3600];
    const ahead = bendOf(long, beyond(1500, 0.03));
    expect(ahead).toMatchObject({ kind: 'bend', away: 1 });
    const behind = bendOf(long, (x) => 0.03 * Math.max(0, -500 - x));
    expect(behind).toMatchObject({ kind: 'bend', away: -1 });
    if (behind.kind !== 'bend') return;
    expect(behind.atMm).toBeCloseTo(-500, 0);
    expect(behind.sidewaysRad).toBeCloseTo(Math.atan(0.03), 4);
    expect(behind.holdToMm).toBe(behind.startsBetweenMm[1]);
    expect(behind.holdToMm).toBeGreaterThan(behind.atMm);
  });

  it('is refused where both ends of such a part are bent, or where it would start on the other side of the base', () => {
    const long = [-1500, -1100, -700, -300, 300, 900, 1700, 2300, 2900, 3300, 3600];
    expect(bendOf(long, (x) => 0.03 * Math.max(0, -500 - x) + 0.03 * Math.max(0, x - 2000)).kind).toBe(
      'several',
    );
    expect(bendOf(long, (x) => 0.03 * Math.max(0, 2000 - x)).kind).not.toBe('bend');
  });

  it('is not declared of a straight part, one turned as a whole, or one with too few stations', () => {
    expect(bendOf(stations, () => 0.2).kind).toBe('none');
    expect(bendOf(stations, (x) => 0.02 * (x - 1500)).kind).toBe('none');
    expect(bendOf([1700, 2900], beyond(2300, 0.03)).kind).toBe('too-few-stations');
    // with one station beyond, place and slope cannot be told apart
    expect(bendOf(stations, beyond(2720, 0.03)).kind).toBe('none');
  });

  it('is refused where two are there', () => {
    expect(bendOf(stations, (x) => 0.03 * Math.max(0, x - 2000) - 0.03 * Math.max(0, x - 2600)).kind).toBe(
      'several',
    );
  });

  it('can be told from an instrument that claims to be perfect', () => {
    const many = Array.from({ length: 12 }, (_, i) => 1700 + 100 * i);
    const perfect = 'instrument: { uncertainty: 0.000000001 }';
    expect(() => bendOf(many, beyond(2300, 0.03), undefined, perfect, '0')).not.toThrow();
  });
});
