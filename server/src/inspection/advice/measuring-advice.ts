import {
  addPlace,
  addSums,
  emptySums,
  type MotionSums,
  motionCovarianceAt,
  type SmallMotion,
  smallMotion,
} from '../../geometry/small-motion';
import { type Mat3, type Vec3, zero } from '../../geometry/vector';
import { derived } from '../../memory/derived';
import { type ElsewhereScatter, type FramePoint, weightFor } from '../frame/frame-points';
import { type PossibleWitness, witnessGroups } from '../frame/groups';
import { nestedSums } from '../frame/joined';
import { outermost, wellApart } from './bounds';
import type { AdviceItem, ScopePlace } from './items';

/**
 * The fewest further readings with which every point of a scope can be decided (server/README.md, "Measuring advice"). How well a frame
 * is known does not depend on what is read, only on where and how well, so it can be told beforehand.
 */
export interface AdviceQuestion {
  /** What was read already; before a job nothing. */
  readonly base: readonly FramePoint[];
  readonly witnesses: readonly BelievedWitness[];
  /** The control points' Birge factor so far; 1 where it is not known. */
  readonly factor: number;
  readonly items: readonly AdviceItem[];
  readonly scope: readonly ScopePlace[];
  readonly scatter: ElsewhereScatter;
}

/** A witness that was read, and how far the stage's own frame believes it. */
export interface BelievedWitness extends PossibleWitness {
  /** ω of the point and Ω of its group, 0 to 1; none where no frame has looked at it yet: then it counts in full. */
  readonly belief?: { readonly own: number; readonly group: number };
}

export interface Advice {
  /** The worst √A over a third of the tolerance: now, and after each of these. Infinite where nothing holds a frame. */
  readonly now: number;
  readonly steps: readonly { readonly item: AdviceItem; readonly worst: number }[];
  /** Every point of the scope can be decided after the last step. */
  readonly reached: boolean;
  /** How often a frame was worked out in the search. */
  readonly evaluated: number;
}

/** The place and the axis at which the frame is known worst, against the tolerance. */
export interface WorstPlace {
  /** In the list of the scope; −1 where nothing holds a frame. */
  readonly index: number;
  readonly axis: 0 | 1 | 2;
  /** √A over a third of half the band. */
  readonly share: number;
}

/** At this share of a third of the tolerance a point can be decided. */
const decidedShare = 0.95;
/** What lowers the worst by less than this is not worth a reading. */
const worthwhile = 0.005;

export function measuringAdvice(asked: AdviceQuestion): Advice {
  const search = searchOf(asked);
  const now = worstShare(asked, []);
  const greedy = withoutSuperfluous(search, greedily(search));
  const chosen = fewerThan(search, greedy) ?? greedy;
  const steps = inOrder(asked, chosen);
  const worst = steps.length === 0 ? now : steps[steps.length - 1].worst;
  return { now, steps, reached: worst <= decidedShare, evaluated: search.evaluated() };
}

/** The worst √A_kk over T/3 of the scope's points and axes with these items read besides. */
export const worstShare = (question: AdviceQuestion, chosen: readonly AdviceItem[]): number =>
  worstPlace(question, chosen).share;

/** Where that is. */
export function worstPlace(question: AdviceQuestion, chosen: readonly AdviceItem[]): WorstPlace {
  const unheld: WorstPlace = { index: -1, axis: 0, share: Number.POSITIVE_INFINITY };
  const covarianceAt = doubtBy(question, chosen);
  if (covarianceAt === null) return unheld;
  let worst: WorstPlace = { index: -1, axis: 0, share: 0 };
  for (const [index, each] of question.scope.entries()) {
    const shared = covarianceAt(each);
    if (shared === null) return { ...unheld, index };
    for (const axis of [0, 1, 2] as const) {
      const share = Math.sqrt(shared[axis][axis]) / (each.half[axis] / 3);
      if (share > worst.share) worst = { index, axis, share };
    }
  }
  return worst;
}

