import type { Solid, SolidPoint } from '@framewright/schemas/wire';
import { describe, expect, test } from 'vitest';
import { looks, onSheet, projectionOf } from './look';
import { labelsOf, linesOf, marksOf } from './picture';
import { solidSvg } from './svg';

const point = (id: string, given: Partial<SolidPoint> = {}): SolidPoint => ({
  id,
  state: 'within',
  at: [0, 0, 0],
  tip: null,
  cut: false,
  partial: false,
  earlier: null,
  named: false,
  selected: false,
  text: id,
  ...given,
});

const solid = (points: readonly SolidPoint[], given: Partial<Solid> = {}): Solid => ({
  factor: 20,
  stage: 'as received',
  over: null,
  cautions: [],
  least: [-1500, -800, 0],
  most: [3100, 800, 1400],
  points,
  parts: [],
  ground: [],
  gridText: '500 mm',
  symbols: { within: 'M-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0z', outside: 'M0 -5L5 0L0 5L-5 0z' },
  ...given,
});

const size = { width: 600, height: 400 };
const colours = { ink: '#000', quiet: '#555', accent: '#408', paper: '#fff' };

describe('the picture of the body in space', () => {
  test('draws an arrow from the reference to the magnified reading, outside apart from the rest', () => {
    const lines = linesOf(
      solid([
        point('a', { at: [100, 0, 0], tip: [100, 300, 0], state: 'outside' }),
        point('b', { tip: [10, 0, 0] }),
        point('c', { earlier: [5, 5, 5] }),
        point('d', { tip: [0, 510, 0], state: 'outside', cut: true }),
        point('e', { tip: [0, 20, 0], state: 'unjudged', partial: true }),
      ]),
    );
    expect(lines.get('arrow-outside')).toEqual([
      [
        [100, 0, 0],
        [100, 300, 0],
      ],
    ]);
    expect(lines.get('arrow')).toEqual([
      [
        [0, 0, 0],
        [10, 0, 0],
      ],
    ]);
    // told from one that ends where the point is
    expect(lines.get('arrow-cut')).toEqual([
      [
        [0, 0, 0],
        [0, 510, 0],
      ],
    ]);
    expect(lines.get('arrow-partial')).toEqual([
      [
        [0, 0, 0],
        [0, 20, 0],
      ],
    ]);
    expect(lines.get('earlier')).toEqual([
      [
        [0, 0, 0],
        [5, 5, 5],
      ],
    ]);
  });

  test('draws in the saved SVG what is seen, to a hundredth of a px', () => {
    const shown = solid([point('a', { at: [1000, 500, 200], tip: [1000, 800, 200], state: 'outside' })]);
    const projection = projectionOf(looks.reset, shown, size);
    const svg = solidSvg(shown, projection, colours, 'W-1');
    const numbers = /<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="#408"/
      .exec(svg)
      ?.slice(1)
      .map(Number);
    const wanted = [...onSheet(projection, [1000, 500, 200]), ...onSheet(projection, [1000, 800, 200])];
    expect(numbers).toHaveLength(4);
    numbers?.forEach((number, i) => {
      expect(number).toBeCloseTo(wanted[i], 1);
    });
  });

  test('says every mark in words, and keeps text from files text', () => {
    const hostile = '</title><script>alert(1)</script>"\'&';
    const svg = solidSvg(
      solid([point(hostile, { named: true, text: hostile })], { stage: hostile }),
      projectionOf(looks.reset, solid([]), size),
      colours,
      hostile,
    );
    expect(svg).not.toContain('<script');
    expect(svg.match(/&lt;script&gt;/g)?.length).toBeGreaterThanOrEqual(4);
    expect(svg).not.toMatch(/ on\w+=/);
  });

  test('places no name over another, over a mark that must be seen, or off the sheet', () => {
    const crowd = Array.from({ length: 120 }, (_, i) =>
      point(`rail-station-${i}-upper.L`, {
        at: [3000 + (i % 12) * 4, 400 + Math.floor(i / 12) * 4, 200],
        state: i % 5 === 0 ? 'outside' : 'within',
        named: i % 10 === 0,
      }),
    );
    const projection = projectionOf(looks.reset, solid(crowd), size);
    const labels = labelsOf(marksOf(solid(crowd), projection), projection);
    expect(labels.length).toBeGreaterThan(4);
    const boxes = labels.map(({ id, x, y }) => ({
      left: x - 2,
      right: x + 6.2 * id.length + 2,
      top: y - 11,
      bottom: y + 3,
    }));
    boxes.forEach((a, i) => {
      expect(a.left).toBeGreaterThanOrEqual(0);
      expect(a.right).toBeLessThanOrEqual(size.width);
      for (const b of boxes.slice(i + 1))
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
    });
  });
});
