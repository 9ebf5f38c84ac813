import type { DiffChange } from '@framewright/schemas';
import { shortList } from '../text/lists';

/** A line of what changed, in words. */
export interface Line {
  readonly text: string;
  /** What a reviewer must see: a wider limit, a reading changed after the signature, a verdict that turned bad. */
  readonly isGrave: boolean;
}

export const line = (text: string, isGrave = false): Line => ({ text, isGrave });

export const arrow = (before: string | null, after: string | null): string =>
  before === after ? (before ?? 'nothing') : `${before ?? 'nothing'} → ${after ?? 'nothing'}`;

export const changeText = ({ what, before, after }: DiffChange): string => `${what} ${arrow(before, after)}`;

export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

export const namesText = (names: readonly string[]): string => shortList(names, 12);

export const quoted = (names: readonly string[]): string => namesText(names.map((name) => `“${name}”`));
