import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import { uncertaintyThatDecides } from '../../inspection/alignment/certainty-needed';
import { type JudgedPoint, judgementsOf } from '../../inspection/alignment/points';
import { instrumentOf } from '../../inspection/alignment/prepared';
import { readingVariance } from '../../inspection/alignment/uncertainty';
import { coverage95 } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import { type Newest, newestReleased } from '../../inspection/job/newest';
import { isUnsettled, provisionalNote } from '../../inspection/job/provisional';
import { type Axis, referenceVariance } from '../../model/chassis';
import { lengthText } from '../../model/units';
import { readingsPhrase } from '../../wording/advice-words';
import { axesOver, bringPhrase, openAxes, openPhrase } from '../../wording/undecided-words';
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
    mend: 'Do what the message says. Over the limit: bring the point back as far as it says; the smaller figure takes it to its limit, the larger one inside it for certain. Or read again. Inside the limit: read the points that it names, or the point itself as often as it says; where neither can decide it, a better instrument does.',
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
  const off = openPhrase(judged, inspection.job.unit);
  return `${judged.id} is off by ${off}. ${capitalised(whatToDo(inspection, newest))}.`;
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** One thing that a person can do. */
function whatToDo(inspection: Inspection, newest: Newest): string {
  const { judged, stage } = newest;
  if (judged.contradictory) return 'its repeats contradict each other: read it again';
  // nothing can be told, and nobody is told to move a point, by a base that may be the wrong one
  if (isUnsettled(stage)) return 'settle the base first: what is said of it depends on that';
  const over = axesOver(judged);
  if (over.length === 0) return whatToRead(inspection, newest);
  const readings = readingsThatHelp(inspection, newest, decidingAxis(judged));
  const byDistances = stage.network !== null;
  const again = byDistances ? moreDistances : readings === null ? 'read it again' : `read ${readings.phrase}`;
  const bring = bringPhrase(judged, over, inspection.job.unit);
  return bring === null ? `its place is too uncertain to move it by: ${again}` : `${bring}, or ${again}`;
}

const moreDistances = 'read it in three numbers, or more distances to it';

/** Of a point inside its limits: what decides that, the cheapest first. */
function whatToRead(inspection: Inspection, newest: Newest): string {
  const { judged } = newest;
  const { unit } = inspection.job;
  const bring = bringPhrase(judged, openAxes(judged), unit);
  const orBring = bring === null ? '' : `, or ${bring}`;
  const deciding = decidingAxis(judged);
  if (deciding === null)
    return `it stands on its limit, and no reading decides that${bring === null ? '' : `: ${bring}, or leave it`}`;
  const fromAlignment = judged.alignmentVariance[deciding.axis];
  if (fromAlignment === null) return moreDistances;
  const readings = readingsThatHelp(inspection, newest, deciding);
  if (readings?.decides) return `read ${readings.phrase}: that decides it`;
  const left = deciding.u ** 2 - fromAlignment - referenceVariance(judged.point, deciding.axis);
  const repeats = repeatsFor(inspection, newest, left);
  if (repeats !== null) return `read it ${repeats === 2 ? 'twice' : 'three times'} in all: that decides it`;
  if (readings !== null) return `first read ${readings.phrase}`;
  const needed = `only ±${lengthText(coverage95 * deciding.u, unit)}, alignment included, decides it as it stands`;
  return `${needed}: use a better instrument${orBring}`;
}

interface Deciding {
  readonly axis: Axis;
  readonly u: number;
}

/**
 * The axis that decides a point, and the largest standard uncertainty with which it does: outside on one axis is outside, so the
 * easiest of those beyond their limits; within is within on every axis, so the hardest of all where none is beyond. Null where it
 * stands on a limit.
 */
function decidingAxis(judged: JudgedPoint): Deciding | null {
  const judgements = judgementsOf(judged);
  const neededOn = (axis: Axis): Deciding => ({
    axis,
    u: uncertaintyThatDecides(judgements[axis]) ?? 0,
  });
  const outside = axesOver(judged).map(neededOn);
  const deciding =
    outside.length > 0
      ? outside.reduce((a, b) => (b.u > a.u ? b : a))
      : openAxes(judged)
          .map(neededOn)
          .reduce((a, b) => (b.u < a.u ? b : a));
  return deciding.u > 0 ? deciding : null;
}

interface Readings {
  /** `cowl-hole, both sides`. */
  readonly phrase: string;
  /** With them the point is decided. */
  readonly decides: boolean;
}

/** What to read so that the alignment leaves less; null where it leaves little enough, or nothing that the sheet has would help. */
function readingsThatHelp(
  inspection: Inspection,
  { judged, stage }: Newest,
  deciding: Deciding | null,
): Readings | null {
  if (deciding === null || stage !== stageToExtend(inspection)) return null;
  const now = judged.alignmentVariance[deciding.axis];
  if (now === null) return null;
  const advice = adviceInStage(stage, inspection);
  if (typeof advice === 'string' || advice.steps.length === 0) return null;
  const after = advice.after.get(judged.id)?.[deciding.axis];
  if (after === undefined || after >= now) return null;
  const instrument = instrumentOf(inspection.job, stage.measure);
  const reading = readingVariance(instrument, judged.reading.triplesMm.length);
  return {
    phrase: readingsPhrase(advice.steps),
    decides: deciding.u ** 2 >= after + referenceVariance(judged.point, deciding.axis) + reading,
  };
}

/** More repeats than anyone takes for one point. */
const mostRepeats = 3;

/** How many repeats in all bring the reading's own variance down to so much, mm²; null where averaging does not help, or no repeatability is stated. */
function repeatsFor(inspection: Inspection, { judged, stage }: Newest, variance: number): number | null {
  const instrument = instrumentOf(inspection.job, stage.measure);
  const u = instrument?.uncertaintyMm;
  const r = instrument?.repeatabilityMm;
  if (!u || !r) return null;
  const averaged = variance - (u ** 2 - r ** 2);
  const repeats = averaged > 0 ? Math.ceil(r ** 2 / averaged) : Number.POSITIVE_INFINITY;
  return repeats <= mostRepeats && repeats > judged.reading.triplesMm.length ? repeats : null;
}
