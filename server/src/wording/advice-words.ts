import { type AdvisedStep, type Left, type MeasuringAdvice, mostMm } from '../inspection/advice/answer';
import { adviceForParts } from '../inspection/advice/job-advice';
import type { NoAdvice } from '../inspection/advice/job-question';
import { isKnownLength } from '../inspection/alignment/known-figures';
import { coverage95 } from '../inspection/alignment/verdict';
import type { Inspection } from '../inspection/job/inspect';
import { nameOf } from '../model/names';
import { figure, lengthFigure, lengthText, mmPer, type Unit, unitWord } from '../model/units';
import { axisNames, certaintyText, listPhrase } from './wording';

/** What to read, in one place for whoever says it: messages, hovers, lenses and the command. */

/** `cowl-hole and rear-floor, both sides`; `cowl-hole, both sides, and latch`. */
export function readingsPhrase(steps: readonly Pick<AdvisedStep, 'ids'>[]): string {
  const pairs = steps.flatMap(({ ids }) => (ids.length > 1 ? [nameOf(ids[0])] : []));
  const singles = steps.flatMap(({ ids }) => (ids.length > 1 ? [] : ids));
  if (pairs.length === 0) return listPhrase(singles);
  const both = `${listPhrase(pairs)}, both sides`;
  return singles.length === 0 ? both : `${both}, and ${listPhrase(singles)}`;
}

/** `±2.1`, at 95 %; of what is known too badly to be a figure none. */
export const leftText = ({ uncertaintyMm }: Left, unit: Unit): string =>
  isKnownLength(0, uncertaintyMm) ? certaintyText(uncertaintyMm, unit) : 'more than a metre';

/** `rail-tip-upper ±2.1 in height (at most ±1.3)`: by the alignment alone; both sides of a body are alike. */
export function leftPhrase(left: Left, unit: Unit): string {
  const [is, most] = leftAndMost(left, unit);
  return `${left.point.id} ${is} in ${axisNames[left.axis]} (at most ${most})`;
}

/** What the alignment leaves, and what it may leave of a limit, at 95 %. What is over reads as over: with a digit more where it must. */
export function leftAndMost(left: Left, unit: Unit): readonly [is: string, most: string] {
  const [is, most] = [leftText(left, unit), certaintyText(mostMm(left), unit)];
  if (is !== most || left.uncertaintyMm <= mostMm(left)) return [is, most];
  return [
    `±${finer(coverage95 * left.uncertaintyMm, unit, Math.ceil)}`,
    `±${finer(coverage95 * mostMm(left), unit, Math.floor)}`,
  ];
}

/** `±2.9 → ±1.8`; with a digit more where both would show alike. */
export function fallText(before: Left, after: Left, unit: Unit): string {
  const [was, is] = [leftText(before, unit), leftText(after, unit)];
  const fine = ({ uncertaintyMm }: Left): string => `±${finer(coverage95 * uncertaintyMm, unit, Math.ceil)}`;
  return was === is && isKnownLength(0, after.uncertaintyMm)
    ? `${fine(before)} → ${fine(after)}`
    : `${was} → ${is}`;
}

/** Up or down to a digit more than is shown elsewhere. The noise of a computation is taken off first. */
function finer(mm: number, unit: Unit, to: (value: number) => number): string {
  const digits = unit === 'mm' ? 2 : 4;
  const scaled = Number(((mm / mmPer[unit]) * 10 ** digits).toFixed(6));
  return figure(to(scaled) / 10 ** digits, digits);
}

/** `an instrument of standard uncertainty up to 1.33 mm`: never more than would do. */
export const upToText = (mostUncertaintyMm: number, unit: Unit): string =>
  `an instrument of standard uncertainty up to ${finer(mostUncertaintyMm, unit, Math.floor)} ${unitWord[unit]}`;

/** `u = 0.5 mm`. */
export const instrumentText = (uncertaintyMm: number, unit: Unit): string =>
  `u = ${unit === 'mm' ? `${Number(uncertaintyMm.toFixed(2))} mm` : lengthText(uncertaintyMm, unit)}`;