/** A at a place of the scope with these items read besides, mm²; null where nothing holds a frame, or not without the place itself. */
export function doubtBy(
  question: AdviceQuestion,
  chosen: readonly AdviceItem[],
): ((at: ScopePlace) => Mat3 | null) | null {
  const sums = sumsWith(question, chosen);
  const motion = smallMotion(sums);
  if (motion === null) return null;
  return ({ place, inBase }) => {
    const by =
      inBase === undefined ? motion : motionWithout(sums, place, weightFor(inBase) / question.factor);
    return by && motionCovarianceAt(by, place);
  };
}

function motionWithout(sums: MotionSums, place: Vec3, weight: number): SmallMotion | null {
  const others = sums.slice();
  addPlace(others, -weight, place, zero);
  return smallMotion(others);
}

/** A question in the course of its search: how often it was asked is counted, and that is what ends it. */
interface Search {
  readonly question: AdviceQuestion;
  worst(chosen: readonly AdviceItem[]): number;
  evaluated(): number;
  /** How often it may still be asked. */
  left(): number;
}

/** Then the best of what was looked at so far is taken. */
const mostEvaluations = 8000;

function searchOf(asked: AdviceQuestion): Search {
  const question = { ...asked, items: wellApart(asked.items), scope: outermost(asked.scope) };
  let evaluated = 0;
  return {
    question,
    worst: (chosen) => {
      evaluated++;
      return worstShare(question, chosen);
    },
    evaluated: () => evaluated,
    left: () => mostEvaluations - evaluated,
  };
}

/** Witnesses count where they are of two groups or more, and the control points hold a frame by themselves. */
function sumsWith(question: AdviceQuestion, chosen: readonly AdviceItem[]): MotionSums {
  const { base, factor, scatter } = question;
  const sums = emptySums();
  const control = [...base, ...chosen.flatMap(({ isControl, points }) => (isControl ? points : []))];
  for (const { place, variance } of control) addPlace(sums, weightFor(variance) / factor, place, zero);
  if (smallMotion(sums) === null) return sums;
  const beliefs = beliefsOf(question.witnesses);
  for (const { points } of witnessGroups(control, witnessesWith(question, chosen))) {
    const known = points.map((point) => beliefs.get(point));
    // what is read besides of a group that is not believed is believed no more than the rest of it
    const whole = known.reduce((least, belief) => Math.min(least, belief?.group ?? 1), 1);
    const each = known.map((belief) => belief?.own ?? 1);
    if (whole > 0) addSums(sums, nestedSums(points, each, whole, scatter));
  }
  return sums;
}

const beliefsOf = derived(
  (witnesses: readonly BelievedWitness[]) => new Map(witnesses.map(({ point, belief }) => [point, belief])),
);

const witnessesWith = ({ witnesses }: AdviceQuestion, chosen: readonly AdviceItem[]): PossibleWitness[] => [
  ...witnesses,
  ...chosen.flatMap(({ isControl, points, partName }) =>
    isControl ? [] : points.map((point) => ({ point, partName })),
  ),
];

/** Whether witnesses count already. */
function areWitnessed(question: AdviceQuestion, chosen: readonly AdviceItem[]): boolean {
  const control = [...question.base, ...chosen.flatMap(({ isControl, points }) => (isControl ? points : []))];
  return control.length > 0 && witnessGroups(control, witnessesWith(question, chosen)).length > 0;
}

/**
 * What lowers the logarithm of the worst most for each reading, again and again. Where nothing holds a frame yet, and where witnesses do not
 * count as there is but one group, two are looked at together as well.
 */
