import type { NamePair, Reversal } from '../inspection/frame/name-pairs';
import type { AxesOrder } from '../inspection/job/axes-order';
import type { Chassis } from '../model/chassis';
import { turnedRound } from '../model/sheet-axes';
import { axisNames, listPhrase, shortList } from './wording';

const behindWords = { 0: 'behind', 1: 'to the right of', 2: 'below' } as const;

/** `floor-front stands behind floor-rear`. */
export const pairText = ({ axis, positive, negative }: NamePair): string =>
  positive.name === negative.name
    ? `${positive.id} stands ${behindWords[axis]} ${negative.id}`
    : `${positive.name} stands ${behindWords[axis]} ${negative.name}`;

/** Why the order of the numbers is another, and what to write. */
export function orderText({ mended, tooWide, pairs }: AxesOrder): string {
  const named = pairs
    .slice(0, 2)
    .map(
      ({ names, says, differ }) => `${names} differ in ${axisNames[differ]} and not in ${axisNames[says]}`,
    );
  const wide =
    tooWide.length < 2
      ? []
      : [
          `${shortList(
            tooWide.map(({ name }) => name),
            3,
          )} would stand farther out than any car is wide`,
        ];
  return `the numbers stand in another order than the file says: ${listPhrase([...named, ...wide])}. See the sheet, then write \`axes: [${mended.join(', ')}]\`.`;
}

/** What is wrong and what to write. */
export function reversalText(
  { axis, pairs }: Extract<Reversal, { kind: 'axis' }>,
  { axes }: Pick<Chassis, 'axes'>,
): string {
  const shown = pairs.slice(0, 3).map(pairText);
  const rest = pairs.length > 3 ? [`${pairs.length - 3} more pairs are so`] : [];
  const mended = turnedRound(axes, axis);
  const fix = mended === null ? 'look at the signs' : `write \`axes: [${mended.join(', ')}]\``;
  return `by their names ${listPhrase([...shown, ...rest])}: the sheet counts ${axisNames[axis]} the other way. See the sheet, then ${fix}.`;
}
