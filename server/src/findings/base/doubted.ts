import type { AlignmentFault } from '../../inspection/frame/alignment-fault';
import type { Inspection } from '../../inspection/job/inspect';
import { groupName, groupOffPhrase } from '../../wording/witness-words';
import { listPhrase, shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const doubted: Rule = {
  name: 'base/doubted',
  severity: 'error',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  unchangeable: true,
  page: {
    summary: 'Few control points were read, and what stands around them contradicts them.',
    why: 'Four or five control points check each other little: a pair that moved as one is taken in by the others, and then everything else looks wrong. Points elsewhere that nobody has in question show it: where all of them stand off by the control points, it is not the whole car that is bent but the base. Until it is decided the stage is provisional, and a job cannot be signed off on it.',
    example:
      'scope: [front-rail]      # four control points say that every other part of the car stands elsewhere',
    exampleIn: {
      place: 'head',
      uncertainty: 0.8,
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      strut-top.L: [2250, 561, 836]
      strut-top.R: [2250, -561, 836]
      pillar-belt-front.L: [352, 735, 868]
      pillar-belt-front.R: [352, -747, 868]
      rear-rail-tip.L: [-1091, 512, 268]
      rear-rail-tip.R: [-1091, -512, 268]
      rail-tip-lower.L: [3012, 448, 210]`,
    },
    mend: 'Read more control points, far from each other and from the damage. If you know which have moved, say what is sound: `base: { between: [-800, 1300] }`, or list the sound control points.',
    source:
      'Baarda 1968, A testing procedure for use in geodetic networks: what is checked little can hide an error of any size. The limits are the project’s own.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'doubted').map(({ stage, fault }) => ({
      since: fault.since,
      place: stage.measure.keyPlace,
      message: messageOf(inspection, fault),
      related: stage.measure.readings.flatMap(({ id, key }) =>
        fault.ids.includes(id)
          ? [{ place: key, message: `${id} stands off by everything else together` }]
          : [],
      ),
    })),
};

type Doubted = Extract<AlignmentFault, { kind: 'doubted' }>;

function messageOf({ job }: Inspection, { groups, ids }: Doubted): string {
  const around = groups.map((group) => `${groupName(group)} ${groupOffPhrase(group, job.unit)}`);
  const why =
    groups.length > 0
      ? `by these control points everything around them stands off: ${listPhrase(around)}. Some of them have moved together, or the references are wrong`
      : `by everything else together ${shortList(ids, 5)} ${ids.length === 1 ? 'stands' : 'stand'} off by more than the tolerance, and so few control points cannot tell who is right`;
  return `${why}: all figures of this stage are provisional. Read more control points, or state the sound zone with \`base:\`.`;
}
