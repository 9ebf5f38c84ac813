import { shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const inconsistent: Rule = {
  name: 'base/inconsistent',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'No three control points of a stage agree with each other.',
    why: 'Every figure rests on the control points. Where they contradict each other in every combination, the floor itself is distorted, or readings were mixed up, or it is another car’s chassis file. All are kept in the base, because none is better than the others, and the stage is provisional.',
    example: `  - measure: as received
    readings:      # every control point is off by centimetres, each another way
      floor-front.L: [1230, 420, 95]
      floor-rear.L: [-350, 435, 110]
      floor-rear.R: [-390, -455, 60]
      cowl-hole.R: [1480, -572, 945]`,
    exampleIn: { place: 'entry' },
    mend: 'Check that it is the right chassis file. Read the control points again, and more of them, away from the damage. Where one end is sound, name its zone: `base: { between: [-800, 1300] }`.',
    source:
      'Belsley, Kuh & Welsch 1980, Regression Diagnostics (deleted residuals); Fischler & Bolles 1981 (consensus).',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'inconsistent').map(({ stage, fault }) => ({
      place: stage.measure.keyPlace,
      message: `no three of the control points ${shortList(fault.ids)} agree with each other. It cannot be told which of them moved, so all are kept and every figure of this stage is provisional. Check the chassis file and the names, and read more control points away from the damage.`,
      related: stage.measure.readings
        .filter(({ id }) => fault.ids.includes(id))
        .map(({ id, key }) => ({ place: key, message: `${id} was read here` })),
    })),
};
