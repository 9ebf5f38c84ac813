import {
  addPlace,
  addSums,
  emptySums,
  type MotionSums,
  motionCovarianceAt,
  smallMotion,
} from '../../geometry/small-motion';
import { zero } from '../../geometry/vector';
import { type ElsewhereScatter, type FramePoint, weightFor } from './frame-points';
import { type PossibleWitness, witnessGroups } from './groups';
import { nestedSums } from './joined';

/**
 * The fewest further readings with which every point of a scope can be decided (server/README.md, "Measuring advice"). How well a frame
 * is known does not depend on what is read, only on where and how well, so it can be told beforehand.
 */
export interface AdviceQuestion {
  /** What was read already; before a job nothing. */
  readonly base: readonly FramePoint[];
  readonly witnesses: readonly PossibleWitness[];
  /** The control points' Birge factor so far; 1 where it is not known. */
  readonly factor: number;
  readonly items: readonly AdviceItem[];
  readonly scope: readonly Pick<FramePoint, 'place' | 'half'>[];
  readonly scatter: ElsewhereScatter;
}

/** What is read together: both sides of a name, or one point in the middle. */
export interface AdviceItem {
  readonly name: string;
  readonly points: readonly FramePoint[];
  readonly isControl: boolean;
  /** Of a possible witness, the part's name; null: none. */
  readonly partName: string | null;
}

export interface Advice {
  /** The worst √A over a third of the tolerance: now, and after each of these. Infinite where nothing holds a frame. */
  readonly now: number;
  readonly steps: readonly { readonly item: AdviceItem; readonly worst: number }[];
  /** Every point of the scope can be decided after the last step. */
  readonly reached: boolean;
}

/** At this share of a third of the tolerance a point can be decided. */
const decided = 0.95;
/** What lowers the worst by less than this is not worth a reading. */
const worthwhile = 0.005;

export function measuringAdvice(question: AdviceQuestion): Advice {
  const now = worstShare(question, []);
  const greedy = withoutSuperfluous(question, greedily(question, now));
  const chosen = fewerThan(question, greedy, now) ?? greedy;
  const steps = inOrder(question, chosen);
  const worst = steps.length === 0 ? now : steps[steps.length - 1].worst;
  return { now, steps, reached: worst <= decided };
}

/** The worst √A_kk over T/3 of the scope's points and axes with these items read besides. */
export function worstShare(question: AdviceQuestion, chosen: readonly AdviceItem[]): number {
  const motion = smallMotion(sumsWith(question, chosen));
  if (motion === null) return Number.POSITIVE_INFINITY;
  let worst = 0;
  for (const { place, half } of question.scope) {
    const shared = motionCovarianceAt(motion, place);
    for (let k = 0; k < 3; k++) worst = Math.max(worst, Math.sqrt(shared[k][k]) / (half[k] / 3));
  }
  return worst;
}

/** Witnesses count where they are of two groups or more, and the control points hold a frame by themselves. */
function sumsWith(question: AdviceQuestion, chosen: readonly AdviceItem[]): MotionSums {
  const { base, factor, scatter } = question;
  const sums = emptySums();
  const control = [...base, ...chosen.flatMap(({ isControl, points }) => (isControl ? points : []))];
  for (const { place, variance } of control) addPlace(sums, weightFor(variance) / factor, place, zero);
  if (smallMotion(sums) === null) return sums;
  for (const { points } of witnessGroups(control, witnessesWith(question, chosen))) {
    const inFull = points.map(() => 1);
    addSums(sums, nestedSums(points, inFull, 1, scatter));
  }
  return sums;
}

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
function greedily(question: AdviceQuestion, now: number): AdviceItem[] {
  const chosen: AdviceItem[] = [];
  let worst = now;
  while (!(worst <= decided)) {
    const left = question.items.filter((item) => !chosen.includes(item));
    const singles = left.map((item) => [item]);
    const together = worst === Number.POSITIVE_INFINITY || !areWitnessed(question, chosen);
    const next = best(question, chosen, worst, together ? [...singles, ...pairsOf(left)] : singles);
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
  question: AdviceQuestion,
  chosen: readonly AdviceItem[],
  worst: number,
  choices: readonly (readonly AdviceItem[])[],
): Choice | null {
  let found: Choice | null = null;
  for (const items of choices) {
    const then = worstShare(question, [...chosen, ...items]);
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
function withoutSuperfluous(question: AdviceQuestion, chosen: readonly AdviceItem[]): AdviceItem[] {
  const all = worstShare(question, chosen);
  let kept = [...chosen];
  for (const item of chosen) {
    const rest = kept.filter((each) => each !== item);
    const then = worstShare(question, rest);
    if (then <= decided || (all > decided && then <= all * (1 + worthwhile))) kept = rest;
  }
  return kept;
}

/**
 * What is chosen one by one is nearly always as few as can be; a set of fewer, up to three, is looked for among all where that is soon
 * done. Where what was chosen does not reach the end, a set of up to three may.
 */
function fewerThan(
  question: AdviceQuestion,
  chosen: readonly AdviceItem[],
  now: number,
): AdviceItem[] | null {
  if (now <= decided) return null;
  const reached = worstShare(question, chosen) <= decided;
  const most = Math.min(reached ? chosen.length - 1 : mostTogether, mostTogether);
  let sets: AdviceItem[][] = [[]];
  let tried = 0;
  for (let size = 1; size <= most; size++) {
    sets = sets.flatMap((set) => {
      const last = set.length === 0 ? -1 : question.items.indexOf(set[set.length - 1]);
      return question.items.slice(last + 1).map((item) => [...set, item]);
    });
    tried += sets.length;
    if (tried > mostSets) return null;
    const worsts = sets.map((set) => worstShare(question, set));
    const least = worsts.indexOf(Math.min(...worsts));
    if (least >= 0 && worsts[least] <= decided) return sets[least];
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
