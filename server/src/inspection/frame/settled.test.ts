import { describe, expect, it } from 'vitest';
import { settledStory, type ToldStory } from './settled';

const limits = { stands: 9.84, off: 16.27 };
const rear = [-720, -350];
const front = [1200, 1520];
/** χ² of three groups, behind, between and ahead, by the rear's control points and by the front's. */
const rails = [-1500, -1900];
const pillar = [300, 350];
const lamp = [2820, 3000];
const groups = (...squares: number[]) =>
  [rails, pillar, lamp].map((lengths, g) => ({ lengths, squares: squares[g] }));
const frontMoved: ToldStory = { still: rear, moved: front, groups: groups(2, 3, 40) };
const rearMoved: ToldStory = { still: front, moved: rear, groups: groups(60, 30, 1) };
const scope = [1800, 2960];
const turned = ({ still, moved, groups: of }: ToldStory): ToldStory => ({
  still: still.map((x) => -x),
  moved: moved.map((x) => -x),
  groups: of.map(({ lengths, squares }) => ({ squares, lengths: lengths.map((x) => -x) })),
});

describe('a story settled by scope and witnesses', () => {
  it('is that of the end which the scope names, where all around it stands', () => {
    expect(settledStory([frontMoved, rearMoved], scope, limits)).toBe(0);
    expect(settledStory([rearMoved, frontMoved], scope, limits)).toBe(1);
  });

  it('is the same for a car end for end', () => {
    expect(
      settledStory(
        [frontMoved, rearMoved].map(turned),
        scope.map((x) => -x),
        limits,
      ),
    ).toBe(0);
  });

  it('is none without a scope, or with one on both sides', () => {
    expect(settledStory([frontMoved, rearMoved], [], limits)).toBeNull();
    expect(settledStory([frontMoved, rearMoved], [-1900, 2960], limits)).toBeNull();
  });

  it('is none where a group that does not stand lies short of what moved', () => {
    const between = { ...frontMoved, groups: groups(2, 11, 40) };
    expect(settledStory([between, rearMoved], scope, limits)).toBeNull();
  });

  it('is none where fewer than two groups that stand speak against a rival', () => {
    const mild = { ...rearMoved, groups: groups(60, 12, 1) };
    expect(settledStory([frontMoved, mild], scope, limits)).toBeNull();
  });

  it('is none where none of them stands at the end that the rival says moved', () => {
    const elsewhere = {
      ...rearMoved,
      groups: [pillar, pillar, lamp].map((lengths) => ({ lengths, squares: 60 })),
    };
    const here = {
      ...frontMoved,
      groups: [pillar, pillar, lamp].map((lengths) => ({ lengths, squares: 1 })),
    };
    expect(settledStory([here, elsewhere], scope, limits)).toBeNull();
  });

  it('is none of stories whose moved and standing points are mixed, nor where two qualify', () => {
    const mixed = { ...frontMoved, still: [-720, 1300], moved: [1200, 1520] };
    expect(settledStory([mixed, rearMoved], scope, limits)).toBeNull();
    const also = { ...frontMoved, groups: groups(2, 3, 50) };
    expect(settledStory([frontMoved, also], scope, limits)).toBeNull();
    expect(settledStory([frontMoved], scope, limits)).toBeNull();
  });
});
