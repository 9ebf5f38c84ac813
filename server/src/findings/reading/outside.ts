import { type JudgedPoint, judgementsOf, mapAxes } from '../../inspection/alignment/points';
import { verdictOf } from '../../inspection/alignment/verdict';
import { offOnBothSides } from '../../inspection/job/both-sides';
import { grossReadings } from '../../inspection/job/gross';
import { type Newest, newestReleased } from '../../inspection/job/newest';
import { outsidePoints } from '../../inspection/job/outside-points';
import { isUnsettled, provisionalNote } from '../../inspection/job/provisional';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';
import { type Axis, axes } from '../../model/chassis';
import type { Measure } from '../../model/job';
import type { Unit } from '../../model/units';
import { certaintyText, limitPhrase, listPhrase, movesPhrase, offPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';
import { alikePhrase } from './gross';

export const outside: Rule = {
  name: 'reading/outside',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  inRecord: 'figures',
  page: {
    summary: 'A point is out of tolerance, by more than its uncertainty can explain.',
    why: 'This is the work still to do: the point is not where the maker’s sheet has it, and no doubt about the reading or the alignment changes that. In the newest reading that was not under load it is an error; in earlier stages and under load it is information, for the history of the point.',
    example: '      rail-tip-upper.L: [3002.9, 437.8, 353.0]      # reference 3012, 452, 352',
    exampleIn: { place: 'row' },
    mend: 'Move the point the way and as far as the message says, release the tension, and measure again. How a part may be moved, or whether it must be replaced, is the maker’s procedure.',
    source:
      'JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment. A tolerance of ±3 mm where the maker states none is common practice in the trade.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage) => {
      const outside = outsidePoints(stage.points);
      if (outside.length === 0) return [];
      const gross = grossReadings(inspection, stage);
      const newest = newestReleased(inspection);
      const note = provisionalNote(inspection, stage);
      return (gross.size === 0 ? outside : outside.filter((judged) => !gross.has(judged.id))).map((judged) =>
        draftOf(inspection.job.unit, judged, standingOf(stage, judged, newest.get(judged.point.id), note)),
      );
    }),
};

/** What a message tells of besides the figures of its reading. */
interface Standing {
  readonly isNewest: boolean;
  /** Nobody is told to move a point by a base that may be the wrong one. */
  readonly isAdvised: boolean;
  readonly underTension: boolean;
  /** The measure that read the point again, if one did. */
  readonly again: Measure | null;
  readonly note: string;
  /** Its other side, where that is off by the same large amount. */
  readonly alikeId: string | null;
}

function standingOf(stage: Stage, judged: JudgedPoint, newest: Newest | undefined, note: string): Standing {
  const isNewest = newest?.judged === judged;
  return {
    isNewest,
    isAdvised: isNewest && !isUnsettled(stage),
    underTension: stage.underTension,
    again: newest && !isNewest ? newest.stage.measure : null,
    note,
    alikeId: offOnBothSides(judged, stage.points)?.id ?? null,
  };
}

const draftOf = (unit: Unit, judged: JudgedPoint, standing: Standing): Draft =>
  draftFrom(
    judged,
    unit,
    standing.isNewest ? null : historyNote(standing),
    standing.alikeId ?? (standing.isAdvised ? 'move' : 'leave'),
    standing.note,
  );

/**
 * @param history what is told of a reading that is not the newest; null of the newest
 * @param advice `move`, `leave`, or the id of the other side that is off by the same large amount
 */
const draftFrom = derived(
  (judged: JudgedPoint, unit: Unit, history: string | null, advice: string, note: string): Draft => {
    const found = axesOutside(judged);
    const closing = history ?? closingOf(judged, found, advice, unit);
    const { uri, place } = judged.point.coordinates;
    return {
      place: judged.reading.key,
      severity: history === null ? 'error' : 'information',
      message: `${offSentence(judged, found, unit)}${closing && ` ${closing}`}${note}`,
      // history is many lines long: a second one under each would hide the work still to do
      related: history === null ? [{ uri, place, message: `the reference of ${judged.id}` }] : [],
    };
  },
);

/** The axes that are outside for certain, worst first. */
function axesOutside(judged: JudgedPoint): Axis[] {
  const judgements = judgementsOf(judged);
  const excess = (k: Axis) => Math.abs(judged.deviation[k] ?? 0);
  return axes.filter((k) => verdictOf([judgements[k]]) === 'outside').sort((a, b) => excess(b) - excess(a));
}

function offSentence(judged: JudgedPoint, found: readonly Axis[], unit: Unit): string {
  const { id, point, deviation, uncertainty } = judged;
  const off = listPhrase(found.map((k) => offPhrase(k, deviation[k]!, point.side, unit)));
  const limits = [...new Set(found.map((k) => limitPhrase(k, point.limits[k], point.side, unit)))];
  const certainty = [...new Set(found.map((k) => certaintyText(uncertainty[k]!, unit)))];
  const byOthers = judged.inBase ? ', judged by the other control points' : '';
  return `${id} is ${off}; ${limits.join(', ')}, certain to ${listPhrase(certainty)} (95 %)${byOthers}.`;
}

function closingOf(judged: JudgedPoint, found: readonly Axis[], advice: string, unit: Unit): string {
  if (advice === 'leave') return '';
  return advice === 'move' ? moveAdvice(judged, found, unit) : `${alikePhrase(advice)}.`;
}

function moveAdvice({ deviation, point }: JudgedPoint, found: readonly Axis[], unit: Unit): string {
  const needed = mapAxes((k) => (found.includes(k) ? -(deviation[k] ?? 0) : 0));
  return `Move it ${movesPhrase(needed, point.side, unit)}.`;
}

function historyNote({ underTension, again }: Standing): string {
  if (underTension) return 'It was under load then: measure after release.';
  return again === null ? 'An earlier stage.' : againIn(again);
}

/** The same text again, which is compared faster than an equal one. */
const againIn = derived(({ name }: Measure): string => `It was measured again in “${name}”.`);
