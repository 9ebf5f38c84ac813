import type { Place } from '@framewright/schemas/wire';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Look, lookAfter, looks, onSheet, projectionOf, sheetOf } from './look';

const box = { least: [-1500, -800, 0], most: [3100, 800, 1400] } as const;
const size = { width: 600, height: 400 };
const dot = (a: Place, b: Place) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const anyLook = fc.record({
  turn: fc.double({ min: -180, max: 180, noNaN: true }),
  tilt: fc.double({ min: -90, max: 90, noNaN: true }),
  zoom: fc.double({ min: 0.3, max: 40, noNaN: true }),
  moved: fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
}) as fc.Arbitrary<Look>;

describe('a look', () => {
  test('has a sheet of three unit vectors square to each other, right-handed', () => {
    fc.assert(
      fc.property(anyLook, (look) => {
        const { right, up, out } = sheetOf(look);
        for (const each of [right, up, out]) expect(dot(each, each)).toBeCloseTo(1, 12);
        for (const [a, b] of [
          [right, up],
          [up, out],
          [out, right],
        ] as const)
          expect(dot(a, b)).toBeCloseTo(0, 12);
        const cross = [
          right[1] * up[2] - right[2] * up[1],
          right[2] * up[0] - right[0] * up[2],
          right[0] * up[1] - right[1] * up[0],
        ];
        for (const k of [0, 1, 2] as const) expect(cross[k]).toBeCloseTo(out[k], 12);
      }),
    );
  });

  test('from above is the plan: forward to the right, left up', () => {
    const projection = projectionOf(looks.above, box, size);
    const at = (place: Place) => onSheet(projection, place);
    expect(at([1000, 0, 0])[0] - at([0, 0, 0])[0]).toBeCloseTo(1000 * projection.pxPerMm, 9);
    expect(at([0, 500, 0])[1] - at([0, 0, 0])[1]).toBeCloseTo(-500 * projection.pxPerMm, 9);
    expect(at([700, 300, 900])[0]).toBeCloseTo(at([700, 300, 0])[0], 9);
  });

  test('from the left has the nose to the left, from ahead the car’s left to the right', () => {
    const left = projectionOf(looks.left, box, size);
    expect(onSheet(left, [1000, 0, 0])[0]).toBeLessThan(onSheet(left, [0, 0, 0])[0]);
    const front = projectionOf(looks.front, box, size);
    expect(onSheet(front, [0, 500, 0])[0]).toBeGreaterThan(onSheet(front, [0, 0, 0])[0]);
    expect(onSheet(front, [0, 0, 500])[1]).toBeLessThan(onSheet(front, [0, 0, 0])[1]);
  });

  test.each(Object.entries(looks))('%s shows the whole', (_, look) => {
    const projection = projectionOf(look, box, size);
    for (const x of [box.least[0], box.most[0]])
      for (const y of [box.least[1], box.most[1]])
        for (const z of [box.least[2], box.most[2]]) {
          const [across, down] = onSheet(projection, [x, y, z]);
          expect(across).toBeGreaterThanOrEqual(0);
          expect(across).toBeLessThanOrEqual(size.width);
          expect(down).toBeGreaterThanOrEqual(0);
          expect(down).toBeLessThanOrEqual(size.height);
        }
  });
});

describe('keys', () => {
  test('turn, tilt, move, come nearer and reset', () => {
    expect(lookAfter(looks.reset, 'ArrowRight', false)?.turn).toBe(135);
    expect(lookAfter(looks.reset, 'ArrowUp', false)?.tilt).toBe(38);
    expect(lookAfter(looks.above, 'ArrowUp', false)?.tilt).toBe(90);
    expect(lookAfter(looks.reset, 'ArrowUp', true)?.moved).toEqual([0, 0.08]);
    expect(lookAfter(looks.reset, '+', false)?.zoom).toBe(1.25);
    expect(lookAfter(looks.reset, '-', false)?.zoom).toBe(0.8);
    expect(lookAfter({ ...looks.above, zoom: 3, moved: [1, 1] }, '0', false)).toBe(looks.reset);
    expect(lookAfter(looks.reset, 'Tab', false)).toBeNull();
  });

  test('a turn all the way round ends where it began', () => {
    let look: Look = looks.reset;
    for (let step = 0; step < 36; step++) look = lookAfter(look, 'ArrowLeft', false) ?? look;
    expect(look.turn).toBeCloseTo(looks.reset.turn, 9);
  });
});
