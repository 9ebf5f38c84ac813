import type { BodySide } from '../inspection/pulls/plan-hold';

const sides = [
  ['farther forward than', 'farther rearward than', 'farther forward and farther rearward than'],
  ['farther left than', 'farther right than', 'farther left and farther right than'],
  ['above', 'below', 'above and below'],
] as const;

/** Where to hold when not on the part itself: `the body farther forward than rear-rail.L`. Never "behind": behind a rear rail the car ends. */
export const bodyText = ({ axis, towards }: BodySide, name: string): string =>
  `the body ${sides[axis][towards === 'both' ? 2 : towards === 1 ? 0 : 1]} ${name}`;
