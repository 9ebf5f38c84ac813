import type { Vec3 } from '../../geometry/vector';
import { MostRecent } from '../../memory/most-recent';
import { type Axis, axes, type Point } from '../../model/chassis';
import type { BaseSetting } from '../../model/job';
import { unchecked } from '../alignment/control-points';
import { coverage95 } from '../alignment/verdict';
import type { AdviceItem } from './items';
import {
  type Advice,
  type AdviceQuestion,
  doubtBy,
  measuringAdvice,
  type WorstPlace,
  worstPlace,
  worstShare,
} from './measuring-advice';

/** A question with the points behind the places of its scope. */
export interface Asked {
  readonly question: AdviceQuestion;
  /** Of the scope, one for one. */
  readonly points: readonly Point[];
  /** Variance of one further reading, mm². */
  readonly readingVariance: number;
  /** What the job's `base` leaves to choose from. */
  readonly confinedTo: BaseSetting['kind'];
  /** The control points that were read are not settled: what is advised holds once they are, and nothing around them helps before. */
  readonly unsettled: boolean;
}

/** How well the worst point of the scope is placed by the alignment alone. */
export interface Left {
  readonly point: Point;
  readonly axis: Axis;
  /** √A on that axis, mm. */
  readonly uncertaintyMm: number;
  /** Half of its band there, mm. */
  readonly halfMm: number;
}

/** The most that √A may be there for the point to be decided, mm. */
export const mostMm = ({ halfMm }: Left): number => (weakFrom * halfMm) / 3;

export interface AdvisedStep {
  /** What is read together: both sides of a name, or one point. */
  readonly ids: readonly string[];
  readonly isControl: boolean;
  /** What is left then; null where still nothing holds a frame. */
  readonly left: Left | null;
  /** It is read so that the control points check each other, not for their certainty. */
  readonly checks: boolean;
}

export interface MeasuringAdvice {
  /** Standard uncertainty of one further reading on each axis, mm. */
  readonly uncertaintyMm: number;
  /** Null where nothing holds a frame yet. */
  readonly now: Left | null;
  /** What to read, what brings most first. */
  readonly steps: readonly AdvisedStep[];
  /** After the last of them the alignment leaves no point of the scope in doubt by more than is allowed. */
  readonly reached: boolean;
  /** What the job's `base` left to choose from. */
  readonly confinedTo: BaseSetting['kind'];
  /** The control points are not settled: that comes first. */
  readonly unsettled: boolean;
  /** A point that this instrument cannot decide wherever it stands, were the alignment no worse than is allowed. The worst; null: none. */
  readonly coarse: Left | null;
  /** By id of the scope's points: A on each axis once all of it is read, mm². */
  readonly after: ReadonlyMap<string, Vec3>;
}

/** By the text of a question: what was searched lately is not searched again at the next key. */
const answers = new MostRecent<string, Advice>(16);
const searched = (question: AdviceQuestion): Advice =>
  answers.remembered(JSON.stringify(question), () => measuringAdvice(question));

/** Above this share of a third of the tolerance an alignment is weak. A search aims a little below, for readings that scatter. */
export const weakFrom = 1;

export function answered(asked: Asked): MeasuringAdvice {
  const { question, points, readingVariance, confinedTo, unsettled } = asked;
  const start = worstPlace(question, []);
  const needed = start.share <= weakFrom ? [] : searched(question).steps.map(({ item }) => item);
  const reached = worstShare(question, needed) <= weakFrom;
  const check = needed.length > 0 && reached ? checkingItem(question, needed) : null;
  const all = check === null ? needed : [...needed, check];
  return {
    uncertaintyMm: Math.sqrt(readingVariance),
    now: leftAt(points, start, question),
    steps: all.map((item, i) => ({
      ids: item.points.map(({ id }) => id),
      isControl: item.isControl,
      left: leftAt(points, worstPlace(question, all.slice(0, i + 1)), question),
      checks: item === check,
    })),
    reached,
    confinedTo,
    unsettled,
    coarse: tooCoarse(asked, all),
    after: variancesAfter({ question, points }, all),
  };
}

function variancesAfter(
  { question, points }: Pick<Asked, 'question' | 'points'>,
  chosen: readonly AdviceItem[],
): ReadonlyMap<string, Vec3> {
  const covarianceAt = doubtBy(question, chosen);
  const found = new Map<string, Vec3>();
  for (const [i, { id }] of points.entries()) {
    const shared = covarianceAt?.(question.scope[i]);
    if (shared) found.set(id, [shared[0][0], shared[1][1], shared[2][2]]);
  }
  return found;
}

/** Where the control points would lie in one plane, or be three, nothing would contradict one that has moved: what to read against that. */
function checkingItem(question: AdviceQuestion, chosen: readonly AdviceItem[]): AdviceItem | null {
  const placesWith = (items: readonly AdviceItem[]) =>
    [...question.base, ...items.filter(({ isControl }) => isControl).flatMap((item) => item.points)].map(
      ({ place }) => place,
    );
  if (!unchecked(placesWith(chosen))) return null;
  let best: { item: AdviceItem; worst: number } | null = null;
  for (const item of question.items) {
    if (!item.isControl || chosen.includes(item) || unchecked(placesWith([...chosen, item]))) continue;
    const worst = worstShare(question, [...chosen, item]);
    if (best === null || worst < best.worst) best = { item, worst };
  }
  return best?.item ?? null;
}

export function leftAt(
  points: readonly Point[],
  { index, axis, share }: WorstPlace,
  { scope }: AdviceQuestion,
): Left | null {
  if (index < 0 || !Number.isFinite(share)) return null;
  const halfMm = scope[index].half[axis];
  return { point: points[index], axis, uncertaintyMm: (share * halfMm) / 3, halfMm };
}

/** A point that stands exactly in its place and could still not be called within, were the alignment no worse than is allowed. */
export function tooCoarse(
  { question, points, readingVariance }: Pick<Asked, 'question' | 'points' | 'readingVariance'>,
  chosen: readonly AdviceItem[],
): Left | null {
  const covarianceAt = doubtBy(question, chosen);
  let [worst, share]: [Left | null, number] = [null, 1];
  for (const [i, place] of question.scope.entries()) {
    const shared = covarianceAt?.(place);
    if (!shared) continue;
    const own = readingVariance + points[i].uncertaintyMm ** 2;
    for (const axis of axes) {
      const allowed = ((weakFrom * place.half[axis]) / 3) ** 2;
      const total = (coverage95 * Math.sqrt(Math.min(shared[axis][axis], allowed) + own)) / place.half[axis];
      if (total <= share) continue;
      share = total;
      const uncertaintyMm = Math.sqrt(shared[axis][axis]);
      worst = { point: points[i], axis, uncertaintyMm, halfMm: place.half[axis] };
    }
  }
  return worst;
}
