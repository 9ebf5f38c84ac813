import { type Copied, copiedReadings } from '../../inspection/job/copied';
import { withoutSides } from '../../inspection/job/scope';
import { figure, mmPer, type Unit, unitWord } from '../../model/units';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const copied: Rule = {
  name: 'reading/copied',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'More points of a measure have exactly the numbers of an earlier one than chance explains.',
    why: `No instrument reads three numbers alike twice, to the last digit, but now and then. Where many points of a measure do, the rows were copied: they look like a new reading, newer
than the work, and nobody looked at the car. How many may agree by chance follows from the step that the numbers are rounded to and from the instrument's \`repeatability\`. In a
closed job it is said at the sign-off, too.`,
    example: `  - measure: as received
    readings:
      rail-tip-upper.L: [3012.3, 452.1, 352.4]
      strut-top.R: [2250.2, -561.4, 830.1]
      rail-tip-lower.L: [3012.1, 448.2, 210.3]
      cowl-hole.L: [1480.4, 612.1, 905.2]
  - measure: finished
    readings:
      rail-tip-upper.L: [3012.3, 452.1, 352.4]
      strut-top.R: [2250.2, -561.4, 830.1]
      rail-tip-lower.L: [3012.1, 448.2, 210.3]
      cowl-hole.L: [1480.4, 612.1, 905.2]`,
    exampleIn: { place: 'entry' },
    mend: 'Read the points again. Where the earlier reading is meant, write `as-before` in place of the numbers, as the fix does: it counts as the earlier reading, and stays as old as it is.',
    source:
      'Binomial distribution; the limit of 0.1 % and the repeatability of 0.05 mm, taken where none is stated, are chosen (server/README.md, “Copied readings”).',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    const found = copiedReadings(inspection);
    const { signOff, unit } = inspection.job;
    const atStages = found.map((each) => draftOf(each, unit));
    if (signOff === null || found.length === 0) return atStages;
    const names = found.map(({ stage, readings }) => `“${stage.name}” (${pointsText(readings.length)})`);
    return [
      ...atStages,
      {
        place: signOff.keyPlace,
        message: `signed although numbers look copied from an earlier measure: ${shortList(names)}`,
        related: found.map(({ stage }) => ({ message: 'here', place: stage.measure.keyPlace })),
      },
    ];
  },
};

const pointsText = (count: number): string => (count === 1 ? 'one point' : `${count} points`);

function draftOf(each: Copied, unit: Unit): Draft {
  const { stage, from, readings, shared, explained, stepMm, repeatabilityMm, isAssumed } = each;
  const ids = shortList(withoutSides(readings.map(({ id }) => id)));
  const length = (mm: number): string => `${Number(figure(mm / mmPer[unit], 6))} ${unitWord[unit]}`;
  const repeats =
    repeatabilityMm === null
      ? 'how well the other rows agree'
      : `a repeatability of ${length(repeatabilityMm)}${isAssumed ? ' (taken, as none is stated)' : ''}`;
  const most = explained === 0 ? 'none of them' : `${explained} of them`;
  const [first, ...others] = readings.map(({ value }) => ({ place: value, text: 'as-before' }));
  return {
    place: stage.measure.keyPlace,
    message:
      `${readings.length} of ${shared} ${shared === 1 ? 'point' : 'points'} ${readings.length === 1 ? 'has' : 'have'} exactly the numbers of “${from.name}”: ${ids}. ` +
      `Rounding to ${length(stepMm)} and ${repeats} explain ${most}. ` +
      'Read again, or write as-before where the earlier reading is meant.',
    related: [{ message: 'the same numbers', place: from.measure.keyPlace }],
    replacements: [
      {
        title:
          readings.length === 1 ? `Write as-before for ${ids}` : `Write as-before in ${readings.length} rows`,
        ...first,
        also: others,
      },
    ],
  };
}
