import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import {
  applyEdits,
  commentInsertion,
  entryInsertion,
  entryReplacement,
  itemInsertion,
  plainOrQuoted,
} from './edits';
import { nodeAtPath, plainValueOf } from './plain-value';
import { documentOf } from './testing/documents';
import { entryOf, type MapNode, type Node, type SequenceNode, type TextTree, textOf } from './tree';
import { parseText } from './yaml/parse';

const job = `timeline:
  - measure: as received   # first
    readings:
      a.L: [1, 2, 3]   # low
      # b was not reached

  # later
  - pull: left rail
    force: 18 kN
`;

const mapAt = (tree: TextTree, path: (string | number)[]): MapNode =>
  nodeAtPath(tree.root, path).node as MapNode;
const inserted = (
  text: string,
  path: (string | number)[],
  key: string,
  lines: string[],
  after?: string,
): string => {
  const tree = parseText(text);
  const map = mapAt(tree, path);
  return applyEdits(text, [entryInsertion(tree, map, key, lines, after ? entryOf(map, after) : undefined)!]);
};
const replaced = (text: string, path: (string | number)[], key: string, lines: string[]): string => {
  const tree = parseText(text);
  const map = mapAt(tree, path);
  return applyEdits(text, [entryReplacement(tree, map, entryOf(map, key)!, lines)!]);
};

describe('edits', () => {
  it('are made at the offsets of the text before them', () => {
    const edits = [
      { start: 4, end: 5, text: 'E' },
      { start: 0, end: 1, text: '' },
      { start: 2, end: 2, text: '-' },
    ];
    expect(applyEdits('abcdef', edits)).toBe('b-cdEf');
    expect(() =>
      applyEdits('abc', [
        { start: 0, end: 2, text: '' },
        { start: 1, end: 3, text: '' },
      ]),
    ).toThrow('overlap');
  });
});

describe('an entry added', () => {
  it('goes below the last one, with a value of several lines', () => {
    expect(inserted(job, ['timeline', 0], 'summary', ['', 'body: fine', 'a.L twist: 1.2° ± 0.3°'])).toBe(
      job.replace('# low\n', '# low\n    summary:\n      body: fine\n      a.L twist: 1.2° ± 0.3°\n'),
    );
  });

  it('goes below a given one, behind its comment', () => {
    expect(inserted(job, ['timeline', 0], 'at', ['2026-03-02'], 'measure')).toBe(
      job.replace('# first\n', '# first\n    at: 2026-03-02\n'),
    );
  });

  it('keeps CRLF, and a missing last line break', () => {
    const text = 'a: 1\r\nb:\r\n  c: 2';
    expect(inserted(text, [], 'sign-off', ['', 'by: rk'])).toBe(
      'a: 1\r\nb:\r\n  c: 2\r\nsign-off:\r\n  by: rk',
    );
    expect(inserted(text, [], 'x', ['1'], 'a')).toBe('a: 1\r\nx: 1\r\nb:\r\n  c: 2');
  });

  it('leaves a text that keeps its blank lines as it was', () => {
    for (const text of ['a: |+\n  kept\n\n\nb: 1\n', 'a: |+\n  kept\n\n\n', 'a: |+\n  kept\n\n\n# end']) {
      expect(parse(inserted(text, [], 'n', ['2'], 'a'))).toEqual({ ...parse(text), n: 2 });
    }
  });

  it('goes into braces only where it fits on the line', () => {
    expect(inserted('a: { b: 1 }', ['a'], 'c', ['x y'])).toBe('a: { b: 1, c: x y }');
    expect(inserted('a: {}', ['a'], 'c', ['2'])).toBe('a: { c: 2 }');
    const tree = parseText('a: { b: 1 }');
    expect(entryInsertion(tree, mapAt(tree, ['a']), 'c', ['', 'd: 1'])).toBeNull();
    expect(entryInsertion(tree, mapAt(tree, ['a']), 'c', ['x, y'])).toBeNull();
  });
});

