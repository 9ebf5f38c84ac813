import fc from 'fast-check';

/** Random texts in the manner of chassis and readings files, made as lines whose indentation is still to come. */
type Lines = readonly string[];

const oneOf = (...choices: string[]): fc.Arbitrary<string> => fc.constantFrom(...choices);

const number = oneOf(
  ...['1204.1', '-0.5', '0', '-0', '+3', '.5', '5.', '1e3', '1e400', '.nan', '.inf', '-.INF'],
  ...['0x1F', '0o17', '12_000', '007', '1e', '3-4'],
);
const plainText = oneOf(
  ...[
    'as received',
    'jm',
    'unreachable',
    'as-before',
    '18 kN',
    '2026-03-02',
    '2026-03-02T09:10',
    './a.chassis.yaml',
    "don't",
  ],
  ...[
    'a [b] {c}, d',
    '1,250',
    'x:y',
    'a#b',
    'ü ± 0.5°',
    'true',
    'null',
    '~',
    'yes',
    '(left)',
    '-x',
    '?x',
    ':x',
  ],
  ...['e5', '--- x', '=', '<<'],
);
const quoted = oneOf(
  ...[
    '"a: b"',
    '"x # y"',
    '"tab\\t\\u00e9 \\"q\\""',
    '""',
    '"[1, 2"',
    '"12"',
    "'it''s'",
    "''",
    "'a: b'",
    "'1'",
  ],
);
const flowWord = oneOf(
  ...[
    'floor',
    'rail-tip.L',
    'ultra-high-strength',
    '18 kN',
    'true',
    'null',
    'a b',
    '2026-01-12',
    'x:y',
    './a',
    '-x',
  ],
);
const blanks = oneOf('', ' ', '  ');

const { flow } = fc.letrec<{ flow: string; list: string; map: string; leaf: string }>((tie) => ({
  flow: fc.oneof({ maxDepth: 3 }, tie('leaf'), tie('list'), tie('map')),
  leaf: fc.oneof(number, number, flowWord, quoted),
  list: fc
    .tuple(fc.array(tie('flow'), { maxLength: 4 }), blanks, oneOf(', ', ',', ' , '), oneOf('', ','))
    .map(([items, pad, comma, last]) => `[${pad}${items.join(comma)}${items.length > 0 ? last : ''}${pad}]`),
  map: fc
    .tuple(
      fc.uniqueArray(oneOf('part', 'at', 'both', 'base', '"q k"', "'s'"), { maxLength: 3 }),
      fc.array(tie('flow'), { minLength: 3, maxLength: 3 }),
      blanks,
    )
    .map(([keys, values, pad]) => {
      const entries = keys.map((key, index) => `${key}: ${values[index]}`);
      return `{${pad}${entries.join(', ')}${pad}}`;
    }),
}));

const comment = oneOf('', '', '', '   # as found', ' # {x: [', " # it's", '  ');
const oneLine: fc.Arbitrary<Lines> = fc
  .tuple(fc.oneof(plainText, number, number, quoted, flow, flow), comment)
  .map(([value, note]) => [value + note]);

/** Values over several lines; the lines after the first are indented deeper than their key. */
const severalLines = fc.constantFrom<Lines>(
  ['a text', '  that goes on', '', '  - and not', '   further'],
  ['"quoted', '  # no comment', '', '  end"  # comment'],
  ["'single", "  it''s: on'"],
  ['[1, 2,', '  3, # third', '', '  4]'],
  ['[', '  [1, 2, 3],', '  { a: b, c: [d] },', ']'],
  ['{', '  a: 1,', '  b: "x', '    y" }'],
  ['|', '  first: line', '   # deeper', '  # not a comment', '', '  last'],
  ['>-', '  folded', '  text', '', '    more', '', ''],
  ['|+ # kept', '  kept', '', ''],
  ['|2-', '    spaces', '  less'],
);
const nothing = fc.constantFrom<Lines>([''], ['   # nothing yet']);

const gap = fc.constantFrom<Lines>(
  ...[[], [], [], [''], ['# a comment'], ['', '      # deep comment', '   '], ['    # - x: [']],
);
const key = fc
  .tuple(
    fc.oneof(
      oneOf(
        'measure',
        'rail-tip',
        'front-rail.L',
        'note',
        'as received',
        'x',
        'latch.R',
        'order W-1187',
        'null-point',
      ),
      oneOf('"quoted key"', "'it''s'", '"esc\\t"', '12', '0x1F', '<<', 'a,b', 'k]'),
      fc
        .string({ unit: oneOf('a', 'b', 'c', '-', '.', '1'), minLength: 2, maxLength: 6 })
        .map((text) => `p${text}`),
    ),
    oneOf(':', ':', ':', ' :'),
  )
  .map(([name, colon]) => ({ name, colon }));

/** `beside`: begins on the line of its key or dash; else `lines` start in column 0 and stand below. */
interface Child {
  readonly lines: Lines;
  readonly beside: boolean;
  readonly isList?: boolean;
}

const deeper = (lines: Lines, columns: number): Lines =>
  lines.map((line) => line && ' '.repeat(columns) + line);
