import { describe, expect, it } from 'vitest';
import { plainValueOf } from '../plain-value';
import { entryOf, type Node, offsetsOf, type TextTree } from '../tree';
import { parseText } from './parse';

const plain = (tree: TextTree): unknown => JSON.parse(JSON.stringify(plainValueOf(tree.root)));
const valuesIn = (text: string): unknown => plain(parseText(text));
/** Each problem as `rule: message @ the text under it`. */
const problemsIn = (text: string): string[] =>
  parseText(text).problems.map(({ rule, message, place }) => {
    const { start, end } = offsetsOf(place);
    return `${rule}: ${message} @ ${text.slice(start, end)}`;
  });
const at = (text: string, line: number): string => text.split('\n')[line];
const startOf = (node: Node | null | undefined): number => (node ? offsetsOf(node.place).start : -1);

const job = `framewright: readings/1
timeline:
  - measure: as received
    readings:
      floor-front.L: [1204.1, 421.0, 95.4]
      floor-front.R: [1203.8, -419.2, 94.7]
  - note: done
`;
const jobValue = {
  framewright: 'readings/1',
  timeline: [
    {
      measure: 'as received',
      readings: { 'floor-front.L': [1204.1, 421, 95.4], 'floor-front.R': [1203.8, -419.2, 94.7] },
    },
    { note: 'done' },
  ],
};

describe('a sound job', () => {
  it('becomes its values, each at its place', () => {
    const tree = parseText(job);
    expect(tree.problems).toEqual([]);
    expect(plain(tree)).toEqual(jobValue);
    const timeline = entryOf(tree.root, 'timeline')?.value;
    const first = timeline?.kind === 'sequence' ? timeline.items[0] : null;
    const row = entryOf(entryOf(first, 'readings')?.value, 'floor-front.R');
    expect(startOf(row?.value)).toBe(job.indexOf('[1203.8'));
    const { start, end } = offsetsOf(row!.place);
    expect(job.slice(start, end)).toBe('floor-front.R: [1203.8, -419.2, 94.7]');
    const whole = offsetsOf(first!.place);
    expect(job.slice(whole.start, whole.end)).toBe(
      job.slice(job.indexOf('measure'), job.indexOf('\n  - note')),
    );
  });

  it('has a block of its own for each row, which alone says where the row stands', () => {
    const rows = entryOf(entryOf(parseText('readings:\n  a: [1]\n  b: [2]').root, 'readings')?.value, 'b');
    expect(rows?.key.place.start).toBe(0);
    expect(rows?.key.place.block).toBe(rows?.value?.place.block);
    rows!.key.place.block.start += 100;
    expect(offsetsOf(rows!.value!.place).start).toBe('readings:\n  a: [1]\n  b: '.length + 100);
  });

  it('is the same behind a byte-order mark, with CRLF, with lone CR, and behind ---', () => {
    expect(valuesIn(`\uFEFF${job}`)).toEqual(jobValue);
    expect(valuesIn(job.replaceAll('\n', '\r\n'))).toEqual(jobValue);
    expect(valuesIn(job.replaceAll('\n', '\r'))).toEqual(jobValue);
    expect(valuesIn(`# a job\n---\n${job}...\n`)).toEqual(jobValue);
    expect(problemsIn(`\uFEFF---\n${job}...\n# end\n`)).toEqual([]);
  });

  it('keeps what was written beside what it means', () => {
    const tree = parseText(
      'a: 1,250.5\nb: 12_000\nc: 1e400\nd: .nan\ne: 0x1F\nf: 1250,5\ng: 2026-03-02\nh: "12"\ni: 0012',
    );
    const entries = tree.root?.kind === 'map' ? tree.root.entries : [];
    expect(
      entries.map(({ value }) =>
        value?.kind === 'scalar' ? [value.source, value.value, value.plain] : null,
      ),
    ).toEqual([
      ['1,250.5', '1,250.5', true],
      ['12_000', '12_000', true],
      ['1e400', Number.POSITIVE_INFINITY, true],
      ['.nan', Number.NaN, true],
      ['0x1F', 31, true],
      ['1250,5', '1250,5', true],
      ['2026-03-02', '2026-03-02', true],
      ['"12"', '12', false],
      ['0012', 12, true],
    ]);
    expect(tree.problems).toEqual([]);
  });

  it('is null where there is nothing but comments', () => {
    for (const text of ['', '\n\n', '# only this\n', '---\n', '\uFEFF']) {
      expect(parseText(text)).toMatchObject({ root: null, problems: [] });
    }
  });
});

