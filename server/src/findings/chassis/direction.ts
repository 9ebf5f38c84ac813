import { type NamePair, reversedPairs } from '../../inspection/frame/name-pairs';
import type { Chassis, Point } from '../../model/chassis';
import { nameOf } from '../../model/names';
import { turnedRound } from '../../model/sheet-axes';
import { pairText, reversalText } from '../../wording/name-pair-words';
import type { Draft, Rule } from '../rule/rule';

export const direction: Rule = {
  name: 'chassis/direction',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary:
      'Names say that the sheet counts the other way than the file does, or that two positions are exchanged.',
    why: 'Many sheets count length rearward from the nose, or height downward. Typed as they stand, without `axes`, they make a car that faces the wrong way: every pull would be told wrongly. Only names that differ in one word are compared: front and rear, fore and aft, upper and lower, left and right. Some sheets count widths from one side: a point of the right then has a width with a minus, where the file counts outboard.',
    example: `points:
  floor-front: { both: [600, 420, 95] }
  floor-rear:  { both: [2150, 455, 90] }      # the sheet counts rearward from the nose
  rail-front:  { both: [-900, 430, 200] }
  rail-rear:   { both: [400, 435, 190] }`,
    exampleIn: { place: 'chassis', before: 'vehicle: Marten' },
    mend: 'Look at the sheet which way it counts. Write it as `axes`, such as `axes: [rearward, outboard, up]`; drop a minus that only says “right”; or exchange the two positions. If the names are right as they are, silence the finding with a reason.',
    source: 'Common practice in the trade.',
  },
  ofChassis: ({ chassis }): Draft[] => {
    if (chassis.broken) return [];
    const reversed = reversedPairs(chassis);
    return [
      ...(reversed.kind === 'axis' ? [ofAxis(chassis, reversed)] : []),
      ...(reversed.kind === 'pairs' ? reversed.pairs.flatMap((pair) => ofPair(chassis, pair)) : []),
      ...widthsOnOneSide(chassis),
      ...chassis.missingEnds.map(({ id, place }) => ({
        place,
        message: `${nameOf(id)} has no ${id.endsWith('.L') ? 'left' : 'right'} point, so this distance is known on the other side alone: give it that side too, or list one distance without \`pairs\``,
      })),
    ];
  },
};

function ofAxis(chassis: Chassis, reversed: Parameters<typeof reversalText>[0]): Draft {
  const mended = turnedRound(chassis.axes, reversed.axis);
  const { axesPlace } = chassis;
  const text = mended && `[${mended.join(', ')}]`;
  return {
    place: axesPlace ?? chassis.head,
    message: reversalText(reversed, chassis),
    replacements:
      text === null || axesPlace === null ? [] : [{ title: `Write ${text}`, place: axesPlace, text }],
  };
}

/** A pair that another file gives is told of there. */
function ofPair(chassis: Chassis, pair: NamePair): Draft[] {
  const own = [pair.positive, pair.negative].find(({ origin }) => origin.uri === chassis.uri);
  if (own === undefined) return [];
  return [
    {
      place: own.origin.place,
      message: `by its name ${pairText(pair)}, and other pairs stand as they are named: are the two exchanged, or has one a wrong number?`,
    },
  ];
}

/** Left and right on one side of the car: the sheet counts widths from one side and the file outboard, or the other way round. */
function widthsOnOneSide(chassis: Chassis): Draft[] {
  const isOutboard = chassis.axes.includes('outboard');
  return [...chassis.points.values()].flatMap((left): Draft[] => {
    const right = left.side === 'L' ? chassis.points.get(`${left.name}.R`) : undefined;
    if (right === undefined || left.reference[1] * right.reference[1] <= 0) return [];
    const odd = left.reference[1] < 0 ? left : right;
    const width = isOwn(odd, chassis) ? odd.coordinates.typed?.[1] : undefined;
    if (width === undefined) return [];
    const on = odd === right ? 'left' : 'right';
    if (!isOutboard)
      return [
        {
          place: width.place,
          message: `${left.id} and ${right.id} both stand on the ${on} of the car: does this width want the other sign, or does the sheet count widths outboard on both sides?`,
        },
      ];
    if (!width.source.startsWith('-')) return [];
    const text = width.source.slice(1);
    return [
      {
        place: width.place,
        message: `width is + outboard on both sides: drop the minus, or say in \`axes\` that the sheet counts widths to the ${on}`,
        replacements: [{ title: `Write ${text}`, place: width.place, text }],
      },
    ];
  });
}

const isOwn = ({ origin }: Point, { uri }: Chassis): boolean => origin.uri === uri;