/** What follows the colon or dash, with the blanks between only where something follows. */
const behind = (lines: Lines, space: string): Lines => {
  const [first, ...rest] = lines;
  return [first.trim() === '' || first.startsWith(' ') ? first : space + first, ...rest];
};

const { block } = fc.letrec<{ block: Child; map: Child; list: Child; child: Child }>((tie) => ({
  block: fc.oneof({ maxDepth: 3 }, tie('map'), tie('list')),
  child: fc.oneof(
    { maxDepth: 4, depthIdentifier: 'child' },
    fc.oneof(oneLine, oneLine, severalLines, nothing).map((lines) => ({ lines, beside: true })),
    tie('block'),
    fc.oneof(flow, plainText).map((text) => ({ lines: [text], beside: false })),
  ),
  map: fc
    .uniqueArray(
      fc.tuple(key, tie('child'), gap, fc.constantFrom(1, 2, 2, 4), fc.boolean(), oneOf(' ', '   ', '\t')),
      {
        minLength: 1,
        maxLength: 5,
        selector: ([{ name }]) => name.replace(/["']/g, ''),
      },
    )
    .map((entries) => ({
      beside: false,
      lines: entries.flatMap(([{ name, colon }, child, before, step, flush, space]) => {
        const head = `${name}${colon}`;
        if (child.beside) {
          const [first, ...rest] = behind(child.lines, space);
          return [...before, head + first, ...rest];
        }
        return [...before, head, ...deeper(child.lines, flush && child.isList ? 0 : step)];
      }),
    })),
  list: fc
    .array(fc.tuple(tie('child'), gap, fc.constantFrom(1, 1, 1, 3), fc.boolean()), {
      minLength: 1,
      maxLength: 4,
    })
    .map((items) => ({
      beside: false,
      isList: true,
      lines: items.flatMap(([child, before, step, ownLine]) => {
        if (child.beside) {
          const [first, ...rest] = behind(child.lines, ' ');
          return [...before, `-${first}`, ...rest];
        }
        const lines = deeper(child.lines, step + 1);
        const beginsAtOnce = /^ *[^ #]/.test(lines[0]);
        if (ownLine || !beginsAtOnce) return [...before, '-', ...lines];
        return [...before, `-${lines[0].slice(1)}`, ...lines.slice(1)];
      }),
    })),
}));

/** A sound document of block maps and lists; some with CRLF, a byte-order mark, document markers, no last line break. */
export const documentOf: fc.Arbitrary<string> = fc
  .tuple(
    block,
    oneOf('\n', '\n', '\r\n'),
    oneOf('', '', '\uFEFF'),
    oneOf('', '', '---', '# first', '--- # x'),
    fc.boolean(),
    oneOf('', '', '...'),
  )
  .map(([{ lines }, lineBreak, mark, head, closed, tail]) => {
    const all = [...(head ? [head] : []), ...lines, ...(tail ? [tail] : [])];
    return mark + all.join(lineBreak) + (closed ? lineBreak : '');
  });

const snippet = oneOf(
  ...[
    '"',
    "'",
    '[',
    ']',
    '{',
    '}',
    ':',
    ': ',
    ',',
    '- ',
    '-',
    '\n',
    '\r',
    '\t',
    ' ',
    '  ',
    '#',
    ' #',
    '&a ',
    '*a',
  ],
  ...[
    '!t ',
    '|',
    '>',
    '?',
    '? ',
    '%',
    '@',
    '\\',
    'P2',
    '\nP2\n',
    '\n  P2\n',
    '---\n',
    '\n---\n',
    '\n...\n',
    '`',
  ],
  ...['<<<<<<< ours\n', '=======\n', '\uFEFF', '\0', 'é', '\ud83d', '[1, 2, 3]', '0'],
);
type Change = (text: string, position: number, length: number, put: string) => string;

const changes: readonly Change[] = [
  (text, at, _, put) => text.slice(0, at) + put + text.slice(at),
  (text, at, _, put) => text.slice(0, at) + put + text.slice(at),
  (text, at, length) => text.slice(0, at) + text.slice(at + length),
  (text, at, length, put) => text.slice(0, at) + put + text.slice(at + length),
  (text, at) => withLine(text, at, () => []),
  (text, at, length) => withLine(text, at, (line) => [' '.repeat(length) + line]),
  (text, at) => withLine(text, at, (line) => [line.replace(/^ {1,2}/, '')]),
];
const withLine = (text: string, at: number, change: (line: string) => string[]): string => {
  const lines = text.split('\n');
  const line = at % lines.length;
  return [...lines.slice(0, line), ...change(lines[line]), ...lines.slice(line + 1)].join('\n');
};

/** A document with characters put in, taken out or exchanged, and lines taken out or shifted. */
export const mutatedText: fc.Arbitrary<string> = fc
  .tuple(
    documentOf,
    fc.array(fc.tuple(fc.nat(), fc.nat(6), snippet, fc.constantFrom(...changes)), { maxLength: 4 }),
  )
  .map(([text, steps]) =>
    steps.reduce(
      (now, [position, length, put, change]) => change(now, position % (now.length + 1), length, put),
      text,
    ),
  );
