import { logChiSquareTail } from '../../geometry/chi-square-tail';
import { motionAt, smallMotion } from '../../geometry/small-motion';
import { lazily } from '../../memory/lazily';
import type { ElsewhereScatter, FramePoint, WitnessGroup } from './frame-points';
import { type Observations, observed } from './observations';
import { chiSquareLimit, type Figures, type Gain, type Motion, significantGain } from './story-gain';
import type { StoryKind, Told } from './story-kinds';
import { type Around, inFull, storyList } from './story-list';
import { subsetStories } from './story-subsets';
import { sumsOfBase, type Weighing } from './witnesses';

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
interface StoryQuestion {
  /** The settled base, deviations by its own fit. */
  readonly base: readonly FramePoint[];
  /** None, or two and more. */
  readonly groups: readonly WitnessGroup[];
  /**
   * Null where there are no witnesses. Stories count with the scatter as it is stated: a base that moved makes the witnesses scatter, and the scatter
   * that was raised for it would hide that very story.
   */
  readonly weighing: Pick<Weighing, 'groups' | 'stated'> | null;
  /** What the job is about, or all that was read and is no control point; asked for where there may be stories. */
  readonly scope: () => Figures['points'];
  /** The frame that the stage's figures are told by, as it is taken away from these deviations; null: that of the base alone. */
  readonly toldBy: Motion | null;
}

const noScatter: ElsewhereScatter = { own: 0, shared: 0 };

/** All stories that the readings call for, the best first; empty where the base stands as one. Names do not decide, but between equals. */
export function calledFor(question: StoryQuestion): Story[] {
  const { base, weighing } = question;
  const groups = weighing === null ? [] : question.groups;
  const around: Around = { base, groups, scatter: weighing?.stated ?? noScatter };
  const weighted = observed(base, groups, weighing?.groups ?? [], around.scatter);
  if (weighted === null) return [];
  const full = groups.length > 0 ? fullView(around) : null;
  if (!mayCall(weighted) && (full === null || !mayCall(full.all))) return [];
  const figures = figuresOf(question);
  if (figures === null) return [];
  const { stories, limits } = storyList(around);
  const found: Story[] = [];
  for (const story of stories) {
    const limit = limits.get(story.told.unknowns)!;
    const callsFor: CallsFor = (by) => significantGain(by, story, { limit, tried: stories.length }, figures);
    const gain = callsFor(weighted);
    if (gain !== null) found.push(storyOf(weighted, story.told, gain));
    else if (full !== null) {
      const inFull = gainInFull(full, callsFor);
      if (inFull !== null) found.push(storyOf(full.all, story.told, inFull));
    }
  }
  const shifts = found.filter(({ story }) => story.kind === 'shift');
  const known = new Set(shifts.map(({ members }) => splitOf(members, groups.length > 0)));
  const subsets = subsetStories(weighted, figures, groups.length > 0).flatMap(({ told, gain }) =>
    known.has(splitOf(told.members, groups.length > 0)) ? [] : [storyOf(weighted, told, gain)],
  );
  return [...found, ...subsets].sort((a, b) => a.chance - b.chance || (keyOf(a) < keyOf(b) ? -1 : 1));
}

/** No story gains more than χ² of all that is left, and the least that any must gain is that of one unknown, tried alone. */
const mayCall = ({ chiSquare }: Observations): boolean => chiSquare > chiSquareLimit(1, 1);

/** Null where the base does not hold a frame. */
function figuresOf({ base, scope, toldBy }: StoryQuestion): Figures | null {
  const frame = toldBy ?? smallMotion(sumsOfBase(base, 1));
  return frame && { points: scope(), toldBy: frame };
}

/** A set, or without witnesses a set and the rest. */
const splitOf = (members: readonly boolean[], hasWitnesses: boolean): string =>
  members.map((member) => Number(hasWitnesses || members[0] ? member : !member)).join('');

const keyOf = ({ story, movedIds }: Story): string => `${story.kind} ${movedIds.join(' ')}`;

/** The gain of one story by these observations; null where they do not call for it. */
type CallsFor = (by: Observations) => Gain | null;

/** All with every witness believed, and without each one group. */
interface FullView {
  readonly all: Observations;
  readonly withoutEach: readonly (() => Observations | null)[];
}

function fullView({ base, groups, scatter }: Around): FullView | null {
  const beliefs = inFull(groups);
  const all = observed(base, groups, beliefs, scatter);
  const without = (g: number) => beliefs.map((belief, i) => (i === g ? { ...belief, group: 0 } : belief));
  return (
    all && {
      all,
      withoutEach: groups.map((_, g) => lazily(() => observed(base, groups, without(g), scatter))),
    }
  );
}

/** With every witness believed; and without each one group, as no story may rest on one. */
function gainInFull({ all, withoutEach }: FullView, callsFor: CallsFor): Gain | null {
  const gain = callsFor(all);
  if (gain === null) return null;
  for (const without of withoutEach) {
    const left = without();
    if (left === null || callsFor(left) === null) return null;
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