describe('an entry written anew', () => {
  it('keeps its key, its column and its comment', () => {
    expect(replaced('a:    1   # note\nb: 2', [], 'a', ['17'])).toBe('a:    17   # note\nb: 2');
    expect(replaced('"a" : 1\n', [], 'a', ['x'])).toBe('"a" : x\n');
    expect(replaced('a: { b: 1, c: 2 }', ['a'], 'b', ['3'])).toBe('a: { b: 3, c: 2 }');
  });

  it('exchanges several lines for several or one', () => {
    const text = 'm:\n  - summary:\n      body: old\n      x: y\n    at: 1\n';
    expect(replaced(text, ['m', 0], 'summary', ['', 'body: new'])).toBe(
      'm:\n  - summary:\n      body: new\n    at: 1\n',
    );
    expect(replaced(text, ['m', 0], 'summary', ['none'])).toBe('m:\n  - summary: none\n    at: 1\n');
    expect(replaced(text, ['m', 0], 'at', ['', 'z: 1'])).toBe(text.replace('at: 1', 'at:\n      z: 1'));
    expect(replaced('a:\nb: 1', [], 'a', ['2'])).toBe('a: 2\nb: 1');
  });
});

describe('comments added below the entries of a map', () => {
  const commented = (text: string): string | null => {
    const tree = parseText(text);
    const holder = mapAt(tree, ['timeline', 0]);
    const edit = commentInsertion(tree, holder, entryOf(holder, 'readings')!, ['# c:', '# d:']);
    return edit && applyEdits(text, [edit]);
  };

  it('stand below the last, whose own comment stays behind it', () => {
    expect(commented(job)).toBe(job.replace('# low\n', '# low\n      # c:\n      # d:\n'));
  });

  it('stand one step deeper where there is none yet', () => {
    const empty = 'timeline:\n  - measure: a\n    readings:   # soon\n  - note: b\n';
    expect(commented(empty)).toBe(empty.replace('# soon\n', '# soon\n      # c:\n      # d:\n'));
  });

  it('keep the line breaks of the file, and end a last line that has none', () => {
    const windows = 'timeline:\r\n  - measure: a\r\n    readings:\r\n      b: [1, 2, 3]';
    expect(commented(windows)).toBe(`${windows}\r\n      # c:\r\n      # d:`);
  });

  it('cannot stand in braces', () => {
    expect(commented('timeline:\n  - measure: a\n    readings: { b: [1, 2, 3] }\n')).toBeNull();
    expect(commented('timeline:\n  - { measure: a, readings: { b: [1, 2, 3] } }\n')).toBeNull();
  });
});

describe('a list entry added', () => {
  it('stands below the last one or a given one, its lines behind and below the dash', () => {
    const tree = parseText(job);
    const timeline = nodeAtPath(tree.root, ['timeline']).node as SequenceNode;
    const lines = ['release: all', 'note: held'];
    expect(applyEdits(job, [itemInsertion(tree, timeline, lines)!])).toBe(
      `${job.trimEnd()}\n  - release: all\n    note: held\n`,
    );
    expect(applyEdits(job, [itemInsertion(tree, timeline, lines, timeline.items[0])!])).toBe(
      job.replace('# low\n', '# low\n  - release: all\n    note: held\n'),
    );
  });
});

/** Every block map and list of a tree with the path that leads to it. */
const blocksOf = (
  node: Node | null,
  path: (string | number)[] = [],
): [(string | number)[], MapNode | SequenceNode][] => {
  if (!node || node.kind === 'scalar' || node.flow) return [];
  const below =
    node.kind === 'map'
      ? node.entries.flatMap((entry) => blocksOf(entry.value, [...path, textOf(entry.key)]))
      : node.items.flatMap((item, index) => blocksOf(item, [...path, index]));
  return [[path, node], ...below];
};

