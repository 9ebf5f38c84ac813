import { describe, expect, it } from 'vitest';
import { carChassis, inspectionOf, jobOn, measured } from '../../testing/car';

const bodyOf = (rows: string, chassis?: string) =>
  inspectionOf(jobOn(measured(rows)), chassis).stages[0].body!;
const rails = (shift: (side: 1 | -1) => [number, number, number]) =>
  (['L', 'R'] as const)
    .flatMap((side) =>
      [[3012, 448, 210] as const, [3012, 452, 352] as const].map(([x, y, z], i) => {
        const sign = side === 'L' ? 1 : -1;
        const [dx, dy, dz] = shift(sign);
        return `      rail-tip-${i === 0 ? 'lower' : 'upper'}.${side}: [${x + dx}, ${sign * y + dy}, ${z + dz}]`;
      }),
    )
    .join('\n');

describe('the body', () => {
  it('is shortened, to one side and low ahead of the base', () => {
    const { front, rear } = bodyOf(rails(() => [-9, -14, -5]));
    expect(front!.length.mm).toBeCloseTo(-9, 6);
    expect(front!.sideways.mm).toBeCloseTo(-14, 6);
    expect(front!.height.mm).toBeCloseTo(-5, 6);
    expect(front!.conditions).toEqual(['mash', 'sidesway', 'sag']);
    expect(rear).toBeNull();
  });

  it('is a diamond where the left stands ahead of the right, and twisted where the top leans', () => {
    const { front } = bodyOf(rails((side) => [side * 4, 0, side * 8]));
    expect(front!.diamond.mm).toBeCloseTo(8, 6);
    // left up, right down by 8 over 450: about forward, from left to up
    expect(front!.twist!.angleRad).toBeCloseTo(8 / 450, 3);
    expect(front!.conditions).toEqual(['diamond', 'twist']);
  });

  it('is not called anything while every point of the zone is in tolerance', () => {
    expect(bodyOf(rails(() => [-2, -2, 0])).front!.conditions).toEqual([]);
  });

  it('counts a centre point in length, sideways and height alone', () => {
    const { front } = bodyOf(`${rails(() => [0, 0, 0])}\n      latch: [3050, 10, 780]`);
    expect(front!.sideways.mm).toBeCloseTo(2, 6);
    expect(front!.diamond.mm).toBeCloseTo(0, 6);
    expect(front!.twist!.angleRad).toBeCloseTo(0, 8);
  });

  it('leaves out a point of which the other side was not read', () => {
    const { front } = bodyOf(`${rails(() => [0, 0, 0])}\n      strut-top.L: [2250, 600, 830]`, carChassis);
    expect(front!.sideways.mm).toBeCloseTo(0, 6);
  });
});
