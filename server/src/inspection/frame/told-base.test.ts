import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../geometry/vector';
import { chassisText, controlNames, isControl, readCar } from '../../testing/read-car';

/** The front pair and the one behind it up by 9 mm, which pitch takes up, so that every control point agrees. */
const lifted = (id: string): Vec3 => (/^(floor-front|toe-board)/.test(id) ? [0, 0, 9] : [0, 0, 0]);
const pushed = (id: string): Vec3 => (isControl(id) && id.endsWith('.L') ? [0, 0, 6] : [0, 0, 0]);
const still = (): Vec3 => [0, 0, 0];
const alignmentOf = (moved: (id: string) => Vec3, head?: string, timeline = '', chassis?: string) =>
  readCar(moved, { head, timeline, chassis }).stages.at(-1)!.alignment!;

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
    const left = controlNames.map((name) => `${name}.L`);
    expect(alignment.alternatives.map(({ moved }) => moved)).toContainEqual(left.sort());
  });

  it('is not asked of witnesses without a scope, with a base as listed, and of parts in question', () => {
    const isAmbiguous = (more: string, timeline?: string) => alignmentOf(pushed, more, timeline).provisional;
    expect(isAmbiguous('scope: [front-rail]')).toBe(true);
    expect(isAmbiguous('')).toBe(false);
    const listed = controlNames.flatMap((name) => [`${name}.L`, `${name}.R`]);
    expect(isAmbiguous(`scope: [front-rail]\nbase: [${listed.join(', ')}]`)).toBe(false);
    expect(isAmbiguous('scope: [front-rail, sill, centre-pillar, rear-rail]')).toBe(false);
    const seen = ['sill', 'centre-pillar', 'rear-rail']
      .flatMap((part) => [`${part}.L`, `${part}.R`])
      .map((part) => `  - observe: kink\n    part: ${part}\n`);
    expect(isAmbiguous('scope: [front-rail]', seen.join(''))).toBe(false);
  });

  it('is contradicted the less the more sound cars are said to vary elsewhere', () => {
    const by = (mm: number) =>
      alignmentOf(pushed, undefined, '', chassisText(undefined, `build-elsewhere: ${mm}\n`));
    expect([0, 1, 8].map((mm) => by(mm).provisional)).toEqual([true, true, false]);
  });

  it('is told of two zones with witnesses as without', () => {
    expect(alignmentOf(lifted).provisional).toBe(true);
    expect(alignmentOf(lifted, '').provisional).toBe(true);
  });
});
