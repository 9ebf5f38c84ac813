import type { Vec3 } from '../../geometry/vector';
import { derivedFrom } from '../../memory/derived';
import type { ElsewhereScatter, FramePoint, WitnessGroup } from './frame-points';
import { type Belief, observed } from './observations';
import { type LaidOut, laidOut } from './story-columns';
import { chiSquareLimit } from './story-gain';
import { growingStories, setStories, type Told } from './story-kinds';
import { fallOf } from './story-sums';

/** Whose readings are asked: a base, and groups of witnesses if any may testify. */
export interface Around {
  readonly base: readonly FramePoint[];
  readonly groups: readonly WitnessGroup[];
  readonly scatter: ElsewhereScatter;
}

/** The stories with names that are tried on them. */
interface StoryList {
  readonly stories: readonly LaidOut[];
  /** By the number of unknowns: what a story must gain at least. */
  readonly limits: ReadonlyMap<number, number>;
}

/** Stories with names. */
export function toldOf(base: readonly FramePoint[], groups: readonly WitnessGroup[]): Told[] {
  const witnesses = groups.flatMap(({ points }) => points);
  return [...setStories(base, groups.length > 0), ...growingStories(base, witnesses)];
}

export const inFull = (groups: readonly WitnessGroup[]): Belief[] =>
  groups.map(({ points }) => ({ points: points.map(() => 1), group: 1 }));

/**
 * Those that the readings can tell with every witness believed. That depends on places, uncertainties and names, not on what was read there, so it is kept
 * from one edit to the next.
 */
export const storyList = derivedFrom(standingOf, ({ base, groups, scatter }: Around): StoryList => {
  const all = observed(base, groups, inFull(groups), scatter);
  const points = [...base, ...groups.flatMap((group) => group.points)];
  const stories = toldOf(base, groups)
    .map((told) => laidOut(told, points))
    .filter((story) => all === null || fallOf(all, story) !== null);
  const sizes = new Set(stories.map(({ told }) => told.unknowns));
  const limits = new Map([...sizes].map((unknowns) => [unknowns, chiSquareLimit(unknowns, stories.length)]));
  return { stories, limits };
});

/** All but the deviations. Places are those of the sheet, which stay the same objects while nobody changes it. */
function standingOf({ base, groups, scatter }: Around): [Vec3, ...unknown[]] {
  const known: [Vec3, ...unknown[]] = [base[0].place, scatter.own, scatter.shared];
  for (const { id, name, place, variance } of base) known.push(id, name, place, variance);
  for (const { points } of groups) {
    known.push(points.length);
    for (const { place, variance } of points) known.push(place, variance);
  }
  return known;
}
