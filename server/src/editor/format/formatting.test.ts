import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdits, type TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { documentOf, mutatedText } from '../../text/testing/documents';
import { type Node, textOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import { sampleFiles, sampleJobs, sampleSpecs } from '../testing/asked';
import { formattingEdits } from './formatting';

type Kind = 'readings' | 'chassis';
const editsOf = (kind: Kind, text: string): TextEdit[] => formattingEdits({ kind, tree: parseText(text) });
const formatted = (kind: Kind, text: string): string => applyEdits(text, editsOf(kind, text));

const job = (rows: string): string =>
  `framewright: readings/1\nchassis: m.chassis.yaml\ntimeline:\n  - measure: a\n    readings:\n${rows}`;
const rowsOf = (rows: string): string => formatted('readings', job(rows)).slice(job('').length);

describe('a table of readings', () => {
  it('has its columns aligned, numbers to the right', () => {
    expect(
      rowsOf(
        [
          '      floor-front.L: [1204.1,421.0, 95.4]   # first',
          '',
          '      # the other side',
          '      floor-front.R:   [ -3.8 , -1419.2,94.7]',
          '      latch :  unreachable',
          '      rail-tip.L:  as-before',
          '',
        ].join('\n'),
      ),
    ).toBe(
      [
        '      floor-front.L: [1204.1,   421.0, 95.4]   # first',
        '',
        '      # the other side',
        '      floor-front.R: [  -3.8, -1419.2, 94.7]',
        '      latch:         unreachable',
        '      rail-tip.L:    as-before',
        '',
      ].join('\n'),
    );
  });

  it('has a triple on one line, repeats where they stand', () => {
    expect(rowsOf('      a: [1,\n          22, 3]\n      b: [[1, 2, 3],\n          [4, 5, 66]]\n')).toBe(
      '      a: [1, 22,  3]\n      b: [[1,  2,  3],\n          [4,  5, 66]]\n',
    );
    expect(rowsOf('      a:\n        - [1,2,3]\n        - [10,2,3]\n')).toBe(
      '      a:\n        - [ 1, 2, 3]\n        - [10, 2, 3]\n',
    );
  });

  it('spreads several readings in braces over lines, and leaves one where it is', () => {
    const braces = (inner: string) => job('').replace('readings:\n', `readings: ${inner}\n`);
    expect(formatted('readings', braces('{ a: [1, 2, 3], bcd: [10,2,3] }   # both'))).toBe(
      braces('X').replace(' X', '\n      a:   [ 1, 2, 3]\n      bcd: [10, 2, 3]   # both'),
    );
    expect(formatted('readings', braces('{a: [1,2,3]}'))).toBe(braces('{ a: [1, 2, 3] }'));
    expect(formatted('readings', braces('{ a: [1, 2], bcd: [10,2,3] }'))).toBe(
      braces('{ a: [1, 2], bcd: [10,2,3] }'),
    );
  });

  it.each([
    ['decimal commas', '      a: [1204,1, 421,0, 95,4]\n'],
    ['an open bracket', '      a: [1204.1,  421.0\n'],
    ['a word', '      a:   [1204.1,  x, 95.4]\n'],
    ['a comment between', '      a: [1204.1, # really\n          421.0, 95.4]\n'],
    ['an alias', '      a:   &it [1,2,3]\n'],
  ])('leaves a broken or unusual row alone: %s', (_, row) => {
    expect(rowsOf(row)).toBe(row);
    expect(rowsOf(`${row}      b:   [1,2,3]\n`)).toContain(row.trimEnd());
  });

  it('changes only what is not in its place', () => {
    const text = job('      a: [1, 2, 3]\n      b: [4,5, 6]\n');
    expect(editsOf('readings', text)).toEqual([
      { start: text.indexOf('5'), end: text.indexOf('5'), text: ' ' },
    ]);
  });

  it('formats the lines of a range by the width of the whole', () => {
    const text = job('      a: [1,2,3]\n      bcd: [40,5,6]\n');
    const at = text.indexOf('a: [1');
    const edits = formattingEdits({ kind: 'readings', tree: parseText(text) }, { start: at, end: at });
    expect(applyEdits(text, edits)).toBe(job('      a:   [ 1, 2, 3]\n      bcd: [40,5,6]\n'));
  });
});

it('aligns distances and the points and parts of a chassis', () => {
  const spans = job('').replace('readings:', 'spans:');
  expect(formatted('readings', `${spans}      - [a.L,bcd, 99.5]\n      - [abcd.L, b,1399.7]\n`)).toBe(
    `${spans}      - [a.L,    bcd,   99.5]\n      - [abcd.L, b,   1399.7]\n`,
  );
  const sheet =
    'framewright: chassis/1\nparts:\n  floor: {steel: mild}\n  front-rail:   { sided: true,   steel: other }\npoints:\n';
  expect(
    formatted(
      'chassis',
      `${sheet}  a: {both: [1200,420, 95], part: floor}\n  bcd: { centre: [ 5, 0, 780 ], part: floor }\n`,
    ),
  ).toBe(
    `${sheet.replace('floor: {steel: mild}', 'floor:      { steel: mild }').replace('rail:   {', 'rail: {').replace('true,   ', 'true, ')}` +
      '  a:   { both: [1200, 420,  95], part: floor }\n  bcd: { centre: [   5,   0, 780], part: floor }\n',
  );
});

it.each([']}', ']', '', '}]'])('sets no blanks before a brace that is not there: closed by %j', (closed) => {
  for (const value of ['bolt ', '{ a: 1 } ']) {
    const row = `  a: {both: [1,2,3],  fixing: ${value}${closed}\n`;
    holds('chassis', `points:\n${row}  bcd: { both: [10,2,3] }\n`);
  }
});

it('takes blanks off the ends of lines, but not out of a text', () => {
  const text = 'framewright: readings/1  \norder: W-1 \t\n# c \ntechnician: |\n  j \n   \n  m\nbase: auto  ';
  expect(formatted('readings', text)).toBe(
    'framewright: readings/1\norder: W-1\n# c\ntechnician: |\n  j \n   \n  m\nbase: auto',
  );
});

it('keeps every line break: blanks between a lone CR and an LF are not taken away', () => {
  const text = 'framewright: readings/1 \r \norder: W-1 \r\n';
  const now = formatted('readings', text);
  expect(now).toBe('framewright: readings/1\r \norder: W-1\r\n');
  expect(linesOf(now).lineCount).toBe(linesOf(text).lineCount);
});

describe('the samples', () => {
  it.each([...sampleJobs, ...Object.keys(sampleSpecs)])('%s are written as they are formatted', (path) => {
    const text = sampleFiles(path)[path];
    expect(editsOf(path.includes('chassis') ? 'chassis' : 'readings', text)).toEqual([]);
  });
});

/** What a tree says, without where: values, order, and what is wrong. */
const said = (text: string): unknown => {
  const tree = parseText(text);
  const meaning = (node: Node | null): unknown => {
    if (node === null) return null;
    if (node.kind === 'scalar') return [node.value, textOf(node), node.plain];
    if (node.kind === 'sequence') return node.items.map(meaning);
    return { entries: node.entries.map(({ key, value }) => [meaning(key), meaning(value)]) };
  };
  return {
    value: meaning(tree.root),
    problems: tree.problems.map(({ rule, message }) => `${rule} ${message}`),
  };
};

const marksIn = (text: string): string => text.replace(/[\s{},]/g, '');
const commentsIn = (text: string): string[] =>
  (text.match(/(?<=^|\s)#.*$/gm) ?? []).map((each) => each.trimEnd());

function holds(kind: Kind, text: string): void {
  const edits = editsOf(kind, text);
  for (const { start, end } of edits) {
    expect(start).toBeGreaterThanOrEqual(0);
    expect(end).toBeGreaterThanOrEqual(start);
    expect(end).toBeLessThanOrEqual(text.length);
  }
  const once = applyEdits(text, edits);
  expect(formatted(kind, once)).toBe(once);
  expect(said(once)).toEqual(said(text));
  expect(marksIn(once)).toBe(marksIn(text));
  expect(commentsIn(once)).toEqual(commentsIn(text));
  const count = linesOf(text).lineCount;
  if (!/readings: \{/.test(text) && !/\[[^\]]*[\r\n]/.test(text)) expect(linesOf(once).lineCount).toBe(count);
}

describe('format twice equals once, and changes no value, comment or order', () => {
  const kinds = fc.constantFrom<Kind>('readings', 'chassis');

  it('in any sound document', () => {
    fc.assert(fc.property(kinds, documentOf, holds), { numRuns: 300 });
  });

  it('in a document with anything done to it', () => {
    fc.assert(fc.property(kinds, mutatedText, holds), { numRuns: 300 });
  });

  const pieces = fc.constantFrom(
    ' ',
    '  ',
    '\n',
    '\t',
    ',',
    '[',
    ']',
    '{',
    '}',
    '#',
    ' # x ',
    ':',
    ': ',
    '- ',
    '"',
    "'",
    '7',
    '-12.5',
    '[1,2, 3]',
    '{ a: [1,2,3], b: [4,5,6] }',
    '&a ',
    '*a',
    '|',
    '\r\n',
  );
  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    gone: fc.nat({ max: 30 }),
    piece: pieces,
  });

  it.each([...sampleJobs.filter((_, i) => i % 3 === 0), ...Object.keys(sampleSpecs)])(
    'in %s with random edits',
    (path) => {
      const kind: Kind = path.includes('chassis') ? 'chassis' : 'readings';
      const text = sampleFiles(path)[path];
      const edited = fc.array(edit, { minLength: 1, maxLength: 8 }).map((edits) =>
        edits.reduce((now, { at, gone, piece }) => {
          const start = Math.floor(at * now.length);
          return now.slice(0, start) + piece + now.slice(start + gone);
        }, text),
      );
      fc.assert(
        fc.property(edited, (now) => holds(kind, now)),
        { numRuns: 40 },
      );
    },
  );
});
