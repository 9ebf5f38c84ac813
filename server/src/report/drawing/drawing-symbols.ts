import type { Verdict } from '../../inspection/alignment/verdict';
import { px } from '../markup';

/**
 * The project's own symbols: what is within is a thin ring, outside a full diamond, undecided a dashed square, unjudged a cross; a
 * point out of reach is a ring with a stroke through it, one that the stage did not read a dot. They differ in shape, so that they
 * are told apart without colour.
 */
export type MarkState = Verdict | 'unreachable' | 'unread';

export const markStates: readonly MarkState[] = [
  'within',
  'outside',
  'undecided',
  'unjudged',
  'unreachable',
  'unread',
];

/** What cannot be overlooked: nothing else may cover it. */
export const isLoud = (state: MarkState): boolean => state === 'outside' || state === 'undecided';

/** Half the width of a symbol, px. */
export const symbolRadius: Record<MarkState, number> = {
  within: 2.8,
  outside: 5,
  undecided: 4.2,
  unjudged: 3.6,
  unreachable: 3.6,
  unread: 1.1,
};

const ring = (x: number, y: number, r: number): string =>
  `M${px(x - r)} ${px(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;

/** The outline of a symbol about a place, as path data. */
export function symbolPath(state: MarkState, x: number, y: number): string {
  const r = symbolRadius[state];
  const [left, right, top, bottom] = [px(x - r), px(x + r), px(y - r), px(y + r)];
  switch (state) {
    case 'outside':
      return `M${px(x)} ${top}L${right} ${px(y)}L${px(x)} ${bottom}L${left} ${px(y)}z`;
    case 'undecided':
      return `M${left} ${top}H${right}V${bottom}H${left}z`;
    case 'unjudged':
      return `M${left} ${top}L${right} ${bottom}M${right} ${top}L${left} ${bottom}`;
    case 'unreachable':
      return `${ring(x, y, r)}M${left} ${bottom}L${right} ${top}`;
    default:
      return ring(x, y, r);
  }
}

/** The corner marks about a control point of the base. */
export function basePath(x: number, y: number): string {
  const r = 6;
  const arm = 2.5;
  const corner = (sx: 1 | -1, sy: 1 | -1) =>
    `M${px(x + sx * r)} ${px(y + sy * (r - arm))}V${px(y + sy * r)}H${px(x + sx * (r - arm))}`;
  return corner(-1, -1) + corner(1, -1) + corner(1, 1) + corner(-1, 1);
}

/** The ring about the selected point. */
export const selectionPath = (x: number, y: number): string => ring(x, y, 9);

/** The ring about a reading that is provisional: outside its symbol, as a dashed outline of its own would pass for undecided. */
export const provisionalPath = (x: number, y: number): string => ring(x, y, 7);
