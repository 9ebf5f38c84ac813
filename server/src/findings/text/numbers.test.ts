import { describe, expect, it } from 'vitest';
import { bodyWith, expectNothingSaid, jobOfEntry, jobOfRow, jobWith, saidOf } from '../testing/text-jobs';

/** What is typed, what part of it is marked, a piece of the message, the fixes. */
type Case = [typed: string, at: string, says: string, ...fixes: string[]];

const whatAReadingIs = 'a reading is three numbers, a list of such repeats, unreachable or as-before';

describe('a row of three numbers', () => {
  const cases: Case[] = [
    [
      '[1,250.5, 420, 95]',
      '[1,250.5, 420, 95]',
      'four numbers where three belong: commas between thousands?',
      '[1250.5, 420, 95]',
    ],
    [
      '[1204,1, 421,0, 95,4]',
      '[1204,1, 421,0, 95,4]',
      'six numbers where three belong: decimal commas?',
      '[1204.1, 421.0, 95.4]',
    ],
    ['[1204,1, -421,0, 95,4]', '[1204,1, -421,0, 95,4]', 'decimal commas?', '[1204.1, -421.0, 95.4]'],
    ['[1.204,1, 421,0, 95,4]', '[1.204,1, 421,0, 95,4]', 'decimal commas?', '[1204.1, 421.0, 95.4]'],
    ['[1204,1, 421, 95]', '[1204,1, 421, 95]', 'four numbers where three belong'],
    ['[1,250, 420, 95]', '[1,250, 420, 95]', '(a decimal comma?)'],
    ['[1.204,5, 421.0, 95.4]', '[1.204,5, 421.0, 95.4]', '(a decimal comma?)'],
    ['[12_000, 1, 2]', '12_000', '12_000 has underscores: write 12000', '12000'],
    ['[1e400, 1, 2]', '1e400', '1e400 is too large a number'],
    ['[1e9, 1, 2]', '1e9', 'too large'],
    ['[.nan, 1, 2]', '.nan', '.nan is not a number: write unreachable for a point that could not be read'],
    ['[-.inf, 1, 2]', '-.inf', '-.inf is infinite'],
    ['[0x1F, 1, 2]', '0x1F', '0x1F is not a decimal number: if 31 is meant, write that', '31'],
    ['[0o17, 1, 2]', '0o17', 'if 15 is meant', '15'],
    ['[2026-03-02, 1, 2]', '2026-03-02', '2026-03-02 is a date where a number belongs'],
    ['[09:10, 1, 2]', '09:10', '09:10 is a time where a number belongs'],
    ['["1204.1", 2, 3]', '"1204.1"', 'is text: a number stands without quotes', '1204.1'],
    ['[12O4.1, 2, 3]', '12O4.1', 'a letter among its digits', '1204.1'],
    ['[−12.5, 2, 3]', '−12.5', 'a dash for a minus sign', '-12.5'],
    ['[1204.1mm, 2, 3]', '1204.1mm', "lengths are plain numbers in the file's unit"],
    ['[1 204.1, 2, 3]', '1 204.1', 'gaps between thousands', '1204.1'],
    ['[~, 1, 2]', '~', 'a number is missing here'],
    ['[about 12, 1, 2]', 'about 12', 'about 12 is not a number'],
    ['[{ x: 1 }, 1, 2]', '{ x: 1 }', 'a map stands where one number belongs'],
    [
      '1204.1, 421.0, 95.4',
      '1204.1, 421.0, 95.4',
      'three numbers stand in brackets',
      '[1204.1, 421.0, 95.4]',
    ],
    [
      '1204.1, 421.0, 95.4]',
      '1204.1, 421.0, 95.4]',
      'three numbers stand in brackets',
      '[1204.1, 421.0, 95.4]',
    ],
    ['[1204.1 421 95]', '[1204.1 421 95]', 'commas stand between', '[1204.1, 421, 95]'],
    ['[1204.1; 421; 95]', '[1204.1; 421; 95]', 'commas stand between', '[1204.1, 421, 95]'],
    ['[1204.1, 421.0]', '[1204.1, 421.0]', `two numbers where three belong: ${whatAReadingIs}`],
    ['[]', '[]', 'no numbers where three belong'],
    ['1204.1', '1204.1', `1204.1 stands where three numbers belong: ${whatAReadingIs}`],
    ['', 'rail-tip-lower.L', `nothing is given for rail-tip-lower.L: ${whatAReadingIs}`],
    ['~', 'rail-tip-lower.L', 'nothing is given for rail-tip-lower.L'],
    ['unreachble', 'unreachble', 'did you mean unreachable?', 'unreachable'],
    ['n/a', 'n/a', 'n/a stands where three numbers belong'],
    ['true', 'true', 'true stands where three numbers belong'],
    ['{ x: 1 }', '{ x: 1 }', whatAReadingIs],
    ['[[1, 2, 3], [4, 5]]', '[4, 5]', 'two numbers where three belong: one of the repeats'],
  ];
  it.each(cases)('%s', async (typed, at, says, ...fixes) => {
    const said = await saidOf(jobOfRow(typed));
    expect(said).toEqual([{ rule: 'text/wrong-type', at, message: expect.stringContaining(says), fixes }]);
  });

  it.each([
    '[1204.1, 421.0, 95.4]',
    '[-1204, +42, .5]',
    '[1.2e3, 0, 5.]',
    '[[1, 2, 3], [1, 2, 3.1]]',
    'unreachable',
    '"unreachable"',
  ])('%s is one', (typed) => expectNothingSaid(jobOfRow(typed)));

  it('reads alike in a chassis file', async () => {
    const said = await saidOf(bodyWith('cowl: { centre: [1204,1, 421,0, 95,4] }'), 'w.chassis.yaml');
    expect(said.map(({ at, fixes }) => [at, fixes])).toEqual([
      ['[1204,1, 421,0, 95,4]', ['[1204.1, 421.0, 95.4]']],
    ]);
  });

  it('is told of with Windows line ends and a byte-order mark, at its place', async () => {
    const said = await saidOf(`\uFEFF${jobOfRow('[1204,1, 421,0, 95,4]').replaceAll('\n', '\r\n')}`);
    expect(said.map(({ at }) => at)).toEqual(['[1204,1, 421,0, 95,4]']);
  });
});

