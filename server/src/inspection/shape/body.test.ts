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

  const roots = (left: number, right: number) =>
    `      rail-root-lower.L: [${1760 + left}, 441, 188]\n      rail-root-lower.R: [${1760 + right}, -441, 188]`;
  const pushed = (left: number, right: number) => rails((side) => [side === 1 ? left : right, 0, 0]);

  it('is twisted where the top leans', () => {
    const { front } = bodyOf(rails((side) => [0, 0, side * 8]));
    // left up, right down by 8 over 450: about forward, from left to up
    expect(front!.twist!.angleRad).toBeCloseTo(8 / 450, 3);
    expect(front!.conditions).toEqual(['twist']);
  });

  it('is a diamond only where the roots of both sides have moved, each its own way', () => {
    const both = bodyOf(`${pushed(4, -4)}\n${roots(4, -4)}`).front!;
    expect(both.diamond.mm).toBeCloseTo(8, 6);
    expect(both.conditions).toContain('diamond');
    // the tips alone, one root alone, both roots the same way, and roots the other way round
    for (const rows of [
      pushed(4, -4),
      `${pushed(4, -4)}\n${roots(0, 0)}`,
      `${pushed(4, -4)}\n${roots(0, -4)}`,
      `${pushed(12, 4)}\n${roots(4, 4)}`,
      `${pushed(6, -6)}\n${roots(-3, 3)}`,
    ])
      expect(bodyOf(rows).front!.conditions).not.toContain('diamond');
  });

  it('is mashed on one side where that alone is shortened', () => {
    const { front } = bodyOf(`${pushed(-12, 0)}\n${roots(0, 0)}`);
    expect(front!.conditions).toEqual(['left-mash']);
    expect(front!.tips.sides[0].left.mm).toBeCloseTo(-12, 6);
    expect(front!.tips.sides[0].right.mm).toBeCloseTo(0, 6);
    expect(bodyOf(`${pushed(0, -12)}\n${roots(0, 0)}`).front!.conditions).toEqual(['right-mash']);
    expect(bodyOf(`${pushed(-12, -6)}\n${roots(0, 0)}`).front!.conditions).toEqual(['mash']);
    // the side that is shortened by little, and no point of it outside, is none where the other side is what was hurt
    const bentLeft = rails((side) => (side === 1 ? [2, -14, 0] : [-1.5, 0, 0]));
    expect(bodyOf(`${bentLeft}\n${roots(0, 0)}`).front!.conditions).not.toContain('right-mash');
    // made longer is no mash
    expect(bodyOf(`${pushed(12, 0)}\n${roots(0, 0)}`).front!.conditions).toEqual([]);
  });

  it('has figures of its tips besides those of all its points', () => {
    const { front } = bodyOf(`${rails(() => [0, -20, 0])}\n${roots(0, 0)}\n      latch: [3050, -20, 780]`);
    expect(front!.tips.sideways.mm).toBeCloseTo(-20, 6);
    // four tips and the latch at −20, two roots at 0
    expect(front!.sideways.mm).toBeCloseTo((-20 * 5) / 7, 6);
    expect(front!.tips.isAll).toBe(false);
    expect(bodyOf(rails(() => [0, -20, 0])).front!.tips.isAll).toBe(true);
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
