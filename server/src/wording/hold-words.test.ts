import { describe, expect, it } from 'vitest';
import { planReport } from '../commands/plan';
import type { Vec3 } from '../geometry/vector';
import type { Axis } from '../model/chassis';
import { inspectionOf, jobText } from '../testing/pulled-rail';

/** Invented: control points about a middle, and one beam without straight metal. */
const control: readonly Vec3[] = [
  [700, 420, -60],
  [720, -400, -40],
  [-690, 430, -50],
  [-710, -410, -70],
  [150, 610, 330],
  [-160, -600, 340],
];

const along = (axis: Axis, mm: number, [one, other]: readonly [number, number]): Vec3 =>
  axis === 0 ? [mm, one, other] : axis === 1 ? [one, mm, other] : [one, other, mm];

/** What the page and the detail of the part say of a beam that is off everywhere; from there to there, its other two axes as given. */
function holdsOf(axis: Axis, fromMm: number, toMm: number, across: readonly [number, number]): string[] {
  const beam = [0, 1 / 3, 2 / 3, 1].map((share) => along(axis, fromMm + share * (toMm - fromMm), across));
  const off = along(axis, 0, [9, 9]);
  const rows = [
    ...control.map((at, i) => ({ name: `control-${i}`, at, read: at, facts: 'part: floor, base: true' })),
    ...beam.map((at, i) => ({
      name: `beam-${i}`,
      at,
      read: at.map((mm, k) => mm + off[k]),
      facts: 'part: beam',
    })),
  ];
  const chassis = `framewright: chassis/1
vehicle: Teal estate
source: { kind: published, reference: sheet 4 }
build: 0.3
parts: { floor: {}, beam: { along: ${['length', 'width', 'height'][axis]}, steel: mild, straighten: freely } }
points:
${rows.map(({ name, at, facts }) => `  ${name}: { centre: [${at.join(', ')}], ${facts} }`).join('\n')}
`;
  const readings = rows.map(({ name, read }) => `      ${name}: [${read.join(', ')}]`).join('\n');
  const inspection = inspectionOf(
    chassis,
    jobText([`  - measure: as received\n    readings:\n${readings}\n`]),
  );
  const flat = (text: string | null) => (text ?? '').replace(/\s+/g, ' ');
  const page = /hold (the body .*?), where the maker/.exec(flat(planReport(inspection)))?.[1] ?? '';
  const detail = /hold (the body .*?), where the maker/.exec(flat(planReport(inspection, 'beam')))?.[1] ?? '';
  return [page, detail];
}

describe('a hold on the body', () => {
  it.each([
    ['a nose', 0, 1800, 3000, [400, 200], 'farther rearward than'],
    ['a tail', 0, -3000, -1800, [400, 200], 'farther forward than'],
    ['a left arm', 1, 900, 1900, [100, 200], 'farther right than'],
    ['a right arm', 1, -1900, -900, [100, 200], 'farther left than'],
    ['a post', 2, 700, 1700, [100, 200], 'below'],
    ['a leg', 2, -1700, -700, [100, 200], 'above'],
    ['a sill', 0, -1500, 1500, [700, 200], 'farther forward and farther rearward than'],
    ['a cross-member', 1, -800, 800, [100, 200], 'farther left and farther right than'],
    ['a pillar', 2, -800, 900, [100, 700], 'above and below'],
    ['a support across the nose', 1, -800, 800, [1500, 200], 'farther rearward than'],
    ['a panel across the tail', 1, -800, 800, [-1500, 200], 'farther forward than'],
    ['a post at the tail', 2, 700, 1700, [-1500, 200], 'farther forward than'],
  ] as const)('is on the base’s side of %s', (_, axis, from, to, across, words) => {
    expect(holdsOf(axis, from, to, across)).toEqual([`the body ${words} beam`, `the body ${words} beam`]);
  });
});