describe('a slip', () => {
  it('a half-typed key is reported on its line and takes no other with it', () => {
    const text = 'points:\n  P1: [1, 2, 3]\n  P2\n  P3: [4, 5, 6]\n';
    expect(problemsIn(text)).toEqual(['text/syntax: a colon is missing after “P2” @ P2']);
    expect(valuesIn(text)).toEqual({ points: { P1: [1, 2, 3], P3: [4, 5, 6] } });
    const first = 'points:\n  P2\n  P3: [4, 5, 6]\n';
    expect(problemsIn(first)).toEqual(['text/syntax: a colon is missing after “P2” @ P2']);
    expect(valuesIn(first)).toEqual({ points: { P3: [4, 5, 6] } });
  });

  it('a key that lost its colon keeps the lines below it', () => {
    const text = 'a: 1\nreadings\n  x: [1]\nb: 2';
    expect(problemsIn(text)).toEqual(['text/syntax: a colon is missing after “readings” @ readings']);
    expect(valuesIn(text)).toEqual({ a: 1, readings: { x: [1] }, b: 2 });
  });

  it('an unclosed quote stays in its entry', () => {
    for (const quote of ['"', "'"]) {
      const text = `chassis: ${quote}a.yaml\norder: W-1\nnote: it's\n`;
      expect(problemsIn(text)).toEqual([
        `text/syntax: this quote is not closed: a ${quote} is missing @ ${quote}`,
      ]);
      expect(valuesIn(text)).toMatchObject({ order: 'W-1', note: "it's" });
    }
  });

  it('an unclosed bracket stays in its entry, and what it holds is kept', () => {
    const text = 'readings:\n  a: [1, 2, 3\n  b: [4, 5, 6]\n  c: {x: [1, 2}\n  d: 1';
    expect(problemsIn(text)).toEqual([
      'text/syntax: this bracket is not closed: a ] is missing @ [',
      'text/syntax: a ] is expected here, since a [ was opened @ }',
    ]);
    expect(valuesIn(text)).toMatchObject({ readings: { a: [1, 2, 3], b: [4, 5, 6], d: 1 } });
    expect(problemsIn('a: [1, 2]]')).toEqual(['text/syntax: a ] too many @ ]']);
    expect(problemsIn('[\na: 1\nb: 2')).toEqual([
      'text/syntax: this bracket is not closed: a ] is missing @ [',
    ]);
  });

  it('a bracket may close at the indent of its key', () => {
    const text = 'a: [\n  1,\n  2\n]\nb: 3';
    expect(problemsIn(text)).toEqual([]);
    expect(valuesIn(text)).toEqual({ a: [1, 2], b: 3 });
    expect(problemsIn('r:\n  a: [1,\n  2, 3]\n  b: 4')).toHaveLength(1);
    expect(valuesIn('r:\n  a: [1,\n  2, 3]\n  b: 4')).toMatchObject({ r: { b: 4 } });
  });

  it('a colon without its space', () => {
    expect(problemsIn('r:\n  a:[1, 2, 3]\n  b: 1')).toEqual(['text/syntax: put a space after the colon @ :']);
    expect(valuesIn('r:\n  a:[1, 2, 3]\n  b: 1')).toEqual({ r: { a: [1, 2, 3], b: 1 } });
    expect(problemsIn('r: { a:1, b: 2 }')).toEqual(['text/syntax: put a space after the colon @ :']);
    expect(problemsIn('at: 2026-03-02T09:10')).toEqual([]);
  });

  it('a tab at the start of a line', () => {
    const message = 'text/syntax: a tab at the start of the line: indent with spaces @ \t';
    expect(problemsIn('r:\n\ta: [1, 2]\n\tb: 2\nc: 3')).toEqual([message, message]);
    expect(valuesIn('r:\n\ta: [1, 2]\n\tb: 2\nc: 3')).toEqual({ r: { a: [1, 2], b: 2 }, c: 3 });
    expect(problemsIn('a: "x\n\ty"\nb: 1')).toEqual([message]);
    expect(problemsIn('a:\t1\n\t\n\t# comment\n')).toEqual([]);
    expect(problemsIn('r:\n  - a: 1\n\tb: 2\n\tc: 3\n  - d: 4')).toEqual([message]);
    expect(valuesIn('r:\n  - a: 1\n\tb: 2\n  - d: 4')).toEqual({ r: [{ a: 1 }, { d: 4 }] });
  });

  it('a line in the wrong column is read as if it stood right', () => {
    const text = 'r:\n  a: [1]\n    b: [2]\n c: [3]\n  d: [4]';
    expect(problemsIn(text)).toEqual([
      'text/syntax: this line starts in column 5, the ones beside it in column 3: align them @ b',
      'text/syntax: this line starts in column 2, the ones beside it in column 3: align them @ c',
    ]);
    expect(valuesIn(text)).toEqual({ r: { a: [1], b: [2], c: [3], d: [4] } });
  });

  it('a deeper line that is a key does not join the word above it', () => {
    const text = 'r:\n  a: word\n    b: [2]\n  c: 1';
    expect(problemsIn(text)).toEqual([
      'text/syntax: this line starts in column 5, the ones beside it in column 3: align them @ b',
    ]);
    expect(valuesIn(text)).toEqual({ r: { a: 'word', b: [2], c: 1 } });
  });

  it('an entry of a list among keys, and a key among entries', () => {
    expect(problemsIn('a: 1\n- b\n- c\nd: 2')).toEqual([
      'text/syntax: an entry of a list stands where a key is expected @ - b',
    ]);
    expect(valuesIn('a: 1\n- b\n- c\nd: 2')).toEqual({ a: 1, d: 2 });
    expect(problemsIn('- a\nb: 1\n- c')).toEqual([
      'text/syntax: an entry of a list must begin with “- ” @ b: 1',
    ]);
    expect(valuesIn('- a\nb: 1\n- c')).toEqual(['a', 'c']);
  });

  it('a second colon on one line', () => {
    expect(problemsIn('note: see: here\nb: 1')[0]).toMatch(/a second colon on one line/);
    expect(valuesIn('note: see: here\nb: 1')).toMatchObject({ b: 1 });
  });

  it('is reported once for each of many lines', () => {
    expect(problemsIn('a: [1\nb: "x\nP\nc:[1]\nd: @x\n')).toHaveLength(5);
  });
});