describe('a distance between two points', () => {
  const span = (typed: string) => jobOfEntry(`measure: as received\nspans:\n  - ${typed}`);
  const cases: Case[] = [
    [
      '[rail-tip-lower.L, strut-top.R, 1399,7]',
      '[rail-tip-lower.L, strut-top.R, 1399,7]',
      'a comma inside the distance?',
      '[rail-tip-lower.L, strut-top.R, 1399.7]',
    ],
    [
      '[rail-tip-lower.L, strut-top.R, 1,399.7]',
      '[rail-tip-lower.L, strut-top.R, 1,399.7]',
      'a comma inside the distance?',
      '[rail-tip-lower.L, strut-top.R, 1399.7]',
    ],
    [
      '[latch, strut-top.R, 1,399]',
      '[latch, strut-top.R, 1,399]',
      'a comma',
      '[latch, strut-top.R, 1399]',
      '[latch, strut-top.R, 1.399]',
    ],
    [
      '[rail-tip-lower.L, strut-top.R]',
      '[rail-tip-lower.L, strut-top.R]',
      'a span is [point, point, distance]',
    ],
    ['[latch, strut-top.R, -3]', '-3', 'a distance is more than 0, not -3'],
    ['[latch, strut-top.R, .inf]', '.inf', 'infinite'],
    ['[latch, strut-top.R, unreachble]', 'unreachble', 'did you mean unreachable?', 'unreachable'],
    ['[latch, strut-top.R, []]', '[]', 'the list of repeats is empty'],
    ['[latch, [1], 3]', '[1]', 'a point belongs here'],
    ['latch strut-top.R 3', 'latch strut-top.R 3', 'a span is [point, point, distance]'],
  ];
  it.each(cases)('%s', async (typed, at, says, ...fixes) => {
    const said = await saidOf(span(typed));
    expect(said).toEqual([{ rule: 'text/wrong-type', at, message: expect.stringContaining(says), fixes }]);
  });

  it.each([
    '[latch, strut-top.R, 1399.7]',
    '[latch, strut-top.R, [1399.7, 1399.9]]',
    '[latch, strut-top.R, unreachable]',
  ])('%s is one', (typed) => expectNothingSaid(span(typed)));
});

describe('one number', () => {
  const cases: Case[] = [
    ['uncertainty: 0,5', '0,5', '`uncertainty`: 0,5 has a decimal comma: write 0.5', '0.5'],
    ['uncertainty: 1,500', '1,500', 'write 1500 or 1.500', '1500', '1.500'],
    ['uncertainty: -1', '-1', '`uncertainty`: expected 0 or a number above 0, not -1'],
    ['uncertainty: half', 'half', '`uncertainty`: half is not a number'],
    ['uncertainty: .nan', '.nan', '.nan is not a number'],
    ['uncertainty:', 'uncertainty', 'nothing is given for `uncertainty`'],
    ['{ name: arm, uncertainty: 0,5 }', '0,5', '`uncertainty`: 0,5 has a comma: write 0.5', '0.5'],
  ];
  it.each(cases)('%s', async (typed, at, says, ...fixes) => {
    const said = await saidOf(
      jobWith(typed.startsWith('{') ? `instrument: ${typed}` : `instrument:\n  ${typed}`),
    );
    expect(said).toEqual([{ rule: 'text/wrong-type', at, message: expect.stringContaining(says), fixes }]);
  });

  it('that is a text is kept as it was typed', async () => {
    for (const typed of ['0012', '0x1F', '9e999', '12_000'])
      await expectNothingSaid(jobWith(`order: ${typed}\ntechnician: 007`));
  });
});
