import { describe, expect, it } from 'vitest';
import { zero } from '../../geometry/vector';
import { bodyWith } from '../../testing/frame-points';
import { scatterElsewhere, type WitnessGroup } from './frame-points';
import { type Around, storyList, toldOf } from './story-list';

/** The same points read again. */
function readAgain({ base, groups, scatter }: Around): Around {
  const again = (points: Around['base']) => points.map((point) => ({ ...point, off: zero }));
  return {
    base: again(base),
    groups: groups.map((group): WitnessGroup => ({ ...group, points: again(group.points) })),
    scatter: { ...scatter },
  };
}

describe('the stories that are tried', () => {
  const asked = (): Around => ({ ...bodyWith(8, () => zero, 3), scatter: scatterElsewhere(1) });

  it('are laid out once for the same points, whatever is read of them', () => {
    const first = asked();
    const list = storyList(first);
    expect(list.stories.length).toBeGreaterThan(20);
    expect(storyList(readAgain(first))).toBe(list);
  });

  const changes: Record<string, (around: Around) => Around> = {
    'a place': ({ base, ...rest }) => ({
      ...rest,
      base: base.map((point, i) => (i === 3 ? { ...point, place: [0, 1, 2] } : point)),
    }),
    'an uncertainty': ({ base, ...rest }) => ({
      ...rest,
      base: base.map((point, i) => (i === 3 ? { ...point, variance: 2 } : point)),
    }),
    'a name': ({ base, ...rest }) => ({
      ...rest,
      base: base.map((point, i) => (i === 3 ? { ...point, name: 'other' } : point)),
    }),
    'one point fewer': ({ base, ...rest }) => ({ ...rest, base: base.slice(0, -1) }),
    'no witnesses': (around) => ({ ...around, groups: [] }),
    'a witness of another group': ({ groups: [one, two, ...others], ...rest }) => ({
      ...rest,
      groups: [
        { ...one, points: one.points.slice(0, -1) },
        { ...two, points: [one.points[one.points.length - 1], ...two.points] },
        ...others,
      ],
    }),
    'the uncertainty of a witness': ({ groups, ...rest }) => ({
      ...rest,
      groups: groups.map((group, g) => ({
        ...group,
        points: group.points.map((point, i) => (g + i === 0 ? { ...point, variance: 2 } : point)),
      })),
    }),
    'another scatter': (around) => ({ ...around, scatter: scatterElsewhere(2) }),
  };
  for (const [what, change] of Object.entries(changes))
    it(`are laid out anew for ${what}`, () => {
      const first = asked();
      const list = storyList(first);
      expect(storyList(change(first))).not.toBe(list);
    });

  /** Of the leans: where they begin, to where, and whether the witnesses at the floor's height go along. */
  const leansOf = ({ base, groups }: Pick<Around, 'base' | 'groups'>): string[] =>
    toldOf(base, groups).flatMap(({ story }) =>
      story.kind === 'lean'
        ? [`${story.to} of ${story.beyondMm}${story.withFloor ? ', the floor along' : ''}`]
        : [],
    );

  it('begin at each station, and between two that stand half a metre apart or more', () => {
    // stations at -720, -350, 1200 and 1520
    const { base, groups } = asked();
    const found = leansOf({ base, groups });
    expect(new Set(found).size).toBe(found.length);
    for (const to of ['front', 'rear']) {
      expect(found).toContain(`${to} of 425`);
      expect(found).toContain(`${to} of 425, the floor along`);
      expect(found).not.toContain(`${to} of 1360`);
      expect(found).not.toContain(`${to} of -535`);
    }
    const alone = leansOf({ base, groups: [] });
    expect(alone).toContain('front of 425');
    expect(alone.some((each) => each.endsWith('along'))).toBe(false);
  });

  it('do not say twice of one station that it leans', () => {
    // stations at -350 and 1200
    const { base, groups } = bodyWith(4, () => zero, 3);
    const found = leansOf({ base, groups });
    expect(found.filter((each) => each.includes('425'))).toEqual([
      'front of 425, the floor along',
      'rear of 425, the floor along',
    ]);
    expect(leansOf({ base, groups: [] })).toEqual([]);
  });

  it('must gain more the more unknowns they have', () => {
    const { limits } = storyList(asked());
    const byUnknowns = [...limits].sort(([a], [b]) => a - b);
    expect(byUnknowns.map(([unknowns]) => unknowns)).toEqual([1, 2, 3, 6]);
    for (let i = 1; i < byUnknowns.length; i++)
      expect(byUnknowns[i][1]).toBeGreaterThan(byUnknowns[i - 1][1]);
  });
});