describe('duplicate keys', () => {
  it.each(['a: 1\nb: 2\na: 3', 'r: { a: 1, b: 2, a: 3 }', 'r: { a: 1, "b": 2, a: 3 }'])(
    'only the first counts: %s',
    (text) => {
      const tree = parseText(text);
      expect(tree.problems.map((problem) => problem.rule)).toEqual(['text/duplicate-key']);
      const [problem] = tree.problems;
      expect(offsetsOf(problem.place).start).toBe(text.lastIndexOf('a'));
      expect(offsetsOf(problem.related![0].place).start).toBe(text.indexOf('a'));
      expect(JSON.stringify(plain(tree))).toContain('"a":1,"b":2}');
    },
  );
});

describe('what is not part of the language', () => {
  it('tags', () => {
    expect(problemsIn('a: !!str 5\nb: 1')).toEqual([
      'text/syntax: tags (“!!str”) are not part of this language: remove it @ !!str',
    ]);
    expect(valuesIn('a: !x [1, 2]\nb: !y\n  c: 1')).toEqual({ a: [1, 2], b: { c: 1 } });
    expect(problemsIn('a: !x [1, 2]\nb: !y\n  c: 1')).toHaveLength(2);
  });

  it('a second document, and directives', () => {
    expect(problemsIn('a: 1\n---\nb: 2')).toEqual([
      'text/syntax: only one document in a file: nothing after this line is read @ ---',
    ]);
    expect(valuesIn('a: 1\n---\nb: 2')).toEqual({ a: 1 });
    expect(problemsIn('a: 1\n...\nb: 2')).toEqual([
      'text/syntax: only one document in a file: nothing after this line is read @ b: 2',
    ]);
    expect(problemsIn('%YAML 1.2\n---\na: 1')).toEqual([
      'text/syntax: directives (“%…”) are not part of this language: remove the line @ %YAML 1.2',
    ]);
  });

  it('a merge conflict: each marker is named, both sides are read, the first side counts', () => {
    const text = 'r:\n<<<<<<< ours\n  a: 1\n||||||| base\n  a: 0\n=======\n  a: 2\n>>>>>>> theirs\n  b: 3\n';
    expect(problemsIn(text)).toEqual(
      [1, 3, 5, 7].map((line) => `text/syntax: merge conflict left in the file @ ${at(text, line)}`),
    );
    expect(valuesIn(text)).toEqual({ r: { a: 1, b: 3 } });
  });

  it('a file that is no text, and one past 8 MB', () => {
    expect(problemsIn('PK\u0003\u0004\0\0')).toEqual([
      'text/syntax: this is not a text file @ PK\u0003\u0004\0\0',
    ]);
    expect(problemsIn('\ufffdPNG\ufffd\ufffd'.repeat(50))[0]).toMatch(/not a text file/);
    const large = parseText(`a: 1\n${' '.repeat(8 * 1024 * 1024)}`);
    expect(large.root).toBeNull();
    expect(large.problems.map((problem) => problem.rule)).toEqual(['text/too-large']);
  });
});