describe('whatever the file', () => {
  it('an entry added is read back, and nothing else has changed', () => {
    fc.assert(
      fc.property(documentOf, fc.nat(), fc.nat(), (text, place, position) => {
        const tree = parseText(text);
        const blocks = blocksOf(tree.root);
        if (blocks.length === 0) return;
        const [path, node] = blocks[place % blocks.length];
        const edit =
          node.kind === 'map'
            ? entryInsertion(
                tree,
                node,
                'new key',
                ['', 'x y: 1 ± 2, left', 'z: w'],
                node.entries[position % node.entries.length],
              )
            : itemInsertion(tree, node, ['pull: it', 'n: 1'], node.items[position % node.items.length]);
        expect(edit).toMatchObject({ start: edit!.end });
        const after = parseText(applyEdits(text, [edit!]));
        expect(after.problems).toEqual([]);
        const expected = structuredClone(plainValueOf(tree.root)) as Record<string, unknown>;
        let target: unknown = expected;
        for (const step of path) target = (target as Record<string | number, unknown>)[step];
        if (node.kind === 'map')
          (target as Record<string, unknown>)['new key'] = { 'x y': '1 ± 2, left', z: 'w' };
        else (target as unknown[]).splice((position % node.items.length) + 1, 0, { pull: 'it', n: 1 });
        expect(structuredClone(plainValueOf(after.root))).toEqual(expected);
      }),
      { numRuns: 300 },
    );
  });

  it('an entry written anew is read back, and nothing else has changed', () => {
    fc.assert(
      fc.property(documentOf, fc.nat(), fc.nat(), fc.boolean(), (text, place, position, several) => {
        const tree = parseText(text);
        const maps = blocksOf(tree.root).filter(([, node]) => node.kind === 'map') as [string[], MapNode][];
        if (maps.length === 0) return;
        const [path, map] = maps[place % maps.length];
        const entry = map.entries[position % map.entries.length];
        const edit = entryReplacement(tree, map, entry, several ? ['', 'z: w'] : ['word'])!;
        const after = parseText(applyEdits(text, [edit]));
        const expected = structuredClone(plainValueOf(tree.root)) as Record<string, unknown>;
        let target = expected;
        for (const step of path) target = target[step] as Record<string, unknown>;
        target[textOf(entry.key)] = several ? { z: 'w' } : 'word';
        expect(after.problems).toEqual([]);
        expect(structuredClone(plainValueOf(after.root))).toEqual(expected);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a text as a scalar', () => {
  it.each(['as received', '1.2 mm ± 0.3, left (inboard)', 'front-rail.L twist', "don't", '2026-03-02', '-x'])(
    'is plain where it can be: %s',
    (text) => expect(plainOrQuoted(text)).toBe(text),
  );
  it.each([
    '',
    '12',
    'true',
    '~',
    'a: b',
    'a #b',
    ' a',
    '- a',
    '[1]',
    '"q"',
    'a\nb',
    '---',
    '.5',
    '@x',
    'a:',
  ])('is quoted where YAML would read something else: %j', (text) =>
    expect(plainOrQuoted(text)).toBe(JSON.stringify(text)),
  );

  it('is read back as the same text, as a value, a key and between brackets', () => {
    const anyText = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: fc.constantFrom(...' :#-?,[]{}&*!|>\'"%@`\\\n\t.0xe~a'.split('')) }),
    );
    fc.assert(
      fc.property(anyText, (text) => {
        const block = plainOrQuoted(text);
        expect(parse(`k: ${block}\n`)).toEqual({ k: text });
        expect(parse(`- ${block}`)).toEqual([text]);
        if (block.length < 1000) expect([...parse(`${block}: 1`, { mapAsMap: true }).keys()]).toEqual([text]);
        const flow = plainOrQuoted(text, 'flow');
        expect(parse(`[${flow}, { ${flow}: ${flow} }]`, { mapAsMap: true })).toEqual([
          text,
          new Map([[text, text]]),
        ]);
      }),
      { numRuns: 3000 },
    );
  });
});
