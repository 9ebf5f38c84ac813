import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesOf } from '../lines';
import { plainValueOf } from '../plain-value';
import { offsetsOf } from '../tree';
import { parseText } from './parse';
import { structureLinesOf } from './structure';

const line = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .tuple(
        fc.constantFrom('      ', '      ', '      ', '    ', '        ', ''),
        fc.constantFrom('a', 'b.L', 'c-1'),
      )
      .map(([indent, name]) => `${indent}${name}: [1, -2.5, 3]`),
  },
  fc.constantFrom(
    '      a: [1, 2]',
    '      a: [1, 2, 3] # twice',
    '\t a: [1, 2, 3]',
    '        goes on',
    '      ]',
    '      - a: [1, 2, 3]',
    '      # remark',
    '',
    '    note: |',
    '    note: "over',
    '      two lines"',
    '    list: [',
    '  - measure: again',
    '    readings:',
    '&x',
  ),
);

/** Values, without blanks behind brackets, and what is said at which line and character. */
const readOf = (text: string): unknown => {
  const { root, problems } = parseText(text);
  const at = problems.map(({ rule, message, place }) => ({
    rule,
    message,
    at: linesOf(text).positionAt(offsetsOf(place).start),
  }));
  return { value: JSON.stringify(plainValueOf(root)).replaceAll('] ', ']'), at };
};

describe('rows below each other', () => {
  it('are one line but for the last', () => {
    const text = '  a: [1, 2, 3]\n  b: [1, 2, 3]\r\n  c: [1, 2, 3]\n c: [1, 2, 3]\n';
    const { start, content, end, rows, count } = structureLinesOf(text, 0, text.length);
    expect([...rows].map(([at, each]) => [at, ...each.map(({ name }) => name)])).toEqual([[0, 'a', 'b']]);
    expect(start).toEqual([
      0,
      text.indexOf('  c'),
      text.indexOf(' c: [1, 2, 3]\n', 40),
      text.length,
      text.length,
    ]);
    expect(text.slice(content[0], end[0])).toBe('a: [1, 2, 3]');
    expect(count).toBe(4);
  });

  it('read like rows that are read one by one, wherever they stand', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 14 }), fc.constantFrom('\n', '\r\n'), (lines, lineBreak) => {
        const text = ['timeline:', '  - measure: first', '    readings:', ...lines, ''].join(lineBreak);
        // a row with a blank behind it is a line by itself
        expect(readOf(text)).toEqual(readOf(text.replace(/\](?=\r?\n)/g, '] ')));
      }),
      { numRuns: 2000 },
    );
  }, 30_000);
});
