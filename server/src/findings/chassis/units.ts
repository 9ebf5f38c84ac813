import { lengthText } from '../../model/units';
import type { Draft, Rule } from '../rule/rule';
import { extentMm } from './extent';

const shortestMm = 1000;
const longestMm = 20_000;

export const units: Rule = {
  name: 'chassis/units',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'The body would be under 1 m or over 20 m long.',
    why: 'Inches read as millimetres make a car of 16 cm, millimetres read as inches one of 100 m. All readings of a job would then be out of scale.',
    example:
      'units: mm\npoints:\n  rail-tip-lower: { both: [118.6, 17.6, 8.3] }      # inches\n  rear-rail-tip:  { both: [-43.5, 20.2, 10.6] }',
    exampleIn: { place: 'chassis', before: 'vehicle: Marten' },
    mend: 'Set `units: inch` or `units: mm` as the sheet has it, or look for a length with a digit too many or too few. The sheet of one small assembly may be right as it is: then silence the finding with a reason.',
    source: 'Common practice in the trade: the length of cars and vans.',
  },
  ofChassis: ({ chassis }): Draft[] => {
    const { broken, uri, unit, unitPlace } = chassis;
    const points = [...chassis.points.values()];
    const lengths = points.map((point) => point.reference[0]);
    const inherited = points.filter((point) => point.origin.uri !== uri).map((point) => point.reference[0]);
    // what the parents' points show by themselves is said there
    if (broken || points.length < 2 || (inherited.length > 1 && isOdd(extentMm(inherited)))) return [];
    const extent = extentMm(lengths);
    if (!isOdd(extent)) return [];
    const other = unit === 'mm' ? 'inch' : 'mm';
    const likely = extent < shortestMm === (unit === 'mm');
    const message =
      `the points lie within ${lengthText(extent, unit)} of length, and no car body has that length: ` +
      (likely
        ? `are these figures in ${other === 'mm' ? 'mm' : 'inches'}?`
        : 'a length may have a digit too many or too few');
    const place = unitPlace ?? chassis.head;
    const replacements = likely && unitPlace ? [{ title: `Write ${other}`, place, text: other }] : [];
    return [{ place, message, replacements }];
  },
};

const isOdd = (mm: number): boolean => mm < shortestMm || mm > longestMm;
