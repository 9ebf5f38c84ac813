import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import { uncertaintyThatDecides } from '../../inspection/alignment/certainty-needed';
import { type JudgedPoint, judgementsOf } from '../../inspection/alignment/points';
import { instrumentOf } from '../../inspection/alignment/prepared';
import { readingVariance } from '../../inspection/alignment/uncertainty';
import { beyond, conformity, coverage95, type Judgement } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import { type Newest, newestReleased } from '../../inspection/job/newest';
import { provisionalNote } from '../../inspection/job/provisional';
import { type Axis, axes } from '../../model/chassis';
import { lengthText } from '../../model/units';
import { readingsPhrase } from '../../wording/advice-words';
import { certaintyText, limitPhrase, listPhrase, movePhrase } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const undecided: Rule = {
  name: 'reading/undecided',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  inRecord: 'figures',
  page: {
    summary: 'A point stands so near its limit that the measurement cannot tell whether it is in tolerance.',
    why: 'Every reading has an uncertainty, and the alignment adds to it. Where the limit lies within that uncertainty, calling the point good or bad would be a guess.',
    example: '      rail-tip-upper.L: [3012.3, 449.2, 352.1]      # 2.8 mm off, limit 3, certain to 1.1',
    exampleIn: { place: 'row', uncertainty: 0.5 },
    mend: 'Make it more certain, in the way that the message says: repeat the reading, read more control points towards it, or use a better instrument. Or move it away from the limit.',
    source:
      'JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment; ISO 14253-1.',
  },
  ofJob: ({ inspection }) =>
    [...newestReleased(inspection).values()]
      // of repeats that contradict each other reading/repeat-spread tells
      .filter(({ judged }) => judged.verdict === 'undecided' && openAxes(judged).length > 0)
      .map((newest) => ({
        place: newest.judged.reading.key,
        message: messageOf(inspection, newest) + provisionalNote(inspection, newest.stage),
      })),
};

function messageOf(inspection: Inspection, newest: Newest): string {
  const { judged } = newest;
  const { unit } = inspection.job;
  const judgements = judgementsOf(judged);
  const open = openAxes(judged);
  const phrases = open.map((k) => {
    const { deviationMm, limits, uncertaintyMm } = judgements[k];
    const side = `${isNear(judgements[k]) ? 'just ' : ''}${beyond(deviationMm!, limits) ? 'outside' : 'inside'}`;
    return `${movePhrase(k, deviationMm!, judged.point.side, unit)}, ${side} (${limitPhrase(k, limits, judged.point.side, unit)}, certain only to ${certaintyText(uncertaintyMm!, unit)} at 95 %)`;
  });
  const why = open.every((k) => isNear(judgements[k])) ? 'too near to tell' : 'too uncertain to tell';
  return `${judged.id} is off by ${listPhrase(phrases)}: ${why}. ${decisionOf(inspection, newest, open)}`;
}

function openAxes(judged: JudgedPoint): Axis[] {
  const judgements = judgementsOf(judged);
  return axes.filter((k) => {
    const chance = conformity(judgements[k]);
    return chance !== null && chance < 0.95;
  });
}

/** Whether it stands near a limit by the measure of the tolerance itself, and not only by that of a large uncertainty. */
const isNear = ({ deviationMm: d, limits: [low, high] }: Judgement): boolean =>
  Math.min(Math.abs(d! - low), Math.abs(d! - high)) <= (high - low) / 2;

interface Deciding {
  readonly axis: Axis;
  readonly u: number;
}

/**
 * The axis that decides a point, and the largest standard uncertainty with which it does: outside on one axis is outside, so the
 * easiest of those beyond their limits; within is within on every axis, so the hardest of all where none is beyond. Null where it
 * stands on a limit.
 */
function decidingAxis(judgements: readonly Judgement[], open: readonly Axis[]): Deciding | null {
  const needed = open.map((axis) => ({ axis, u: uncertaintyThatDecides(judgements[axis]!) ?? 0 }));
  const isBeyond = ({ axis }: { axis: Axis }): boolean =>
    beyond(judgements[axis]!.deviationMm!, judgements[axis]!.limits);
  const outside = needed.filter(isBeyond);
  const deciding =
    outside.length > 0
      ? outside.reduce((a, b) => (b.u > a.u ? b : a))
      : needed.reduce((a, b) => (b.u < a.u ? b : a));
  return deciding.u > 0 ? deciding : null;
}

/** What certainty would decide it, and how to come by it. */
function decisionOf(inspection: Inspection, { judged, stage }: Newest, open: readonly Axis[]): string {
  if (judged.contradictory) return 'Its repeats contradict each other: read it again.';
  const { unit } = inspection.job;
  const judgements = judgementsOf(judged);
  const deciding = decidingAxis(judgements, open);
  if (deciding === null) return 'It stands exactly on the limit: no instrument could decide that.';
  const text = `An uncertainty of ±${lengthText(coverage95 * deciding.u, unit)} would decide it`;
  const fromAlignment = judged.alignmentVariance[deciding.axis];
  if (fromAlignment === null) return `${text}: read more distances to it.`;
  const left = deciding.u ** 2 - fromAlignment - judged.point.uncertaintyMm ** 2;
  if (left <= 0) {
    const alone = certaintyText(Math.sqrt(fromAlignment), unit);
    const leaves = alone === certaintyText(deciding.u, unit) ? 'uses up all of that' : `leaves ${alone}`;
    return `${text}, but the alignment alone ${leaves}: ${readingsThatDecide(inspection, { judged, stage }, deciding)}.`;
  }
  const repeats = repeatsFor(inspection, stage, left);
  if (repeats === null) return `${text}: that needs a better instrument, or a stronger base.`;
  return `${text}: ${repeats} repeats of the reading are enough.`;
}

/** What to read so that the alignment leaves little enough, where the chassis file has it. */
function readingsThatDecide(
  inspection: Inspection,
  { judged, stage }: Newest,
  { axis, u }: Deciding,
): string {
  const usual = 'read more control points, spread towards it';
  if (stage !== stageToExtend(inspection)) return usual;
  const advice = adviceInStage(stage, inspection);
  if (typeof advice === 'string' || advice.steps.length === 0) return usual;
  const after = advice.after.get(judged.id)?.[axis];
  if (after === undefined) return usual;
  const reading = readingVariance(
    instrumentOf(inspection.job, stage.measure),
    judged.reading.triplesMm.length,
  );
  const isEnough = u ** 2 >= after + judged.point.uncertaintyMm ** 2 + reading;
  return `read ${readingsPhrase(advice.steps)}${isEnough ? ', and that is enough' : ', first'}`;
}

/** More repeats than anyone takes. */
const mostRepeats = 20;

/** How many repeats bring the reading's own variance down to so much, mm²; null where averaging does not help. */
function repeatsFor(inspection: Inspection, stage: Newest['stage'], variance: number): number | null {
  const instrument = instrumentOf(inspection.job, stage.measure);
  const u = instrument?.uncertaintyMm;
  const r = instrument?.repeatabilityMm;
  if (!u || !r) return null;
  const averaged = variance - (u ** 2 - r ** 2);
  const repeats = averaged > 0 ? Math.ceil(r ** 2 / averaged) : Number.POSITIVE_INFINITY;
  return repeats <= mostRepeats && repeats > 1 ? repeats : null;
}
