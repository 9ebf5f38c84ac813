import * as fc from 'fast-check';

/** What is done to a file: at a share of its length some characters go and others come. */
interface Damage {
  readonly at: number;
  readonly removed: number;
  readonly piece: string;
}

const pieces = [
  ...['', ' ', '\n', '\r\n', '\r', ':', '- ', '[', ']', '{', '}', '"', "'", '#', '&a ', '*a', '\t', '|'],
  ...['tip', 'rail.L', '\uFEFF', '😀', '\n  - measure: x\n', 'points:\n', ' # ', ',', '7', '-', '.'],
];

/** Edits that break a file in the ways that typing does. */
export const damageOf = (most: number): fc.Arbitrary<Damage[]> =>
  fc.array(
    fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      removed: fc.nat({ max: 30 }),
      piece: fc.constantFrom(...pieces),
    }),
    { maxLength: most },
  );

export const damaged = (text: string, edits: readonly Damage[]): string =>
  edits.reduce((now, { at, removed, piece }) => {
    const start = Math.floor(at * now.length);
    return now.slice(0, start) + piece + now.slice(start + removed);
  }, text);

/** A place in a file, as a share of its length. */
export const share: fc.Arbitrary<number> = fc.double({ min: 0, max: 0.999, noNaN: true });
