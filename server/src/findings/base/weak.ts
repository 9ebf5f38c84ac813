import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type WeakPoint, weakPoints } from '../../inspection/job/weak';
import type { Axis } from '../../model/chassis';
import { adviceSentence } from '../../wording/advice-words';
import { certaintyText, listPhrase } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const weak: Rule = {
  name: 'base/weak',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'At some points the uncertainty of the alignment alone is more than a third of their tolerance.',
    why: 'A small error of the base grows with distance: half a millimetre between control points a metre apart is two millimetres at a rail tip three metres away. There, a verdict says more about the base than about the rail.',
    example:
      'base: [floor-front.L, floor-front.R, floor-rear.L]      # and the rail tips are judged two metres ahead of them',
    exampleIn: {
      place: 'head',
      uncertainty: 0.8,
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-tip-lower.L: [3012, 448, 210]`,
    },
    mend: 'Read the points that the message names. Otherwise read more control points, spread as widely as sound metal allows and above all towards the points to be judged; read them several times.',
    source: 'Fitzpatrick, West & Maurer 1998, Predicting error in rigid-body point-based registration.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap((stage, i) => {
      const weak = weakPoints(inspection, stage);
      if (weak.length === 0) return [];
      const known = saidOfTheSameBase(inspection, i);
      const found = weak.filter(({ judged }) => !known.has(judged.id));
      if (found.length === 0) return [];
      return [
        {
          place: stage.measure.keyPlace,
          message: messageOf(inspection, stage, found),
          related: found
            .slice(0, 20)
            .map(({ judged }) => ({ place: judged.reading.key, message: `${judged.id} is judged here` })),
        },
      ];
    }),
};

/** A stage that took its alignment over repeats nothing of what was said of it there. */
function saidOfTheSameBase(inspection: Inspection, index: number): Set<string> {
  const base = inspection.stages[index].alignment?.base;
  const earlier = inspection.stages.slice(0, index).filter((stage) => base && stage.alignment?.base === base);
  return new Set(earlier.flatMap((stage) => weakPoints(inspection, stage).map(({ judged }) => judged.id)));
}

const bothWays: Record<Axis, string> = { 0: 'in length', 1: 'in width', 2: 'in height' };

function messageOf(inspection: Inspection, stage: Stage, found: readonly WeakPoint[]): string {
  const { unit } = inspection.job;
  const listed = found.slice(0, 5).map(({ judged, axes: [axis] }) => {
    return `${judged.id} ${certaintyText(Math.sqrt(judged.alignmentVariance[axis] ?? 0), unit)} ${bothWays[axis]}`;
  });
  const rest = found.length - listed.length;
  const names = rest > 0 ? `${listed.join(', ')} and ${rest} more` : listPhrase(listed);
  const limit = '95 %; the most allowed is a third of the tolerance';
  const text = `the base is too weak for ${found.length === 1 ? 'a point' : `${found.length} points`} judged by it. The alignment alone leaves this uncertainty: ${names} (${limit}).`;
  return text + helpOf(inspection, stage);
}

function helpOf(inspection: Inspection, stage: Stage): string {
  const advice = adviceInStage(stage, inspection);
  const when = stageToExtend(inspection) === stage ? 'now' : 'next';
  const said = typeof advice === 'string' ? null : adviceSentence(advice, inspection.job.unit, when);
  return ` ${said ?? 'Read the control points several times, and others farther out if the chassis file has them.'}`;
}
