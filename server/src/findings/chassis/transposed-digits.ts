import type { Chassis } from '../../model/chassis';
import { mmPer } from '../../model/units';
import type { Draft, Rule } from '../rule/rule';
import { type DigitSwap, swapsOfPairs, swapsOfSpans } from './digit-swaps';

export const transposedDigits: Rule = {
  name: 'chassis/transposed-digits',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'Exchanging two neighbouring digits would make left and right agree, or a listed distance fit.',
    why: 'Exchanged digits are the commonest slip in copying a sheet, and the figure still looks right, in a coordinate and in a listed distance. Bodies are symmetrical except for a few points. Where left and right differ by just such a slip, one of the two is nearly always mistyped.',
    example: '  strut-top: { left: [2250, 561, 830], right: [2520, 561, 830] }      # 2250 or 2520?',
    exampleIn: { place: 'point' },
    mend: 'Look the number up on the sheet. If it is wrong take the fix; if the body is really made that way, silence the finding with a reason.',
    source:
      'Common practice in the trade. Of neighbouring digits exchanged as a common slip of copying: J. Verhoeff, Error Detecting Decimal Codes, 1969 (from memory).',
  },
  ofChassis: ({ chassis }) => {
    const swaps = [...swapsOfPairs(chassis), ...swapsOfSpans(chassis)];
    const groups = new Map<string, DigitSwap[]>();
    for (const swap of swaps) {
      const group = groups.get(swap.cause) ?? [];
      // a number that both sides share is met twice
      if (!group.some((other) => keyOf(other) === keyOf(swap))) groups.set(swap.cause, [...group, swap]);
    }
    const told = new Set<string>();
    return [...groups.values()].flatMap((group): Draft[] => {
      // a slip that left and right have shown already is not told again by a span
      if (group.some((swap) => told.has(keyOf(swap)))) return [];
      for (const swap of group) told.add(keyOf(swap));
      return [draftOf(group, chassis)];
    });
  },
};

const keyOf = ({ number, text }: DigitSwap): string =>
  `${number.place.block.start + number.place.start} ${text}`;

function draftOf(group: readonly DigitSwap[], { unit }: Chassis): Draft {
  const [first] = group;
  const swaps = group.map(({ what, number, text }) => `${number.source} → ${text} (${what})`);
  const title = ({ number, text }: DigitSwap) => `Write ${text} for ${number.source}`;
  return {
    place: first.number.place,
    message: `two digits exchanged? ${swaps.join(' or ')} would ${first.settles(mmPer[unit])}; see the sheet`,
    replacements: group.map((swap) => ({ title: title(swap), place: swap.number.place, text: swap.text })),
  };
}
