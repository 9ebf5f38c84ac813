import { type JudgedPoint, judgementsOf } from '../../inspection/alignment/points';
import { beyond, verdictOf } from '../../inspection/alignment/verdict';
import { grossReadings } from '../../inspection/job/gross';
import type { Inspection } from '../../inspection/job/inspect';
import { newestReleased } from '../../inspection/job/newest';
import { outsidePoints } from '../../inspection/job/outside-points';
import type { Stage } from '../../inspection/job/stage';
import { derived } from '../../memory/derived';
import { type Axis, axes } from '../../model/chassis';
import { offPhrase } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

/** Two readings differ for certain past so many standard uncertainties of their difference: 95 %, both ways. */
const certain = 1.96;

export const contradicted: Rule = {
  name: 'reading/contradicted',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  wholeJob: true,
  page: {
    summary: 'A point was outside, nothing was done to the car since, and its newest reading is inside.',
    why: `Metal does not move by being measured again. One of the two readings is wrong, and the newest one is no better for being newer: whoever reads a bad point again until it is
inside signs for the mistake. Spoken of are readings off load without any work between them, whose difference their uncertainties do not explain; a reading that is a slip of the
hand (reading/gross) is none of them.`,
    example: `  - measure: finished
    readings:
      strut-top.L: [2250, 569, 830]
  - measure: read again            # nothing was done between
    readings:
      strut-top.L: [2250, 562, 830]`,
    exampleIn: {
      place: 'entry',
      before: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      tunnel-front.L: [905, 188, 242]
      tunnel-front.R: [905, -188, 242]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]`,
    },
    mend: 'Read the point a third time, with control points, and say in a `note` what was wrong with the other reading. If work was done between them, enter it.',
    source:
      'Comparison of two results by the uncertainty of their difference: ISO/IEC Guide 98-3 (GUM), 5.1. Common practice in the trade.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    const { unit } = inspection.job;
    // most points are read last in one stage
    const known = new Map<Stage, readonly Stage[]>();
    const before = (stage: Stage): readonly Stage[] => {
      const found = known.get(stage) ?? untouchedBefore(inspection, stage);
      known.set(stage, found);
      return found;
    };
    return [...newestReleased(inspection).values()].flatMap(({ stage, judged }): Draft[] => {
      if (stage.provisional || judged.verdict === 'outside') return [];
      for (const earlier of before(stage)) {
        const then = outsideById(earlier.points).get(judged.id);
        if (then === undefined || grossReadings(inspection, earlier).has(judged.id)) continue;
        const axis = axes.find((k) => differs(then, judged, k));
        if (axis === undefined) continue;
        const off = offPhrase(axis, then.deviation[axis]!, judged.point.side, unit);
        return [
          {
            place: judged.reading.key,
            message: `${judged.id} was ${off} in “${earlier.name}”, nothing was done to the car since, and here it is inside: one of the two readings is wrong`,
            related: [{ message: `${judged.id} in “${earlier.name}”`, place: then.reading.key }],
          },
        ];
      }
      return [];
    });
  },
};

const outsideById = derived(
  (points: readonly JudgedPoint[]): ReadonlyMap<string, JudgedPoint> =>
    new Map(outsidePoints(points).map((judged) => [judged.id, judged])),
);

/** The stages off load before one that no work parts from it, the newest first; none that is not settled. */
function untouchedBefore({ stages, job: { timeline } }: Inspection, stage: Stage): Stage[] {
  const before = timeline.slice(0, stage.index);
  const worked = before.findLastIndex(
    ({ kind }) => kind !== 'measure' && kind !== 'observe' && kind !== 'note',
  );
  return stages
    .filter(({ index, provisional }) => index > worked && index < stage.index && !provisional)
    .reverse();
}

/** On this axis the one is outside, the other inside its limit, and their uncertainties do not explain it. */
function differs(before: JudgedPoint, now: JudgedPoint, k: Axis): boolean {
  const [old, next] = [judgementsOf(before)[k], judgementsOf(now)[k]];
  if (verdictOf([old]) !== 'outside' || next.deviationMm === null || beyond(next.deviationMm, next.limits))
    return false;
  const doubt = Math.hypot(old.uncertaintyMm ?? 0, next.uncertaintyMm ?? 0);
  return Math.abs((old.deviationMm ?? 0) - next.deviationMm) > certain * doubt;
}
