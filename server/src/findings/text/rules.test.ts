import { describe, expect, it } from 'vitest';
import { found } from '../testing/kit';
import { bodyFiles, expectNothingSaid, jobOfEntry, jobOfRow, jobWith, saidOf } from '../testing/text-jobs';

const sound = jobWith(
  'order: W-1187\nscope: [front-rail, apron.L]\nanchors: [floor-front, floor-rear]',
  `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      latch: unreachable
    spans:
      - [rail-tip-lower.L, strut-top.R, 1399.7]
  - pull: left rail to the right
    part: front-rail.L
    hook: rail-tip-lower.L
    direction: [0.2, -1, 0]
    hold: [{ part: front-rail.L, at: 1900 }, floor-front.L]
  - release: all
  - note: waiting for parts
`,
);

it('of a sound job nothing is said', () => expectNothingSaid(sound));

describe('text/syntax', () => {
  it('marks the bracket that is not closed, and reads on', () =>
    found(
      'text/',
      bodyFiles(
        jobWith(
          '',
          `  - measure: as received
    readings:
      rail-tip-lower.L: [2998.4, 450.1, 211.0
#                       ^ error: text/syntax a ] is missing
      strut-top.L: [2250, 561]
#                  ^^^^^^^^^^^ error: text/wrong-type two numbers
`,
        ),
      ),
    ));

  it('marks a key that is half typed', () =>
    found(
      'text/',
      bodyFiles(
        jobWith(
          '',
          `  - measure: as received
    readings:
      rail-tip
#     ^^^^^^^^ error: text/syntax a colon is missing after “rail-tip”
      strut-top.L: [2250, 561, 830]
`,
        ),
      ),
    ));

  it('contains a quote that is not closed', () =>
    found(
      'text/',
      bodyFiles(
        jobWith(
          'order: "W-1187\n#      ^ error: text/syntax this quote is not closed\ntechnician: jm',
          '  - measure: a\n    set-up: smae\n#           ^^^^ error: text/wrong-type did you mean same?\n',
        ),
      ),
    ));

  it.each([
    ['<<<<<<< HEAD', 'merge conflict left in the file'],
    ['---', 'only one document in a file'],
  ])('knows %j', async (line, message) => {
    const said = await saidOf(`${sound.trimEnd()}\n${line}\n`);
    expect(said.map(({ rule }) => rule)).toEqual(['text/syntax']);
    expect(said[0].message).toContain(message);
  });

  it('tells a tab, and nothing of what it put out of place', async () => {
    const said = await saidOf(sound.replace('      latch', '\t\tlatch'));
    expect(said.map(({ rule, message }) => [rule, message])).toEqual([
      ['text/syntax', 'a tab at the start of the line: indent with spaces'],
    ]);
  });

  it('is said of a picture, once', async () => {
    const said = await saidOf('\x89PNG\r\n\0\0\0\rIHDR');
    expect(said.map(({ rule, message }) => [rule, message])).toEqual([
      ['text/syntax', 'this is not a text file'],
    ]);
  });

  it('says once what is wrong with a value that cannot be read', async () => {
    for (const value of ['"1204.1', '[1204.1, "421, 95]', '[1204.1, , 95]'])
      expect((await saidOf(jobOfRow(value))).map(({ rule }) => rule)).toEqual(['text/syntax']);
  });
});

describe('text/unknown-key', () => {
  it('marks the key', () =>
    found(
      'text/unknown-key',
      bodyFiles(
        jobWith(
          'odrer: W-1187\n#<^^^ error: text/unknown-key did you mean `order`?',
          '  - measure: a\n    setup: same\n#   ^^^^^ error: text/unknown-key did you mean `set-up`?\n',
        ),
      ),
    ));
});

describe('text/wrong-type', () => {
  it('marks the value', () =>
    found(
      'text/wrong-type',
      bodyFiles(
        jobWith(
          'units: inches\n#      ^^^^^^ error: text/wrong-type did you mean inch?',
          '  - note: [a]\n#         ^^^ error: text/wrong-type a text\n',
        ),
      ),
    ));
});

