import { type DeletedResidual, deletedResidual } from '../../geometry/deleted-residual';
import { birgeFactor, type MotionCovariance, motionCovariance } from '../../geometry/motion-covariance';
import { moved, rigidFit, type SpatialFit } from '../../geometry/rigid-motion';
import { centredSingularValues } from '../../geometry/spread';
import { scaledMatrix, type Vec3 } from '../../geometry/vector';
import { type Axis, type AxisLimits, axes } from '../../model/chassis';

/**
 * Which control points can be trusted (server/README.md, "Control points"): the largest set whose members agree with each other.
 * Sources: Belsley, Kuh & Welsch 1980 (deleted residuals); Fischler & Bolles 1981 (consensus).
 */

/** A control point that was measured. All mm; `measured` in the instrument's frame, `reference` in vehicle axes. */
export interface Candidate {
  readonly id: string;
  readonly measured: Vec3;
  readonly reference: Vec3;
  /** u(reading)² + u(reference)² + build². */
  readonly variance: number;
  readonly limits: AxisLimits;
}

/** Some control points and the motion that carries them best onto their references. */
export interface Fitted {
  readonly members: readonly Candidate[];
  /** Of the members, one for one: what the fit was made from. */
  readonly measured: readonly Vec3[];
  readonly references: readonly Vec3[];
  readonly weights: readonly number[];
  readonly fit: SpatialFit;
}

/** A base, and how certain the motion is that it gives. */
export interface BaseFit extends Fitted {
  /** Without and with the factor for a base that scatters more than the instrument (Birge's ratio). */
  readonly motion: MotionCovariance;
  readonly scatteredMotion: MotionCovariance;
  /** Of the members, one for one: each judged by the others, as far as it was asked for; see `residualFromOthers`. */
  readonly deleted: (DeletedResidual | undefined)[];
}

export interface Choice {
  readonly base: BaseFit;
  /** Ids, sorted. */
  readonly movedIds: readonly string[];
  /** Bases of the same size that explain the control points as well and judge differently. */
  readonly alternatives: readonly BaseFit[];
  /** What was dropped, where it agrees among itself: another body. */
  readonly secondBody: BaseFit | null;
  readonly consistent: boolean;
}

/** Weights are floored so that a perfect reading does not silence all others. */
const smallestUncertaintyMm = 0.01;
const judgeableLimit = 0.01;
const subsetLimit = 20_000;
/** Difference of χ² below which two bases are equally believable. */
export const rivalChiSquare = 9;

export const weightOf = (variance: number): number => 1 / Math.max(variance, smallestUncertaintyMm ** 2);

/** The half width of a band, mm: what "its tolerance" means where a single figure is needed. */
export const halfBand = (limits: readonly [number, number]): number => (limits[1] - limits[0]) / 2;

export function fitted(members: readonly Candidate[]): Fitted {
  const weights = members.map((member) => weightOf(member.variance));
  const measured = members.map((member) => member.measured);
  const references = members.map((member) => member.reference);
  return { members, measured, references, weights, fit: rigidFit(measured, references, weights) };
}

export function baseFit(members: readonly Candidate[]): BaseFit {
  const { measured, references, weights, fit } = fitted(members);
  const motion = motionCovariance(references, weights);
  const scatteredMotion = scattered(motion, birgeFactor(fit.chiSquare, members.length));
  return { members, measured, references, weights, fit, motion, scatteredMotion, deleted: [] };
}

/** The same with a factor on both covariances: thousands of bases are tried, and an inverse a base is enough. */
const scattered = (motion: MotionCovariance, factor: number): MotionCovariance =>
  factor === 1
    ? motion
    : {
        ...motion,
        translation: scaledMatrix(motion.translation, factor),
        rotation: scaledMatrix(motion.rotation, factor),
        factor,
      };

/** A member judged by the others; worked out once, as whether it agrees is asked before how far it is off. */
export function residualFromOthers(base: BaseFit, index: number): DeletedResidual {
  const { deleted } = base;
  deleted[index] ??= deletedResidual(base, index);
  return deleted[index];
}

/** On a line, or so nearly that the turn about it is a guess. */
export function collinear(positions: readonly Vec3[]): boolean {
  return centredSingularValues(positions)[1] / Math.sqrt(positions.length) < 10 || onOneLine(positions);
}

