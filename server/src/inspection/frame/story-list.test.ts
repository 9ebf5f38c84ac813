import { describe, expect, it } from 'vitest';
import { zero } from '../../geometry/vector';
import { bodyWith } from '../../testing/frame-points';
import { scatterElsewhere, type WitnessGroup } from './frame-points';
import { type Around, storyList } from './story-list';

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

  it('must gain more the more unknowns they have', () => {
    const { limits } = storyList(asked());
    const byUnknowns = [...limits].sort(([a], [b]) => a - b);
    expect(byUnknowns.map(([unknowns]) => unknowns)).toEqual([1, 2, 3, 6]);
    for (let i = 1; i < byUnknowns.length; i++)
      expect(byUnknowns[i][1]).toBeGreaterThan(byUnknowns[i - 1][1]);
  });
});
