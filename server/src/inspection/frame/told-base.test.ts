import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../../tests/published/seeded-random';
import type { Vec3 } from '../../geometry/vector';
import { inspectionOf, jobOn } from '../car.fixture';

/** Control points, and what may testify: sills, pillars and rear rails; by name on the left. */
const control: Record<string, Vec3> = {
  'floor-front': [1200, 420, 95],
  'floor-rear': [-350, 455, 90],
  'toe-board': [1520, 360, 310],
  'rear-frame': [-720, 500, 265],
};
const others: Record<string, [part: string, place: Vec3]> = {
  'sill-front': ['sill', [1050, 700, 150]],
  'sill-rear': ['sill', [-250, 705, 150]],
  'pillar-low': ['pillar', [350, 720, 420]],
  'pillar-high': ['pillar', [300, 690, 1040]],
  'rear-rail-root': ['rear-rail', [-1100, 480, 300]],
  'rear-rail-tip': ['rear-rail', [-1900, 490, 410]],
  'rail-root': ['front-rail', [1800, 448, 270]],
  'rail-tip': ['front-rail', [2960, 448, 270]],
};
const chassis = `framewright: chassis/1
vehicle: Marten five-door hatchback
parts:
${['sill', 'pillar', 'rear-rail', 'front-rail'].map((part) => `  ${part}: { sided: true }`).join('\n')}
points:
${Object.entries(control)
  .map(([name, place]) => `  ${name}: { both: [${place.join(', ')}], base: true }`)
  .join('\n')}
${Object.entries(others)
  .map(([name, [part, place]]) => `  ${name}: { both: [${place.join(', ')}], part: ${part} }`)
  .join('\n')}
`;

/** All points read, with the same small errors each time. */
function rows(moved: (id: string) => Vec3): string {
  const random = seededRandom(8);
  const places = [
    ...Object.entries(control),
    ...Object.entries(others).map(([name, [, place]]) => [name, place] as const),
  ];
  const lines = places.flatMap(([name, [x, y, z]]) =>
    (['L', 'R'] as const).map((side) => {
      const at = [x, side === 'L' ? y : -y, z];
      const by = moved(`${name}.${side}`);
      return `      ${name}.${side}: [${at.map((each, k) => (each + by[k] + random.normal(0.4)).toFixed(2)).join(', ')}]`;
    }),
  );
  return `  - measure: as received\n    readings:\n${lines.join('\n')}`;
}
const head = (more = 'scope: [front-rail]') => `instrument: { name: arm, uncertainty: 0.3 }\n${more}`;
const isControl = (id: string) => id.replace(/\.[LR]$/, '') in control;
/** The front pair and the one behind it up by 9 mm, which pitch takes up, so that every control point agrees. */
const lifted = (id: string): Vec3 => (/^(floor-front|toe-board)/.test(id) ? [0, 0, 9] : [0, 0, 0]);
const pushed = (id: string): Vec3 => (isControl(id) && id.endsWith('.L') ? [0, 0, 6] : [0, 0, 0]);
const still = (): Vec3 => [0, 0, 0];
const alignmentOf = (moved: (id: string) => Vec3, more?: string, timeline = '', specs = chassis) =>
  inspectionOf(jobOn(timeline + rows(moved), head(more)), specs).stages.at(-1)!.alignment!;

describe('a base that what stands around it contradicts', () => {
  it('is settled where all stands where it belongs', () => {
    const alignment = alignmentOf(still);
    expect(alignment.provisional).toBe(false);
    expect(alignment.alternatives).toEqual([]);
  });

  it('is ambiguous where the left side was pushed up as one, which the control points take for a roll', () => {
    const alignment = alignmentOf(pushed);
    expect(alignment.faults.map(({ kind }) => kind)).toContain('ambiguous');
    expect(alignment.provisional).toBe(true);
    const left = Object.keys(control).map((name) => `${name}.L`);
    expect(alignment.alternatives.map(({ moved }) => moved)).toContainEqual(left.sort());
  });

  it('is not asked of witnesses without a scope, with a base as listed, and of parts in question', () => {
    const isAmbiguous = (more: string, timeline?: string) => alignmentOf(pushed, more, timeline).provisional;
    expect(isAmbiguous('scope: [front-rail]')).toBe(true);
    expect(isAmbiguous('')).toBe(false);
    const listed = Object.keys(control).flatMap((name) => [`${name}.L`, `${name}.R`]);
    expect(isAmbiguous(`scope: [front-rail]\nbase: [${listed.join(', ')}]`)).toBe(false);
    expect(isAmbiguous('scope: [front-rail, sill, pillar, rear-rail]')).toBe(false);
    const seen = ['sill', 'pillar', 'rear-rail']
      .flatMap((part) => [`${part}.L`, `${part}.R`])
      .map((part) => `  - observe: kink\n    part: ${part}\n`);
    expect(isAmbiguous('scope: [front-rail]', seen.join(''))).toBe(false);
  });

  it('is contradicted the less the more sound cars are said to vary elsewhere', () => {
    const by = (mm: number) =>
      alignmentOf(pushed, undefined, '', chassis.replace('parts:', `build-elsewhere: ${mm}\nparts:`));
    expect([0, 1, 8].map((mm) => by(mm).provisional)).toEqual([true, true, false]);
  });

  it('is told of two zones with witnesses as without', () => {
    expect(alignmentOf(lifted).provisional).toBe(true);
    expect(alignmentOf(lifted, '').provisional).toBe(true);
  });
});
