import { type NamePair, reversedPairs } from '../../inspection/frame/name-pairs';
import { axesOrder } from '../../inspection/job/axes-order';
import { withOtherSign } from '../../inspection/job/digit-slips';
import type { Chassis, Point } from '../../model/chassis';
import type { Replacement } from '../../model/problem';
import { type SheetAxes, turnedRound } from '../../model/sheet-axes';
import type { TypedNumber } from '../../model/typed-numbers';
import { entryInsertion } from '../../text/edits';
import { entryOf, offsetsOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { orderText, pairText, reversalText } from '../../wording/name-pair-words';
import type { Draft, Rule } from '../rule/rule';
import { missingEnd } from './missing-end';

export const direction: Rule = {
  name: 'chassis/direction',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary:
      'Names say that the sheet counts the other way or in another order than the file does, or that two positions are exchanged.',
    why: 'Many sheets count length rearward from the nose, or height downward. Typed as they stand, without `axes`, they make a car that faces the wrong way: every pull would be told wrongly. Only names that differ in one word are compared: front and rear, fore and aft, upper and lower, left and right. Where a sheet states its numbers in another order, width first for example, points stand farther out than a car is wide, or front and rear differ in width. Some sheets count widths from one side: a point of the right then has a width with a minus, where the file counts outboard.',
    example: `points:
  floor-front: { both: [600, 420, 95] }
  floor-rear:  { both: [2150, 455, 90] }      # the sheet counts rearward from the nose
  rail-front:  { both: [-900, 430, 200] }
  rail-rear:   { both: [400, 435, 190] }`,
    exampleIn: { place: 'chassis', before: 'vehicle: Marten' },
    mend: 'Look at the sheet which way it counts. Write it as `axes`, such as `axes: [rearward, outboard, up]`; drop a minus that only says “right”; or exchange the two positions. If the names are right as they are, silence the finding with a reason.',
    source:
      'Common practice in the trade; that no half of a car is wider than 1300 mm and none higher than 2200 mm is chosen.',
  },
  ofChassis: ({ chassis }): Draft[] => {
    if (chassis.broken) return [];
    const order = axesOrder(chassis);
    // what else the names seem to say follows from it
    if (order !== null) return [ofAxes(chassis, orderText(order), order.mended)];
    const reversed = reversedPairs(chassis);
    return [
      ...(reversed.kind === 'axis' ? [ofAxis(chassis, reversed)] : []),
      ...(reversed.kind === 'pairs' ? reversed.pairs.flatMap((pair) => ofPair(chassis, pair)) : []),
      ...widthsOnOneSide(chassis),
      ...chassis.missingEnds.map((missing) => missingEnd(missing, chassis)),
    ];
  },
};

function ofAxis(chassis: Chassis, reversed: Parameters<typeof reversalText>[0]): Draft {
  return ofAxes(chassis, reversalText(reversed, chassis), turnedRound(chassis.axes, reversed.axis));
}

/** With the fix that writes `axes`, in the place of those that stand there or below the line that says which vehicle it is. */
function ofAxes({ axesPlace, head, chain }: Chassis, message: string, mended: SheetAxes | null): Draft {
  const place = axesPlace ?? head;
  if (mended === null) return { place, message };
  const text = `[${mended.join(', ')}]`;
  const title = `Write axes: ${text}`;
  if (axesPlace !== null) return { place, message, replacements: [{ title, place: axesPlace, text }] };
  const tree = parseText(chain[0].text);
  const { root } = tree;
  const after = entryOf(root, 'units') ?? entryOf(root, 'vehicle') ?? entryOf(root, 'framewright');
  const edit = root?.kind === 'map' && after ? entryInsertion(tree, root, 'axes', [text], after) : null;
  if (edit === null) return { place, message };
  // no block: offsets of the whole text
  const at = { block: { start: 0 }, start: edit.start, end: edit.end };
  return { place, message, replacements: [{ title, place: at, text: edit.text }] };
}

/** A pair that another file gives is told of there. */
function ofPair(chassis: Chassis, pair: NamePair): Draft[] {
  const own = [pair.positive, pair.negative].find(({ origin }) => origin.uri === chassis.uri);
  if (own === undefined) return [];
  return [
    {
      place: own.origin.place,
      message: `by its name ${pairText(pair)}, and other pairs stand as they are named: are the two exchanged, or has one a wrong number?`,
      replacements: exchange(pair, chassis),
    },
  ];
}

/** The two positions in each other's place, where each of them is one row of numbers of this file. */
function exchange({ positive, negative }: NamePair, chassis: Chassis): Replacement[] {
  const { text } = chassis.chain[0];
  const rows = [positive, negative].flatMap((point) => {
    const { uri, place, typed } = point.coordinates;
    const isOne = positive.name === negative.name || hasOnePosition(point, chassis);
    if (uri !== chassis.uri || typed === null || !isOne) return [];
    const { start, end } = offsetsOf(place);
    return [{ place, text: text.slice(start, end) }];
  });
  if (rows.length < 2) return [];
  const [first, second] = rows;
  const title = `Exchange the positions of ${positive.id} and ${negative.id}`;
  return [
    { title, place: first.place, text: second.text, also: [{ place: second.place, text: first.text }] },
  ];
}

function hasOnePosition({ name, side, coordinates }: Point, { points }: Chassis): boolean {
  const other = side === null ? undefined : points.get(`${name}.${side === 'L' ? 'R' : 'L'}`);
  return (
    other === undefined || offsetsOf(other.coordinates.place).start === offsetsOf(coordinates.place).start
  );
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
          replacements: [withSign(width)],
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

function withSign({ source, place }: TypedNumber): Replacement {
  const text = withOtherSign(source);
  return { title: `Write ${text}`, place, text };
}

const isOwn = ({ origin }: Point, { uri }: Chassis): boolean => origin.uri === uri;
