import type { Inspection } from '../../inspection/job/inspect';
import { outsidePoints } from '../../inspection/job/outside-points';
import type { Stage } from '../../inspection/job/stage';
import { tramOnly } from '../../inspection/job/tram';
import type { Body } from '../../inspection/shape/body';
import { derived } from '../../memory/derived';
import type { Unit } from '../../model/units';
import { bodyPhrase, crossedPhrase, heightsUnseenPhrase } from '../../wording/body-words';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const condition: Rule = {
  name: 'body/condition',
  severity: 'information',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary:
      'The shape of the damage to the body as a whole, ahead of the base and behind it, in the words of the trade.',
    why: `Before anyone looks at single points, the body as a whole says which way it was hit: **mash** (an end is shortened; **left side mashed** where the
other side is not), **sidesway** (an end stands to one side), **sag** or **high** (an end stands low or high), **diamond** (one side stands ahead of the
other, down to the roots next to the base on both sides), **twist** (an end is turned about the length of the car). Figures are those of the tips, the
points of the end that stand farthest out, with the mean of all its points beside them. A condition is named only where a point of that end is outside its
limit and the figure is more than twice its uncertainty. A side impact shows as sidesway of the end beside the base. In a job that reads distances
alone, crossed distances that differ say that the body is out of square, and it is said that such distances do not show heights. What happened first is
undone last: the technician and the maker's procedure decide on that order.`,
    example: `  - measure: as received         # front: mash 9.0 mm rearward (±1.0 at 95 %), sidesway 14.1 mm right …`,
    exampleIn: {
      place: 'entry',
      after: `    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      rail-tip-lower.L: [3003, 434, 210]
      rail-tip-lower.R: [3003, -462, 210]
      rail-tip-upper.L: [3003, 438, 352]
      rail-tip-upper.R: [3003, -466, 352]`,
    },
    mend: 'Nothing to mend in the file: it tells where to begin. Measure more points of that end, on both sides, where it looks wrong.',
    source:
      'The words, and comparing diagonals, are common practice in the trade. The figures are means over points read on both sides; twist is a rigid motion (Söderkvist & Wedin 1993).',
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    tramOnly(inspection.job) ? byDistances(inspection) : byPoints(inspection),
};

const byPoints = ({ stages, job }: Inspection): Draft[] =>
  stages.flatMap((stage): Draft[] => {
    // a condition is named only where a point is outside: most stages need no shape of the body made
    const { body } = outsidePoints(stage.points).length > 0 ? stage : { body: null };
    const phrase = body === null ? null : phraseIn[job.unit](body);
    return phrase === null ? [] : [draftOf(stage, phrase)];
  });

/** Crossed distances of each measure; what distances leave open is said once, of the newest off load. */
function byDistances({ stages, job }: Inspection): Draft[] {
  const newest = stages.findLast(({ underTension }) => !underTension);
  return stages.flatMap((stage): Draft[] => {
    const crossed = crossedPhrase(stage.spans, job.unit);
    const unseen = stage === newest ? heightsUnseenPhrase(stage.points) : null;
    return [crossed, unseen].flatMap((phrase) => (phrase === null ? [] : [draftOf(stage, phrase)]));
  });
}

function draftOf(stage: Stage, phrase: string): Draft {
  const load = stage.underTension ? 'under load, ' : '';
  const doubt = stage.provisional ? 'if this alignment holds, ' : '';
  return { place: stage.measure.keyPlace, message: `${doubt}${load}${phrase}.` };
}

/** A body that an edit left alone has the same words again. */
const phraseIn: Record<Unit, (body: Body) => string | null> = {
  mm: derived((body: Body) => bodyPhrase(body, 'mm')),
  inch: derived((body: Body) => bodyPhrase(body, 'inch')),
};
