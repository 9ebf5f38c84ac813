import type { OutsidePlace } from '@framewright/schemas/wire';

interface Stop {
  readonly place: OutsidePlace;
  /** Counted from 1. */
  readonly number: number;
  /** Whether the end of the text was passed on the way. */
  readonly wrapped: boolean;
}

/** The row that comes after the cursor's line, or before it; past the last one the first again. Null where there is none. */
export const nextStop = (
  places: readonly OutsidePlace[],
  line: number,
  way: 'next' | 'previous',
): Stop | null => {
  if (places.length === 0) return null;
  const lines = places.map(({ range }) => range.start.line);
  const found =
    way === 'next' ? lines.findIndex((each) => each > line) : lines.findLastIndex((each) => each < line);
  const k = found >= 0 ? found : way === 'next' ? 0 : places.length - 1;
  return { place: places[k], number: k + 1, wrapped: found < 0 };
};

/** `2 of 5 · rail-tip-upper.L: 10.7 mm too far right (inboard)`. */
export const stopWords = ({ place, number, wrapped }: Stop, of: number, way: 'next' | 'previous'): string => {
  const again = wrapped && of > 1 ? ` (${way === 'next' ? 'from the top' : 'from the end'} again)` : '';
  return `${number} of ${of}${again} · ${place.words}`;
};
