import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documentOf, mutatedText } from '../testing/documents';
import { ours, theirs, theirsIfSound } from '../testing/plain-tree';
import { type Node, offsetsOf, type Place, type TextTree } from '../tree';
import { parseText } from './parse';

/** Every place of a tree with its node's children, in the order in which they were read. */
const placesOf = (tree: TextTree): Place[] => {
  const places: Place[] = tree.problems.flatMap((problem) => [
    problem.place,
    ...(problem.related ?? []).map((related) => related.place),
  ]);
  const visit = (node: Node | null): void => {
    if (!node) return;
    places.push(node.place);
    if (node.kind === 'sequence') node.items.forEach(visit);
    if (node.kind === 'map') {
      for (const entry of node.entries) {
        places.push(entry.place, entry.key.place);
        visit(entry.value);
      }
    }
  };
  visit(tree.root);
  return places;
};

/** Starts of keys and values, depth first; aliases apart they must rise with the text. */
const startsOf = (node: Node | null): number[] => {
  if (!node) return [];
  const own = offsetsOf(node.place).start;
  if (node.kind === 'scalar') return [own];
  if (node.kind === 'sequence') return [own, ...node.items.flatMap(startsOf)];
  return [
    own,
    ...node.entries.flatMap((entry) => [offsetsOf(entry.key.place).start, ...startsOf(entry.value)]),
  ];
};

describe('a text that is sound', () => {
  it('gives the values and ranges that the yaml package reads from the whole of it', () => {
    fc.assert(
      fc.property(documentOf, (text) => {
        const tree = parseText(text);
        expect(tree.problems).toEqual([]);
        expect(ours(tree.root)).toEqual(theirs(text));
      }),
      { numRuns: 300 },
    );
  }, 30_000);
});

describe('a text with anything done to it', () => {
  it('never throws, and every place lies inside it', () => {
    fc.assert(
      fc.property(mutatedText, (text) => {
        const tree = parseText(text);
        const outside = placesOf(tree)
          .map(offsetsOf)
          .filter(({ start, end }) => start < 0 || end < start || end > text.length);
        expect(outside).toEqual([]);
      }),
      { numRuns: 800 },
    );
  }, 30_000);

  it('has its values in text order, where no alias repeats an earlier one', () => {
    fc.assert(
      fc.property(mutatedText, (text) => {
        if (text.includes('*')) return;
        const starts = startsOf(parseText(text).root);
        expect(starts).toEqual([...starts].sort((a, b) => a - b));
      }),
      { numRuns: 300 },
    );
  }, 30_000);

  it('is read as the yaml package reads it, wherever that finds it sound', () => {
    let sound = 0;
    fc.assert(
      fc.property(mutatedText, (text) => {
        const expected = theirsIfSound(text);
        if (expected === undefined) return;
        const tree = parseText(text);
        if (
          tree.problems.some(
            (problem) => problem.rule === 'text/duplicate-key' || /tags|space after/.test(problem.message),
          )
        ) {
          return;
        }
        sound++;
        expect(tree.problems).toEqual([]);
        expect(ours(tree.root)).toEqual(expected);
      }),
      { numRuns: 800 },
    );
    expect(sound).toBeGreaterThan(60);
  }, 30_000);
});
