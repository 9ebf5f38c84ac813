import type { Vec3 } from '../../geometry/vector';
import type { Place } from '../../text/tree';
import { offsetsOf } from '../../text/tree';

/** One number of a reading as it stands in the text. */
export interface WrittenNumber {
  readonly source: string;
  readonly place: Place;
}

/**
 * The numbers of a reading as they were typed, three for each repeat; null where the text at the place does not hold just those
 * (an alias, a repeat that was left out).
 * @param mm millimetres in one unit of the file
 */
export function writtenTriples(
  text: string,
  value: Place,
  triplesMm: readonly Vec3[],
  mm: number,
): WrittenNumber[][] | null {
  const { start, end } = offsetsOf(value);
  const bare = text.slice(start, end).replace(/#[^\r\n]*/g, (comment) => ' '.repeat(comment.length));
  const numbers = [...bare.matchAll(/[^\s,[\]]+/g)].map((match) => ({
    source: match[0],
    place: {
      block: value.block,
      start: value.start + match.index,
      end: value.start + match.index + match[0].length,
    },
  }));
  const expected = triplesMm.flat();
  const same = (written: WrittenNumber, i: number) =>
    Math.abs(Number(written.source) * mm - expected[i]) < 1e-6;
  if (numbers.length !== expected.length || !numbers.every(same)) return null;
  return triplesMm.map((_, i) => numbers.slice(3 * i, 3 * i + 3));
}

/** A number as typed with two neighbouring digits exchanged, by the place of the first; undefined where that changes nothing. */
export function withDigitsSwapped(source: string): (string | undefined)[] {
  const exponent = source.search(/[eE]/);
  return [...source].map((a, i) => {
    const b = source[i + 1] ?? '';
    if (!/^\d{2}$/.test(a + b) || a === b || (exponent >= 0 && i > exponent)) return undefined;
    return source.slice(0, i) + b + a + source.slice(i + 2);
  });
}

/** A number as typed with the other sign. */
export const withOtherSign = (source: string): string =>
  source.startsWith('-') ? source.slice(1) : `-${source.replace(/^\+/, '')}`;
