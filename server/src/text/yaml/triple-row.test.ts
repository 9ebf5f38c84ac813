import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ParseState } from '../parse-state';
import { ours } from '../testing/plain-tree';
import type { MapEntry, Node } from '../tree';
import { denseValue } from './dense';
import { parseText } from './parse';
import { TripleRow, tripleRow } from './triple-row';

const tenths = (count: number): string => (count / 10).toFixed(1);

/** The entries below `rows:`, of which the line is the only one but for a first. */
function entriesWith(line: string, below = ''): readonly MapEntry[] {
  const text = `rows:\n  first: 1\n  ${line}${below}\n`;
  const root = parseText(text).root;
  const rows = root?.kind === 'map' ? root.entries[0].value : null;
  return rows?.kind === 'map' ? rows.entries.slice(1) : [];
}

const sourcesOf = (node: Node | null): string[] =>
  node?.kind === 'sequence' ? node.items.flatMap(sourcesOf) : node?.kind === 'scalar' ? [node.source] : [];

describe('a row of three numbers', () => {
  it.each([
    'rail-tip-upper.L: [3012, 452, 352]',
    'rail-tip-upper.L:   [-3012.25,452.0,   0.5]   # twice',
    'true: [007, -0, 999999999999999]',
  ])('in the plainest writing is kept as numbers: %s', (line) =>
    expect(entriesWith(line)[0]).toBeInstanceOf(TripleRow),
  );

  it.each([
    'p: [1, 2]',
    'p: [1, 2, 3, 4]',
    'p: [1, 2, 3',
    'p: [1, 2, 3,]',
    'p: [1, 2, 3]x',
    'p: [1, 2, 3]#x',
    'p: [1., 2, 3]',
    'p: [.5, 2, 3]',
    'p: [+1, 2, 3]',
    'p: [1e3, 2, 3]',
    'p: [0x1F, 2, 3]',
    'p: [1 , 2, 3]',
    'p: ["1", 2, 3]',
    'p: [1\t, 2, 3]',
    'p:[1, 2, 3]',
    '"p": [1, 2, 3]',
    'p q: [1, 2, 3]',
    '7p: [1, 2, 3]',
    'p: [1234567890123456, 2, 3]',
  ])('in any other writing is read in the general way: %s', (line) =>
    expect(entriesWith(line).some((entry) => entry instanceof TripleRow)).toBe(false),
  );

  it('that goes on below is not one', () => {
    expect(entriesWith('p: [1, 2, 3]', '\n    x')[0]).not.toBeInstanceOf(TripleRow);
    expect(entriesWith('p: [1, 2, 3]', '\n  ]')[0]).not.toBeInstanceOf(TripleRow);
    expect(entriesWith('p: [1, 2, 3]', '\n\n    # x\n  q: 1')[0]).toBeInstanceOf(TripleRow);
  });

  it('has the nodes, values, sources and places that the general way reads', () => {
    const number = fc.oneof(
      fc.double({ min: -1e7, max: 1e7, noNaN: true }).map((value) => value.toFixed(3)),
      fc.integer({ min: -5000, max: 5000 }).map(String),
      fc.constantFrom(
        '-0',
        '00.10',
        '0.1',
        '9007199254740993',
        '123456789.123456',
        '1.',
        '-',
        '.5',
        '1e2',
        '',
      ),
    );
    const plain = fc.oneof(
      { weight: 15, arbitrary: fc.integer({ min: -90_000, max: 90_000 }).map(tenths) },
      number,
    );
    const gap = fc.constantFrom(...Array.from({ length: 8 }, () => ' '), '', '  ', '\t');
    const name = fc.constantFrom('rail-tip.L', 'a', 'null', 'true', 'p.2', 'A-1', 'x_y', '-a', 'é');
    const line = fc
      .tuple(
        name,
        gap,
        fc.array(fc.tuple(gap, plain), { minLength: 3, maxLength: 3 }),
        fc.constantFrom('', '', '', ' '),
        gap,
      )
      .map(
        ([id, behindColon, numbers, inside, after]) =>
          `${id}:${behindColon}[${numbers.map((each) => each.join('')).join(',')}${inside}]${after}`,
      );
    let rows = 0;
    fc.assert(
      fc.property(line, fc.constantFrom('', '', '', '# x', ' # x', 'x', ']'), (written, rest) => {
        const text = written + rest;
        const row = tripleRow(text, 0, text.length);
        if (row === null) return;
        rows++;
        const block = { start: 0 };
        const value = denseValue(new ParseState(text, []), text.indexOf('['), text.length, block);
        expect(ours(row.value)).toEqual(ours(value));
        expect(sourcesOf(row.value)).toEqual(sourcesOf(value));
        expect(
          value?.kind === 'sequence' && value.items.map((item) => item.kind === 'scalar' && item.value),
        ).toEqual([...row.triple]);
        const key = denseValue(new ParseState(row.name, []), 0, row.name.length, block);
        expect(ours(row.key)).toEqual(ours(key));
        expect(row.key.source).toBe(row.name);
        expect([row.place.start, row.place.end]).toEqual([0, text.indexOf(']') + 1]);
      }),
      { numRuns: 10_000 },
    );
    expect(rows).toBeGreaterThan(300);
  });
});