/** By their shape alone, whatever their unit; not where all are one point. */
export function onOneLine(positions: readonly Vec3[]): boolean {
  const [first, second] = centredSingularValues(positions);
  return second < 0.01 * first;
}

/** The base cannot check itself in some direction: three points, or all in one plane. */
export function unchecked(positions: readonly Vec3[]): boolean {
  return positions.length <= 3 || centredSingularValues(positions)[2] / Math.sqrt(positions.length) < 10;
}

/**
 * Whether a member, judged by the others, is where it belongs.
 * @param bounded scatter of the others excuses a member only as far as a base that stands within its tolerance may scatter: for the
 *   choice of a base. For one that is given, the whole of it counts, or the sound would be blamed along with the moved.
 */
export function memberAgrees(base: BaseFit, index: number, bounded = false): boolean {
  const { members, fit } = base;
  const member = members[index];
  if (members.length <= 3) {
    const u = Math.sqrt(member.variance);
    return axes.every((k) => insideOrDoubtful(fit.residuals[index][k], u, member.limits[k]));
  }
  const { residual, covariance, factor, unjudgeable } = residualFromOthers(base, index);
  return axes.every((k) => {
    if (unjudgeable[k][k] > judgeableLimit) return true;
    const share = bounded ? Math.min(factor, believableFactor(member, k)) / factor : 1;
    return insideOrDoubtful(
      residual[k],
      Math.sqrt(member.variance + share * covariance[k][k]),
      member.limits[k],
    );
  });
}

/**
 * How far scatter of a base that stands within its tolerance may raise Birge's factor. Without this bound two halves of a body that
 * contradict each other by centimetres would make each other so doubtful that everything agrees with everything.
 */
const believableFactor = (member: Candidate, k: Axis): number =>
  1 + (halfBand(member.limits[k]) / 3) ** 2 / Math.max(member.variance, smallestUncertaintyMm ** 2);

const insideOrDoubtful = (d: number, u: number, [low, high]: readonly [number, number]): boolean =>
  d <= Math.max(high, 3 * u) && d >= Math.min(low, -3 * u);

/** The fit of members that all agree with each other and are not on one line, else null. */
export function consistentFit(members: readonly Candidate[]): BaseFit | null {
  const base = baseFit(members);
  // the worst fitting member first: it is the one that most often decides
  const order = members
    .map((_, i) => i)
    .sort((a, b) => squaredLength(base.fit.residuals[b]) - squaredLength(base.fit.residuals[a]));
  if (!order.every((index) => memberAgrees(base, index, true))) return null;
  return collinear(base.references) ? null : base;
}

const squaredLength = (v: readonly number[]): number => v[0] * v[0] + v[1] * v[1] + v[2] * v[2];

/** χ² of the residuals with the tolerance counted as three standard deviations. */
export function tolerantChiSquare({ members, fit }: Fitted): number {
  let total = 0;
  members.forEach((member, i) => {
    for (const k of axes)
      total += fit.residuals[i][k] ** 2 / (member.variance + (halfBand(member.limits[k]) / 3) ** 2);
  });
  return total;
}

/** A point that was measured, control point or not: what two rival bases are compared on. */
interface Witness {
  readonly measured: Vec3;
  readonly limits: AxisLimits;
}

/** The largest set of candidates that agree with each other. Candidates: three or more, not all on one line. */
export function trustedBase(candidates: readonly Candidate[], witnesses: () => readonly Witness[]): Choice {
  const sorted = [...candidates].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const found = largestConsistent(sorted);
  if (found.length === 0)
    return { base: baseFit(sorted), movedIds: [], alternatives: [], secondBody: null, consistent: false };
  const ranked = found
    .map((base) => ({ base, chiSquare: withoutNoise(tolerantChiSquare(base)) }))
    .sort((a, b) => a.chiSquare - b.chiSquare);
  const best = ranked[0];
  const dropped = complement(sorted, best.base.members);
  const alternatives = ranked
    .slice(1)
    .filter(
      (rival) =>
        rival.chiSquare - best.chiSquare <= rivalChiSquare &&
        judgesDifferently(best.base, rival.base, witnesses()),
    )
    .map((rival) => rival.base);
  const another = dropped.length >= 3 ? largestConsistent(dropped)[0] : undefined;
  const isKnown = another !== undefined && alternatives.some((rival) => sameMembers(rival, another));
  return {
    base: best.base,
    movedIds: dropped.map((each) => each.id),
    alternatives,
    secondBody: another === undefined || isKnown ? null : another,
    consistent: true,
  };
}

