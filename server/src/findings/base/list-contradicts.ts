import type { Alternative } from '../../inspection/frame/alignment-fault';
import type { Inspection } from '../../inspection/job/inspect';
import { floorPhrase } from '../../wording/story-words';
import { shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const listContradicts: Rule = {
  name: 'base/list-contradicts',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'Some of the control points that `base:` lists seem to have moved together.',
    why: 'Control points that were pushed or lifted as one agree with each other, and the rest of the list takes the move up as a tilt of the whole car. What stands around them, or how the rest of the list agrees, shows it. The list is kept, because the file says so: all figures rest on it.',
    example:
      'base: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, tunnel-front.L, tunnel-front.R, cowl-hole.L, cowl-hole.R]',
    exampleIn: {
      place: 'head',
      before: 'scope: [front-rail]',
      after: `  - measure: as received
    readings:      # the left side was pushed up
      floor-front.L: [1200, 420, 101]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 96]
      floor-rear.R: [-350, -455, 90]
      tunnel-front.L: [905, 188, 248]
      tunnel-front.R: [905, -188, 242]
      cowl-hole.L: [1480, 612, 911]
      cowl-hole.R: [1480, -612, 905]
      strut-top.L: [2250, 561, 830]
      strut-top.R: [2250, -561, 830]
      pillar-belt-front.L: [352, 741, 868]
      pillar-belt-front.R: [352, -741, 868]
      rail-tip-lower.L: [3012, 448, 210]`,
    },
    mend: 'Look at the metal around the points that are named, and read them once more. Take those that have moved out of `base:`.',
    source:
      'Draper & Smith 1998, Applied Regression Analysis (F-test of additional parameters), as for `base/ambiguous`.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'list-contradicts').map(({ stage, fault: { stories } }) => {
      const [best] = stories;
      const gone = new Set(best.moved);
      return {
        place: stage.measure.keyPlace,
        message: messageOf(stories, inspection),
        related: stage.measure.readings
          .filter(({ id }) => gone.has(id))
          .map(({ id, key }) => ({ place: key, message: `${id} is read here` })),
      };
    }),
};

function messageOf([best, ...others]: readonly Alternative[], { job, chassis }: Inspection): string {
  const floor = floorPhrase(best, chassis, job.unit);
  const why = floor === null ? '' : `${floor}: `;
  const rest = others.length === 0 ? '' : ` ${others.length} more ways would explain them nearly as well.`;
  return `${why}the readings are explained best if ${shortList(best.moved, 8)} moved together, which \`base:\` lists as sound.${rest} They stay in the base, and everything is judged with them: take them out of the list if the metal there is not sound.`;
}
