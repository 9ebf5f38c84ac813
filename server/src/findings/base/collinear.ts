import { withoutSides } from '../../inspection/job/scope';
import { unreadControlPoints } from '../../inspection/job/weak';
import { listPhrase, shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const collinear: Rule = {
  name: 'base/collinear',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'The control points of a stage, or their readings, stand on one line, or nearly.',
    why: 'A car held at points on one line can still roll about that line. Whatever is measured away from it could be anything.',
    example: 'base: [floor-front.L, floor-middle.L, floor-rear.L]     # all along the left sill',
    exampleIn: {
      place: 'head',
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-middle.L: [425, 437.5, 92.5]
      floor-rear.L: [-350, 455, 90]
      floor-front.R: [1200, -420, 95]`,
    },
    mend: 'Read a control point well to the side of that line, on the other side of the car for instance.',
    source:
      'Arun, Huang & Blostein 1987, Least-squares fitting of two 3-D point sets: the collinear case has no unique answer.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'collinear').map(({ stage, fault }) => {
      const unread = withoutSides(
        unreadControlPoints(inspection.job, inspection.chassis, stage).map((point) => point.id),
      );
      const hint = unread.length === 0 ? '' : `, such as ${shortList(unread, 4)}`;
      if (fault.asRead)
        return {
          place: stage.measure.keyPlace,
          message: `the readings of the control points ${listPhrase(fault.ids)} stand on one line, but the points themselves do not: nothing can be judged. Look at the numbers; one reading may have been written down more than once.`,
        };
      return {
        place: stage.measure.keyPlace,
        message: `the control points ${listPhrase(fault.ids)} stand on one line, and the car may still roll about it: nothing can be judged. Read one well to the side of it${hint}.`,
      };
    }),
};