describe('text/missing-key', () => {
  it('marks what is short of it', () =>
    found(
      'text/missing-key',
      bodyFiles(
        jobWith('', '  - section: front-rail.R\n#   ^^^^^^^ error: text/missing-key `section` needs `at`\n'),
      ),
    ));

  it('marks the first key of a file', () =>
    found(
      'text/missing-key',
      bodyFiles(
        'framewright: readings/1\n#<^^^^^^^^^ error: text/missing-key this file needs `timeline`\nchassis: marten.chassis.yaml\n',
      ),
    ));

  it('offers the first line, once, to a file that holds nothing', async () => {
    for (const text of ['', '\n', '# to be typed\n', '\uFEFF'])
      expect(await saidOf(text)).toEqual([
        {
          rule: 'text/missing-key',
          at: '',
          message: 'this file is empty: it begins with `framewright: readings/1`',
          fixes: ['framewright: readings/1\n'],
        },
      ]);
  });

  it('waits while the text cannot be read: the key may stand there', async () => {
    const said = await saidOf(jobOfEntry('section: front-rail.R\nat'));
    expect(said.map(({ rule }) => rule)).toEqual(['text/syntax']);
  });

  it('is not said of a key that is only mistyped', async () => {
    const said = await saidOf(sound.replace('chassis:', 'chasis:'));
    expect(said.map(({ rule, fixes }) => [rule, fixes])).toEqual([['text/unknown-key', ['chassis']]]);
  });
});

describe('text/duplicate-key', () => {
  it('marks the second; the first counts', () =>
    found(
      'text/',
      bodyFiles(
        jobWith(
          '',
          `  - measure: as received
    readings:
      rail-tip-lower.L: [2998.4, 450.1, 211.0]
      rail-tip-lower.L: [2990.2, 441.7, 349.8]
#     ^^^^^^^^^^^^^^^^ error: text/duplicate-key a second time; the first one counts
`,
        ),
      ),
    ));
});

describe('text/too-large', () => {
  it('is said of a file past 8 MB, and of nothing in it', async () => {
    const said = await saidOf(`${sound}# ${'x'.repeat(8 * 1024 * 1024)}\n`);
    expect(said.map(({ rule, message }) => [rule, message])).toEqual([
      ['text/too-large', 'the file is larger than 8 MB'],
    ]);
  });

  it('is said of aliases that would blow up', async () => {
    const bomb = ['a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]'];
    for (const [name, of] of ['ba', 'cb', 'dc', 'ed', 'fe'])
      bomb.push(`${name}: &${name} [${Array(10).fill(`*${of}`).join(', ')}]`);
    const said = await saidOf(`${bomb.join('\n')}\n${sound}`);
    expect(said.filter(({ rule }) => rule === 'text/too-large')).toHaveLength(1);
    expect(said.filter(({ rule }) => rule !== 'text/too-large').map(({ at }) => at)).toEqual([
      'a',
      'b',
      'c',
      'd',
      'e',
      'f',
    ]);
  });
});

describe('a file of another kind', () => {
  it('is told apart by its first line, and nothing else is said of it', async () => {
    const said = await saidOf(
      'framewright: chassis/1\nvehicle: Marten\npoints:\n  latch: { centre: [1, 2, 3] }\n',
    );
    expect(said).toEqual([
      {
        rule: 'text/wrong-type',
        at: 'chassis/1',
        message: expect.stringContaining('by its name it is a readings file'),
        fixes: [],
      },
    ]);
  });

  it('of a newer version is not “corrected”, and nothing in it is called wrong', async () => {
    const later = sound.replace('readings/1', 'readings/2');
    const said = await saidOf(`${later}\nfutureKey: 1\nunits: cubits\n`);
    expect(said).toEqual(await saidOf(later));
    expect(said).toEqual([
      {
        rule: 'text/wrong-type',
        at: 'readings/2',
        message:
          'written for a newer Framewright: this file says readings/2, and version 0.2 reads readings/1. Nothing is concluded from it; use a newer Framewright',
        fixes: [],
      },
    ]);
  });

  it.each(['fram', '- a\n- b\n', '12'])('that has no keys: %j', async (text) => {
    const said = await saidOf(text);
    expect(said).toEqual([
      expect.objectContaining({
        rule: 'text/wrong-type',
        message: expect.stringContaining('keys and values'),
      }),
    ]);
  });
});
