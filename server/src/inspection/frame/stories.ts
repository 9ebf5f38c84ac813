import { logChiSquareTail } from '../../geometry/chi-square-tail';
import { motionAt } from '../../geometry/small-motion';
import type { ElsewhereScatter, FramePoint, WitnessGroup } from './frame-points';
import { type Belief, type Observations, observed } from './observations';
import { type Gain, gainOf, isSignificant } from './story-gain';
import { growingStories, type StoryKind, setStories, type Told } from './story-kinds';
import { subsetStories } from './story-subsets';
import type { Weighing } from './witnesses';

/** Another way in which the control points may have moved, which the readings of one stage call for. */
export interface Story {
  readonly story: StoryKind;
  /** Ids of its control points that stand off by over half of their tolerance on some axis if it is true, in the order of the base. */
  readonly movedIds: readonly string[];
  /** Of the base, one for one: whom the story is about. */
  readonly members: readonly boolean[];
  readonly gain: number;
  readonly unknowns: readonly number[];
  readonly found: Gain;
  /** Natural logarithm of the chance to gain as much where nothing has moved. */
  readonly chance: number;
}

/** What is asked about one stage. */
export interface StoryQuestion {
  /** The settled base, deviations by its own fit. */
  readonly base: readonly FramePoint[];
  /** None, or two and more. */
  readonly groups: readonly WitnessGroup[];
  /**
   * Null where there are no witnesses. Stories count with the scatter as it is stated: a base that moved makes the witnesses scatter, and the scatter
   * that was raised for it would hide that very story.
   */
  readonly weighing: Pick<Weighing, 'groups' | 'stated'> | null;
  /** What the job is about, or all that was read and is no control point. */
  readonly scope: readonly Pick<FramePoint, 'place' | 'half'>[];
}

const noScatter: ElsewhereScatter = { own: 0, shared: 0 };
const inFull = (groups: readonly WitnessGroup[]): Belief[] =>
  groups.map(({ points }) => ({ points: points.map(() => 1), group: 1 }));

/** All stories that the readings call for, the best first; empty where the base stands as one. Names do not decide, but between equals. */
export function calledFor(question: StoryQuestion): Story[] {
  const { base, scope } = question;
  const groups = question.weighing === null ? [] : question.groups;
  const scatter = question.weighing?.stated ?? noScatter;
  const weighted = observed(base, groups, question.weighing?.groups ?? [], scatter);
  if (weighted === null) return [];
  const outright = groups.length > 0 ? observed(base, groups, inFull(groups), scatter) : null;
  // what the readings cannot tell is no story
  const told = toldOf(base, groups).filter((each) => gainOf(outright ?? weighted, each) !== null);
  const found: Story[] = [];
  for (const each of told) {
    const gain = gainOf(weighted, each);
    if (gain !== null && isSignificant(gain, each.unknowns, told.length, scope))
      found.push(storyOf(weighted, each, gain));
    else if (outright !== null) {
      const full = gainInFull(question, outright, each, told.length);
      if (full !== null) found.push(storyOf(outright, each, full));
    }
  }
  const shifts = found.filter(({ story }) => story.kind === 'shift');
  const known = new Set(shifts.map(({ members }) => splitOf(members, groups.length > 0)));
  const subsets = subsetStories(weighted, scope, groups.length > 0).flatMap(({ told: each, gain }) => {
    const story = storyOf(weighted, each, gain);
    return known.has(splitOf(each.members, groups.length > 0)) ? [] : [story];
  });
  return [...found, ...subsets].sort((a, b) => a.chance - b.chance || (keyOf(a) < keyOf(b) ? -1 : 1));
}

/** Stories with names. */
export function toldOf(base: readonly FramePoint[], groups: readonly WitnessGroup[]): Told[] {
  const witnesses = groups.flatMap(({ points }) => points);
  return [...setStories(base, groups.length > 0), ...growingStories(base, witnesses)];
}

/** A set, or without witnesses a set and the rest. */
const splitOf = (members: readonly boolean[], hasWitnesses: boolean): string =>
  members.map((member) => Number(hasWitnesses || members[0] ? member : !member)).join('');

const keyOf = ({ story, movedIds }: Story): string => `${story.kind} ${movedIds.join(' ')}`;

/** With every witness believed; and without each one group, as no story may rest on one. */
function gainInFull(
  { base, groups, weighing, scope }: StoryQuestion,
  all: Observations,
  told: Told,
  tried: number,
): Gain | null {
  const gain = gainOf(all, told);
  if (gain === null || !isSignificant(gain, told.unknowns, tried, scope)) return null;
  for (let g = 0; g < groups.length; g++) {
    const beliefs = inFull(groups).map((belief, i) => (i === g ? { ...belief, group: 0 } : belief));
    const without = observed(base, groups, beliefs, weighing!.stated);
    const left = without === null ? null : gainOf(without, told);
    if (left === null || !isSignificant(left, told.unknowns, tried, scope)) return null;
  }
  return gain;
}

function storyOf({ base, residuals }: Observations, told: Told, found: Gain): Story {
  const movedIds = base.flatMap((point, i) => {
    if (!told.members[i]) return [];
    const move = motionAt(found.moves, point.place);
    const isOff = point.half.some((half, k) => Math.abs(residuals[i][k] + move[k]) > half / 2);
    return isOff ? [point.id] : [];
  });
  return {
    story: told.story,
    members: told.members,
    movedIds,
    gain: found.gain,
    unknowns: found.unknowns,
    found,
    chance: logChiSquareTail(found.gain, told.unknowns),
  };
}
