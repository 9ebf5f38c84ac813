import type { Unit } from '../../model/units';
import { figure } from '../../model/units';
import type { Rule } from '../rule/rule';
import { faultsOf } from './stage-faults';

export const scale: Rule = {
  name: 'base/scale',
  severity: 'error',
  since: '0.1',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'All readings of a stage are too large or too small by one factor: a wrong unit.',
    why: 'No car grows or shrinks by a twentieth. Readings in inches under a file of millimetres come out 25.4 times too small, and nothing calculated from them would mean anything. So nothing is judged.',
    example:
      'units: mm\ntimeline:\n  - measure: as received\n    readings:     # inches\n      floor-front.L: [47.24, 16.54, 3.74]\n      floor-front.R: [47.24, -16.54, 3.74]\n      floor-rear.L: [-13.78, 17.91, 3.54]\n      cowl-hole.R: [58.27, -24.09, 35.63]',
    exampleIn: { place: 'head' },
    mend: 'State the unit of the file with `units: inch` or `units: mm`, and give every length of the file in it. If it is the chassis file that has the wrong unit, correct it there.',
    source:
      'Umeyama 1991, Least-squares estimation of transformation parameters between two point patterns: the scale of the best similarity.',
  },
  ofJob: ({ inspection }) =>
    faultsOf(inspection, 'scale').map(({ stage, fault }) => {
      if (fault.scale === null) return { place: stage.measure.keyPlace, message: noSize };
      const large = fault.scale < 1;
      const times = large ? 1 / fault.scale : fault.scale;
      const size = `${figure(times, times < 1.1 ? 3 : 2)} times too ${large ? 'large' : 'small'}`;
      return {
        place: stage.measure.keyPlace,
        message: `the readings of this stage are ${size}, so nothing about it is judged. ${advice(fault.scale, fault.nearest, inspection.job.unit)}`,
      };
    }),
};

const noSize =
  'the control points of this stage all have the same reading, so nothing about it is judged: read each of them where it stands.';

/** How near a factor must be to a change of units to be taken for one, as a share. */
const nearEnough = 0.05;

function advice(factor: number, nearest: number, unit: Unit): string {
  if (Math.abs(factor / nearest - 1) > nearEnough)
    return 'No usual mistake of units gives that (inches for mm would be 25.40): is it the right chassis file, in the right unit, and were the control points read where their names say?';
  const close = (value: number) => Math.abs(nearest / value - 1) < 1e-6;
  if (close(25.4))
    return unit === 'mm'
      ? 'That is 25.4, inches read as mm: if the instrument counts inches, write `units: inch`.'
      : 'That is 25.4: the chassis file seems to hold mm as inches.';
  if (close(1 / 25.4))
    return unit === 'inch'
      ? 'That is 25.4, mm read as inches: if the instrument counts mm, write `units: mm`.'
      : 'That is 25.4: the chassis file seems to hold inches as mm; see its `units`.';
  if (close(10)) return 'That is 10, centimetres read as mm: give the readings in mm.';
  if (close(1000)) return 'That is 1000, metres read as mm: give the readings in mm.';
  return `That is ${close(1 / 10) ? '10, tenths of a mm' : '1000, thousandths of a mm'} read as mm: was a decimal point left out? Give the readings in mm.`;
}
