import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documentOf } from '../testing/documents';
import { ours, theirs } from '../testing/plain-tree';
import { offsetsOf, type Place, type TextTree } from '../tree';
import { cutsAfter, cutsOf } from './cuts';
import { parseText } from './parse';

/** A tree with absolute offsets, so that two can be compared. */
const plain = (tree: TextTree): unknown => {
  const absolute = (_key: string, value: unknown): unknown =>
    typeof value === 'object' && value !== null && 'block' in value ? offsetsOf(value as Place) : value;
  return JSON.parse(JSON.stringify({ root: tree.root, problems: tree.problems }, absolute));
};

const row = fc
  .tuple(
    fc.constantFrom('floor-front.L', 'rail-tip-upper.R', 'latch', 'strut-top.L'),
    fc.integer({ min: -9999, max: 9999 }),
  )
  .map(([id, n]) => `      ${id}: [${n / 10}, 420, 95.4]`);

const entry = fc.oneof(
  fc
    .tuple(fc.constantFrom('as received', 'after', '"quoted: title"'), fc.array(row, { maxLength: 4 }))
    .map(([title, rows]) =>
      [`  - measure: ${title}`, '    at: 2026-03-02', '    readings:', ...rows].join('\n'),
    ),
  fc.constantFrom(
    '  - release: all',
    '  # a remark between\n  - note: |\n      two lines\n      of text',
    '  - pull: left\n    part: front-rail.L\n    chains:\n      - { hook: rail-tip-lower.L, direction: [0.2,\n          -1, 0] }',
    '  - note: "over\n      two lines"',
  ),
);

const job = fc
  .tuple(
    fc.constantFrom('', '', '# remark\n\n'),
    fc.array(
      fc.constantFrom('order: W-1', 'base: auto', '# remark', '', 'scope: [a,\n  b]', 'base: [\n  a\n]'),
      { maxLength: 4 },
    ),
    fc.array(entry, { maxLength: 5 }),
    fc.boolean(),
  )
  .map(([lead, head, entries, crlf]) => {
    const text = [
      `${lead}framewright: readings/1`,
      ...new Set(head),
      'timeline:',
      ...entries,
      'sign-off: { by: rk }',
      '',
    ].join('\n');
    return crlf ? text.replaceAll('\n', '\r\n') : text;
  });

/** What a person or an editor does: characters typed and taken away, lines moved, pieces pasted. */
const edit = fc.record({
  at: fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000),
  removed: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 60 })),
  added: fc.oneof(
    fc.constantFrom(
      '',
      '7',
      '\n',
      '\n  - ',
      ': ',
      '[',
      ']',
      '"',
      "'",
      '#',
      '&a ',
      '*a',
      '- ',
      '\nbase: auto\n',
      '\n<<<<<<< ours\n',
      '\t',
      '  ',
      '---\n',
      '\r',
      '|',
    ),
    row.map((text) => `\n${text}\n`),
    entry.map((text) => `\n${text}\n`),
  ),
});

describe('a text read again after an edit', () => {
  it('is the same as read from scratch, problems and ranges included, edit after edit', () => {
    let reused = 0;
    fc.assert(
      fc.property(job, fc.array(edit, { minLength: 1, maxLength: 8 }), (start, edits) => {
        let text = start;
        let tree = parseText(text);
        for (const { at, removed, added } of edits) {
          const from = Math.floor(at * (text.length + 1));
          text = text.slice(0, from) + added + text.slice(from + removed);
          const before = new Set(tree.root?.kind === 'map' ? tree.root.entries : []);
          tree = parseText(text, tree);
          if (tree.root?.kind === 'map' && tree.root.entries.some((each) => before.has(each))) reused++;
          expect(plain(tree)).toEqual(plain(parseText(text)));
        }
      }),
      { numRuns: 500 },
    );
    expect(reused).toBeGreaterThan(500);
  }, 60_000);

  it('is cut as from scratch, where the last cuts are used', () => {
    let used = 0;
    fc.assert(
      fc.property(job, fc.array(edit, { minLength: 1, maxLength: 8 }), (start, edits) => {
        let text = start;
        for (const { at, removed, added } of edits) {
          const old = (cutsOf(text) ?? []).map((cut) => ({ ...cut, text: text.slice(cut.start, cut.end) }));
          const from = Math.floor(at * (text.length + 1));
          text = text.slice(0, from) + added + text.slice(from + removed);
          const after = cutsAfter(text, old);
          if (after === null) continue;
          used++;
          expect(after.cuts).toEqual(cutsOf(text));
        }
      }),
      { numRuns: 3000 },
    );
    expect(used).toBeGreaterThan(3000);
  }, 60_000);

  describe('keeps the nodes of the entries that the edit did not touch:', () => {
    const text = 'framewright: readings/1\ntimeline:\n  - note: one\n  - note: two\n  - note: three\n';
    const items = (tree: TextTree) => {
      const list =
        tree.root?.kind === 'map'
          ? tree.root.entries.find(({ value }) => value !== null && value.kind === 'sequence')?.value
          : null;
      return list?.kind === 'sequence' ? list.items : [];
    };
    /** For each entry after the edit, which of those before it is the same. */
    const taken = (edited: string): number[] => {
      const before = parseText(text);
      const nodes = items(before);
      const after = parseText(edited, before);
      expect(plain(after)).toEqual(plain(parseText(edited)));
      return items(after).map((item) => nodes.indexOf(item));
    };

    it('one that is changed', () => {
      expect(taken(text.replace('two', 'a longer one'))).toEqual([0, -1, 2]);
    });

    it('one more at the end, in the middle and at the beginning', () => {
      expect(taken(`${text}  - note: four\n`)).toEqual([0, 1, 2, -1]);
      expect(taken(text.replace('  - note: two', '  - note: new\n  - note: two'))).toEqual([0, -1, 1, 2]);
      expect(taken(text.replace('  - note: one', '  - note: new\n  - note: one'))).toEqual([-1, 0, 1, 2]);
    });

    it('a copy, which is not the same entry', () => {
      expect(taken(`${text}  - note: three\n`)).toEqual([0, 1, 2, -1]);
      expect(taken(text.replace('  - note: one', '  - note: one\n  - note: one'))).toEqual([0, -1, 1, 2]);
    });

    it('one less', () => {
      expect(taken(text.replace('  - note: two\n', ''))).toEqual([0, 2]);
    });

    it('a remark, and a key, above them', () => {
      expect(taken(text.replace('timeline', '# seen\ntimeline'))).toEqual([0, 1, 2]);
      expect(taken(text.replace('timeline', 'order: W-1\ntimeline'))).toEqual([0, 1, 2]);
    });
  });

  it('of a sound text is what the yaml package reads', () => {
    fc.assert(
      fc.property(documentOf, documentOf, (first, second) => {
        const tree = parseText(second, parseText(first));
        expect(tree.problems).toEqual([]);
        expect(ours(tree.root)).toEqual(theirs(second));
      }),
      { numRuns: 100 },
    );
  }, 30_000);
});
