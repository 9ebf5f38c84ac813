import type { Inspection } from '../../inspection/job/inspect';
import type { TramNetwork } from '../../inspection/job/stage';
import { lengthText } from '../../model/units';
import type { Rule } from '../rule/rule';

export const suspectDistance: Rule = {
  name: 'reading/suspect-distance',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  inGate: 'reading',
  page: {
    summary: 'The distances of a tram-only job contradict each other; the likeliest wrong one is named.',
    why: 'Distances that share their points check each other. Where they cannot all be true within their uncertainty, one was misread, mistyped or taken between other points, and every position computed from them is shifted by it. Where a control point that has moved explains them better than any one distance, that is said instead (`base/moved`).',
    example: '    spans:\n      - [floor-front.L, latch, 2071.0]      # 2017.0 was read',
    exampleIn: {
      place: 'entry',
      before: '  - measure: with the tram',
      after: `      - [floor-front.R, latch, 2017.0]
      - [floor-rear.L, latch, 3498.8]
      - [floor-rear.R, latch, 3498.8]
      - [tunnel-front.L, latch, 2219.3]
      - [cowl-hole.L, latch, 1690.3]
      - [cowl-hole.R, latch, 1690.3]`,
    },
    mend: 'Read that distance again, and check that the pointers are in the right holes.',
    source:
      'Baarda 1968, A testing procedure for use in geodetic networks (data snooping); Ghilani & Wolf, Adjustment Computations.',
  },
  ofJob: ({ inspection }) =>
    inspection.stages.flatMap(({ network }) => {
      if (!network?.suspect) return [];
      return [{ place: network.suspect.reading.place, message: messageOf(inspection, network.suspect) }];
    }),
};

function messageOf(
  { job }: Inspection,
  { reading, residualMm, orMoved }: NonNullable<TramNetwork['suspect']>,
): string {
  const by = `${lengthText(Math.abs(residualMm), job.unit)} ${residualMm < 0 ? 'shorter' : 'longer'}`;
  return `the distances of this stage contradict each other by more than their uncertainty. The likeliest to be wrong is ${reading.from} to ${reading.to}, ${by} than the other distances together say: read it again.${orMoved === null ? '' : ` Or ${orMoved} has moved, which would show in the same way: measure it from more points.`}`;
}
