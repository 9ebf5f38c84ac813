import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { length } from '../geometry/vector';
import { roundedDirection, unitVector } from '../inspection/pulls/direction';
import { angleToCentrelineDegrees, angleToFloorDegrees, angleWords, directionWords } from './pull-direction';

describe('direction of a pull in words', () => {
  it('names the way in each quadrant', () => {
    expect(directionWords([1, 1, 0], null)).toBe('forward and left');
    expect(directionWords([1, -1, 0], null)).toBe('forward and right');
    expect(directionWords([-1, 1, 0], null)).toBe('rearward and left');
    expect(directionWords([-1, -1, 0], null)).toBe('rearward and right');
    expect(directionWords([0, 0, -1], null)).toBe('down');
  });

  it('says slightly for what is under 30° off, and nothing for what is under 10°', () => {
    expect(directionWords([0.2, 1, 0.05], null)).toBe('left and slightly forward');
    expect(directionWords([1, 0.9, -0.3], null)).toBe('forward and left, slightly down');
    expect(directionWords([1, 0.9, -0.2], null)).toBe('forward and left');
    expect(directionWords([0.15, 1, 0.16], null)).toBe('left');
    expect(directionWords([1, -0.15, 0.1], null)).toBe('forward');
    expect(directionWords([0.1, 0.1, 1], null)).toBe('up');
    expect(directionWords([1, 0.9, 0.8], null)).toBe('forward, left and up');
    expect(directionWords([0.2, 1, -0.2], null)).toBe('left and slightly forward and down');
  });

  it('adds inboard and outboard by the side of the hook', () => {
    expect(directionWords([0, 1, 0], 'L')).toBe('left (outboard)');
    expect(directionWords([0, 1, 0], 'R')).toBe('left (inboard)');
    expect(directionWords([0, -1, 0], 'L')).toBe('right (inboard)');
  });
});

describe('angles of a pull', () => {
  it('are to the centreline seen from above and to the floor seen from the side', () => {
    expect(angleWords([0.2, 1, 0])).toBe('79° to the centreline');
    expect(angleWords([-0.2, -1, 0])).toBe('79° to the centreline');
    expect(angleWords([1, 0, 0.5])).toBe('along the centreline, rising 27° from the floor');
    expect(angleWords([0, -1, -0.5])).toBe('square to the centreline, falling 27° to the floor');
    expect(angleWords([0.15, 1, 0.16])).toBe('square to the centreline');
    expect(angleWords([0.3, 0, 1])).toBe('rising 73° from the floor');
    expect(angleWords([0, 0.01, -1])).toBe('');
  });

  it('are the same for a way of any length, and within a right angle', () => {
    const number = fc.double({ min: -100, max: 100, noNaN: true }).filter((x) => Math.abs(x) > 1e-3);
    fc.assert(
      fc.property(number, number, number, fc.double({ min: 0.1, max: 50, noNaN: true }), (x, y, z, k) => {
        const centreline = angleToCentrelineDegrees([x, y, z]);
        expect(angleToFloorDegrees([k * x, k * y, k * z])).toBeCloseTo(angleToFloorDegrees([x, y, z]), 6);
        expect(centreline).toBeGreaterThanOrEqual(0);
        expect(centreline).toBeLessThanOrEqual(90);
        expect(angleToCentrelineDegrees([-x, y, z])).toBeCloseTo(centreline, 9);
        expect(length(unitVector([x, y, z])!)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('are written with two decimals and no negative zero', () => {
    expect(roundedDirection([-0.001, 0.99999, 0.0149])).toEqual([0, 1, 0.01]);
    expect(unitVector([0, 0, 0])).toBeNull();
  });
});