function greedily(search: Search): AdviceItem[] {
  const { question } = search;
  const chosen: AdviceItem[] = [];
  let worst = search.worst(chosen);
  while (!(worst <= decidedShare) && search.left() > 0) {
    const left = question.items.filter((item) => !chosen.includes(item));
    const singles = left.map((item) => [item]);
    const together = worst === Number.POSITIVE_INFINITY || !areWitnessed(question, chosen);
    const next = best(search, chosen, worst, together ? [...singles, ...pairsOf(left)] : singles);
    if (next === null) break;
    chosen.push(...next.items);
    worst = next.worst;
  }
  return chosen;
}

interface Choice {
  readonly items: readonly AdviceItem[];
  readonly worst: number;
  readonly fall: number;
}

function best(
  search: Search,
  chosen: readonly AdviceItem[],
  worst: number,
  choices: readonly (readonly AdviceItem[])[],
): Choice | null {
  let found: Choice | null = null;
  for (const items of choices) {
    if (search.left() <= 0) break;
    const then = search.worst([...chosen, ...items]);
    if (!Number.isFinite(then)) continue;
    if (worst !== Number.POSITIVE_INFINITY && !(then < (1 - worthwhile) * worst)) continue;
    const fall = (Math.log(Math.min(worst, nothingKnown)) - Math.log(then)) / items.length;
    if (found === null || fall > found.fall + rounding) found = { items, worst: then, fall };
  }
  return found;
}

/** Stands for infinity where a fall from it is to be a number. */
const nothingKnown = 1e9;

/** Equal but for rounding: then the item that is listed first. */
const rounding = 1e-9;

const pairsOf = (items: readonly AdviceItem[]): AdviceItem[][] =>
  items.flatMap((one, i) => items.slice(i + 1).map((other) => [one, other]));

/** Without each item that the rest does not need, the last chosen kept longest. */
function withoutSuperfluous(search: Search, chosen: readonly AdviceItem[]): AdviceItem[] {
  const all = search.worst(chosen);
  let kept = [...chosen];
  for (const item of chosen) {
    const rest = kept.filter((each) => each !== item);
    const then = search.worst(rest);
    if (then <= decidedShare || (all > decidedShare && then <= all * (1 + worthwhile))) kept = rest;
  }
  return kept;
}

/**
 * What is chosen one by one is nearly always as few as can be; a set of fewer, up to three, is looked for among all where that is soon
 * done. Where what was chosen does not reach the end, a set of up to three may.
 */
function fewerThan(search: Search, chosen: readonly AdviceItem[]): AdviceItem[] | null {
  const { items } = search.question;
  if (search.worst([]) <= decidedShare) return null;
  const reached = search.worst(chosen) <= decidedShare;
  const most = Math.min(reached ? chosen.length - 1 : mostTogether, mostTogether);
  let sets: AdviceItem[][] = [[]];
  let tried = 0;
  for (let size = 1; size <= most; size++) {
    sets = sets.flatMap((set) => {
      const last = set.length === 0 ? -1 : items.indexOf(set[set.length - 1]);
      return items.slice(last + 1).map((item) => [...set, item]);
    });
    tried += sets.length;
    if (tried > mostSets || sets.length > search.left()) return null;
    const worsts = sets.map((set) => search.worst(set));
    const least = worsts.indexOf(Math.min(...worsts));
    if (least >= 0 && worsts[least] <= decidedShare) return sets[least];
  }
  return null;
}

const mostTogether = 3;
const mostSets = 3000;

/** Each item with what is reached once it is read, what brings most first. */
function inOrder(question: AdviceQuestion, chosen: readonly AdviceItem[]): Advice['steps'] {
  const steps: { item: AdviceItem; worst: number }[] = [];
  const left = [...chosen];
  while (left.length > 0) {
    const done = steps.map(({ item }) => item);
    const worsts = left.map((item) => worstShare(question, [...done, item]));
    const next = worsts.indexOf(Math.min(...worsts));
    steps.push({ item: left[next], worst: worsts[next] });
    left.splice(next, 1);
  }
  return steps;
}
