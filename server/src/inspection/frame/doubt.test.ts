import { describe, expect, it } from 'vitest';
import { type Vec3, zero } from '../../geometry/vector';
import { type Body, bodyWith } from '../../testing/frame-points';
import { doubted } from './doubt';
import { scatterElsewhere } from './frame-points';
import { joinedFit } from './joined';
import { weighed } from './witnesses';

const scatter = scatterElsewhere(1);
const doubtOf = ({ base, groups }: Body) => {
  const weighing = weighed(base, 1, groups, scatter)!;
  return doubted(base, groups, weighing, joinedFit(base, 1, groups, weighing)!);
};
const isFront = (id: string) => id.startsWith('floor-front');
const up =
  (mm: number) =>
  (id: string): Vec3 =>
    isFront(id) ? [0, 0, mm] : zero;

describe('doubt', () => {
  it('is none of four control points that stand where they belong, among witnesses that do', () => {
    for (let seed = 1; seed <= 40; seed++) expect(doubtOf(bodyWith(4, () => zero, seed))).toBeNull();
  });

  it('is of four whose front pair was lifted, by which everything else stands off', () => {
    const doubt = doubtOf(bodyWith(4, up(30)))!;
    expect(doubt.allOff).toBe(true);
  });

  it('is of single points that stand off by everything else', () => {
    const doubt = doubtOf(bodyWith(4, (id): Vec3 => (id === 'floor-front.L' ? [0, 0, 14] : zero)))!;
    expect(doubt.offIds).toContain('floor-front.L');
  });

  it('is not asked of six control points', () => {
    expect(doubtOf(bodyWith(6, up(30)))).toBeNull();
  });

  it('is not asked where there is but one group', () => {
    const body = bodyWith(4, up(30));
    expect(doubtOf({ ...body, groups: body.groups.slice(0, 1) })).toBeNull();
  });

  it('is not there where one group stands', () => {
    const low = (id: string): Vec3 => (/rear-rail|pillar/.test(id) ? [0, 0, -12] : zero);
    expect(doubtOf(bodyWith(4, low))?.allOff ?? false).toBe(false);
  });
});
