import { sheetSlips } from '../../inspection/job/sheet-slips';
import type { Replacement } from '../../model/problem';
import type { TypedNumber } from '../../model/typed-numbers';
import { axisNames, listPhrase, roundedText } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const outlier: Rule = {
  name: 'chassis/outlier',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary: 'A number stands over 100 mm from those of its part, and one slip of the hand would explain it.',
    why: 'A digit dropped or added, two digits or two numbers exchanged, the full width in place of the half, a lost sign: each makes a reference that no car has, and a sound point would be pulled to it. Only such slips that bring the number within 40 mm of the others are reported; a part that is really made so stays silent.',
    example: `  rail-tip-upper: { both: [3012, 904, 352], part: front-rail }      # the full width`,
    exampleIn: { place: 'point' },
    mend: 'Look the number up on the sheet. If the body is really made that way, silence the finding with a reason.',
    source: 'Common practice in the trade; the limits of 100 and 40 mm are chosen.',
  },
  ofChassis: ({ chassis }) =>
    chassis.broken
      ? []
      : sheetSlips(chassis).map(({ point, axis, offMm, number, slip, texts, exchangedWith, others }) => ({
          place: number.place,
          message: `${slip}? ${axisNames[axis]} of ${point.name} is ${roundedText(offMm, chassis.unit)} off ${others}${texts.length === 0 ? '' : `; ${listPhrase(texts, 'or')} would fit`}: look at the sheet`,
          replacements: [
            ...texts.map((text) => ({
              title: `Write ${text} for ${number.source}`,
              place: number.place,
              text,
            })),
            ...(exchangedWith === null ? [] : [exchangeFix(number, exchangedWith)]),
          ],
        })),
};

const exchangeFix = (one: TypedNumber, other: TypedNumber): Replacement => ({
  title: `Exchange ${one.source} and ${other.source}`,
  place: one.place,
  text: other.source,
  also: [{ place: other.place, text: one.source }],
});