/** Equal fits differ by the noise of the computation: then the order of ids decides, not chance. */
const withoutNoise = (chiSquare: number): number => Math.round(chiSquare * 1e6) / 1e6;

/** Members are in the order of ids. */
export const sameMembers = (a: BaseFit, b: BaseFit): boolean =>
  a.members.length === b.members.length && a.members.every((member, i) => member.id === b.members[i].id);

export const complement = (all: readonly Candidate[], members: readonly Candidate[]): Candidate[] => {
  const ids = new Set(members.map((member) => member.id));
  return all.filter((candidate) => !ids.has(candidate.id));
};

function judgesDifferently(a: BaseFit, b: BaseFit, witnesses: readonly Witness[]): boolean {
  return witnesses.some(({ measured, limits }) => {
    const inA = moved(a.fit, measured);
    const inB = moved(b.fit, measured);
    return axes.some((k) => Math.abs(inA[k] - inB[k]) > halfBand(limits[k]));
  });
}

/** All consistent subsets of the largest size that has one; empty where there is none down to three. */
function largestConsistent(sorted: readonly Candidate[]): BaseFit[] {
  const n = sorted.length;
  let tried = 0;
  for (let drop = 0; n - drop >= 3; drop++) {
    tried += binomial(n, drop);
    if (tried > subsetLimit) return consensusFromTriples(sorted, n - drop);
    const found: BaseFit[] = [];
    for (const members of subsets(sorted, n - drop)) {
      const base = consistentFit(members);
      if (base !== null) found.push(base);
    }
    if (found.length > 0) return found;
  }
  return [];
}

/** Too many subsets to try them all: grow one from every triple that agrees, keep the largest. */
function consensusFromTriples(sorted: readonly Candidate[], largest: number): BaseFit[] {
  let best: BaseFit[] = [];
  const seen = new Set<string>();
  const stride = Math.max(1, Math.ceil(binomial(sorted.length, 3) / subsetLimit));
  let number = 0;
  for (const triple of subsets(sorted, 3)) {
    if (number++ % stride !== 0) continue;
    const seed = consistentFit(triple);
    if (seed === null) continue;
    const near = sorted.filter((candidate) => agreesWith(seed, candidate));
    const grown = shrunkUntilConsistent(near);
    if (grown === null || grown.members.length > largest) continue;
    const key = grown.members.map((member) => member.id).join(' ');
    if (seen.has(key)) continue;
    seen.add(key);
    if (best.length === 0 || grown.members.length > best[0].members.length) best = [grown];
    else if (grown.members.length === best[0].members.length) best.push(grown);
  }
  return best;
}

function agreesWith(seed: BaseFit, candidate: Candidate): boolean {
  const d = moved(seed.fit, candidate.measured);
  // generous: a triple's own error is levered far outside it, and the refit decides
  return axes.every(
    (k) =>
      Math.abs(d[k] - candidate.reference[k]) <=
      2 * halfBand(candidate.limits[k]) + 3 * Math.sqrt(candidate.variance),
  );
}

function shrunkUntilConsistent(members: readonly Candidate[]): BaseFit | null {
  let rest = [...members];
  while (rest.length >= 3) {
    const base = consistentFit(rest);
    if (base !== null) return base;
    const { residuals } = baseFit(rest).fit;
    let worst = 0;
    residuals.forEach((residual, i) => {
      if (squaredLength(residual) > squaredLength(residuals[worst])) worst = i;
    });
    rest = rest.filter((_, i) => i !== worst);
  }
  return null;
}

function binomial(n: number, k: number): number {
  let result = 1;
  for (let i = 1; i <= k; i++) result = (result * (n - k + i)) / i;
  return Math.round(result);
}

/** Subsets of a size in lexical order of positions. */
function* subsets<T>(items: readonly T[], size: number): Generator<T[]> {
  const n = items.length;
  const picks = Array.from({ length: size }, (_, i) => i);
  for (;;) {
    yield picks.map((i) => items[i]);
    let i = size - 1;
    while (i >= 0 && picks[i] === n - size + i) i--;
    if (i < 0) return;
    picks[i]++;
    for (let j = i + 1; j < size; j++) picks[j] = picks[j - 1] + 1;
  }
}
