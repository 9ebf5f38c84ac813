import type { PlannedPart } from '../../inspection/pulls/plan';
import type { PlannedHook } from '../../inspection/pulls/plan-hooks';
import { angleWords, directionWords } from '../pull-direction';
import { stationTwistText } from '../twist-wording';

/** `rail-tip.L: left (outboard) and slightly up; square to the centreline`. */
export function hookText({ move, writtenDirection, holdsBack }: PlannedHook): string {
  const words = directionWords(writtenDirection, move.point.side);
  const way = holdsBack ? `only hold it back, ${words}` : words;
  const angles = angleWords(writtenDirection);
  return `${move.id}: ${way}${angles === '' ? '' : `; ${angles}`}`;
}

/** Two chains on a twisted part, or what one does about it; null where it is not twisted. */
export function twistText({ twist, part }: PlannedPart, hooks: readonly PlannedHook[]): string | null {
  if (twist === null || hooks.length === 0) return null;
  const turned = `twist at ${hooks[0].move.id} (${stationTwistText(twist, part.along)})`;
  return hooks.length > 1
    ? `Load ${hooks[0].move.id} and ${hooks[1].move.id} together: a couple against the ${turned}`
    : `The ${turned} is left to this one chain: see what it leaves of it before you use two`;
}