/** Why a better alignment would not do. */
export const coarseText = ({ point, axis, halfMm }: Left, uncertaintyMm: number, unit: Unit): string =>
  `${point.id} cannot be decided with ${instrumentText(uncertaintyMm, unit)} wherever it stands: its reading is too uncertain for its limit of ±${lengthFigure(halfMm, unit)} in ${axisNames[axis]}. Use a better instrument.`;

/** What else there is where nothing more can be reached by reading. */
export const insteadText = ({
  confinedTo,
  unsettled,
}: Pick<MeasuringAdvice, 'confinedTo' | 'unsettled'>): string =>
  (unsettled ? 'settle first which control points have moved, ' : '') +
  {
    auto: 'use a better instrument, or mark more control points',
    between: 'use a better instrument, or state a wider zone under `base` if the metal there is sound',
    ids: 'use a better instrument, or list more control points under `base`',
  }[confinedTo];

/** What is reached, with `every point` as it is named there. */
export const decidedText = (every: string, { unsettled }: Pick<MeasuringAdvice, 'unsettled'>): string =>
  `${every} can be decided${unsettled ? ' once the control points are settled' : ''}`;

/**
 * One sentence or two that a person can act on; null where nothing needs to be read.
 * @param when whether the rows can go into this measure, or work on the car has made it history
 */
export function adviceSentence(advice: MeasuringAdvice, unit: Unit, when: 'now' | 'next'): string | null {
  const { steps, now, reached, coarse, uncertaintyMm, confinedTo } = advice;
  const instrument = instrumentText(uncertaintyMm, unit);
  const tooCoarse = coarse === null ? null : coarseText(coarse, uncertaintyMm, unit);
  if (steps.length === 0) {
    if (tooCoarse !== null || reached) return tooCoarse;
    const whose = confinedTo === 'auto' ? 'of the chassis file' : 'that `base` allows';
    return `No other point ${whose} would help enough with ${instrument}: ${insteadText(advice)}.`;
  }
  const read = `${when === 'now' ? 'Read' : 'Next time also read'} ${readingsPhrase(steps)}`;
  const last = steps.at(-1)?.left ?? null;
  if (last === null) return `${read}.`;
  const fall = now === null ? '' : ` instead of ${leftText(now, unit)}`;
  if (tooCoarse !== null) return `${read}: that leaves ${leftText(last, unit)}${fall}. But ${tooCoarse}`;
  if (!reached)
    return `${read}: that leaves ${leftPhrase(last, unit)}${fall}; with ${instrument} no more can be reached: ${insteadText(advice)}.`;
  return now === null
    ? `${read}: then ${decidedText('every point', advice)}.`
    : `${read}: that leaves ${leftText(last, unit)}${fall}, and ${decidedText('every point', advice)}.`;
}

/** After a pull: what the next measure must read at least for parts to be decided, beside their own points; null where nothing is known to do. */
export function fewestToRead(inspection: Inspection, partIds: readonly string[]): string | null {
  const advice = adviceForParts(inspection, partIds);
  if (typeof advice === 'string' || !advice.reached || advice.coarse !== null) return null;
  const { unit } = inspection.job;
  const certain = `${certaintyText(advice.uncertaintyMm, unit)} ${unitWord[unit]}`;
  const what = partIds.length === 1 ? partIds[0] : 'these parts';
  return `${readingsPhrase(advice.steps)}: the fewest control points that decide ${what} (none moved, read to ${certain})`;
}

export const noAdviceText: Record<NoAdvice, string> = {
  broken: 'a file has mistakes that must be mended first',
  distances: 'the job reads distances alone: there is no alignment to advise on',
  unusable: 'the readings are mirrored or out of scale: mend that first',
  'no-scope': 'nothing says what is to be judged: state `scope`',
};

/** Of a chassis file. */
export const noFrameText =
  'fewer than three control points are marked, or they stand on a line, or no part has a point';