describe('anchors and aliases', () => {
  it('stand for the same value wherever they are written', () => {
    expect(
      valuesIn('a: &p [1, 2]\nb: *p\nc: { d: *p }\ne: &m\n  x: 1\nf: *m\ng:\n  - &s word\n  - *s'),
    ).toEqual({
      a: [1, 2],
      b: [1, 2],
      c: { d: [1, 2] },
      e: { x: 1 },
      f: { x: 1 },
      g: ['word', 'word'],
    });
    expect(valuesIn('&k a: 1\n*k : 2\nb: 3')).toEqual({ a: 1, b: 3 });
    expect(valuesIn('a: &m { x: 1 }\nb: { <<: *m, y: 2 }')).toEqual({
      a: { x: 1 },
      b: { '<<': { x: 1 }, y: 2 },
    });
  });

  it('an alias stands where it is written', () => {
    const text = 'a: &p 1\nb: *p';
    expect(startOf(entryOf(parseText(text).root, 'b')?.value)).toBe(text.indexOf('*p'));
  });

  it('are reported where they lead nowhere or into themselves', () => {
    expect(problemsIn('a: *x\nb: 1')).toEqual(['text/syntax: no anchor &x stands above this *x @ *x']);
    expect(problemsIn('a: &x\n  b: *x')).toEqual(['text/syntax: *x stands inside its own anchor &x @ *x']);
    expect(problemsIn('a: &x [1, *x]')).toEqual(['text/syntax: *x stands inside its own anchor &x @ *x']);
  });

  it('cannot blow a small file up', () => {
    const rows = ['a0: &a0 [x, x, x, x, x, x, x, x, x, x]'];
    for (let level = 1; level < 30; level++) {
      rows.push(
        `a${level}: &a${level} [${Array(10)
          .fill(`*a${level - 1}`)
          .join(', ')}]`,
      );
    }
    const tree = parseText(rows.join('\n'));
    expect(tree.problems.map((problem) => problem.rule)).toEqual(['text/too-large']);
    expect(JSON.stringify(plain(tree)).length).toBeLessThan(2_000_000);
  });
});

describe('many aliases of one large list', () => {
  it('are read up to the bound, and the bound is reported once', () => {
    const uses = (count: number) => Array.from({ length: count }, (_, index) => `u${index}: *p`).join('\n');
    const anchor = `p: &p [${Array(999).fill('1').join(', ')}]\n`;
    expect(parseText(anchor + uses(100)).problems).toEqual([]);
    const tree = parseText(anchor + uses(150));
    expect(tree.problems.map((problem) => problem.rule)).toEqual(['text/too-large']);
    expect(entryOf(tree.root, 'u99')?.value?.kind).toBe('sequence');
    expect(entryOf(tree.root, 'u100')?.value).toBeNull();
  });
});

describe('rare YAML', () => {
  it('goes to the yaml package with the map around it', () => {
    expect(valuesIn('a: 1\n? b\n: 2\nc: 3')).toEqual({ a: 1, b: 2, c: 3 });
    expect(valuesIn('{ a: 1, b: [2] }')).toEqual({ a: 1, b: [2] });
    expect(valuesIn('r:\n  a: |2\n      deep\n    less\n  b: 1')).toEqual({
      r: { a: '  deep\nless\n', b: 1 },
    });
  });

  it('a key that is no word is reported', () => {
    expect(problemsIn('a: { [1, 2]: 3 }')).toEqual(['text/syntax: a key must be a word @ [1, 2]']);
    expect(problemsIn(': 1\na: 2')).toEqual(['text/syntax: a key is missing before the colon @ : 1']);
  });

  it('a key __proto__ is a key like any other', () => {
    const value = plainValueOf(parseText('__proto__: { a: 1 }\nb: 2').root) as Record<string, unknown>;
    expect(Object.keys(value)).toEqual(['__proto__', 'b']);
  });
});

describe('a file that someone made to hurt', () => {
  const rows = (row: (index: number) => string): string =>
    `readings:\n${Array.from({ length: 10_000 }, (_, index) => row(index)).join('\n')}\n`;

  it.each([
    ['unclosed brackets', rows((index) => `  p${index}: [1204.1, 421.0, 95.4`)],
    ['unclosed quotes', rows((index) => `  p${index}: "x`)],
    ['half-typed keys', `${rows((index) => `  p${index}`)}  x: 1`],
    ['tabs', rows((index) => `\tp${index}: 1`)],
    ['one key', rows(() => '  p: [1, 2, 3]')],
  ])('is read in time, and 1000 problems are enough: 10,000 %s', (_, text) => {
    // A quadratic step would take minutes, over the limit of any test.
    const tree = parseText(text);
    expect(tree.problems).toHaveLength(1000);
  });

  it.each([
    ['brackets', '['.repeat(100_000)],
    ['braces', 'a: {b: '.repeat(20_000)],
    ['dashes', '- '.repeat(100_000)],
    ['explicit keys', '? '.repeat(20_000)],
    ['indents', Array.from({ length: 2000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
  ])('does not exhaust the stack: nested %s', (_, text) => {
    expect(parseText(text).problems.length).toBeGreaterThan(0);
  });
});
