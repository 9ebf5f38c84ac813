import { describe, expect, it } from 'vitest';
import { bodyWith, expectNothingSaid, saidOf } from '../testing/text-jobs';

type Case = [typed: string, rule: string, at: string, says: string, ...fixes: string[]];
const wrong = 'text/wrong-type';
const missing = 'text/missing-key';
const unknown = 'text/unknown-key';

const expectOne = async (text: string, [, rule, at, says, ...fixes]: Case): Promise<void> =>
  expect(await saidOf(text, 'w.chassis.yaml')).toEqual([
    { rule, at, message: expect.stringContaining(says), fixes },
  ]);

describe('a point', () => {
  const which =
    '`cowl`: a point has both, or left and right (either or both), or centre: exactly one of these';
  const cases: Case[] = [
    ['cowl: { both: [1, 2, 3], left: [1, 2, 3] }', wrong, 'cowl', which],
    ['cowl: { part: floor }', wrong, 'cowl', which],
    ['cowl:', wrong, 'cowl', 'nothing is given for `cowl`'],
    ['cowl: [1, 2, 3]', wrong, '[1, 2, 3]', '`cowl`: a map of keys and values belongs here'],
    [
      'cowl: { left: [1, 2, 3], right: [1, 2] }',
      wrong,
      '[1, 2]',
      'two numbers where three belong: [length, width, height]',
    ],
    ['cowl: { both: }', wrong, 'both', 'nothing is given for `both`'],
    [
      `${'a-'.repeat(40)}b: { both: [1, 2, 3] }`,
      wrong,
      `${'a-'.repeat(40)}b`,
      'at most 80 characters, and this one has 81',
    ],
    ['cowl: { cenre: [1, 2, 3] }', unknown, 'cenre', 'did you mean `centre`?', 'centre'],
    [
      'cowl: { both: [9, 2, 3], tolerance: 2,5 }',
      wrong,
      '2,5',
      '`tolerance`: 2,5 has a comma: write 2.5',
      '2.5',
    ],
    ['cowl: { both: [9, 2, 3], tolerance: 0 }', wrong, '0', '`tolerance`: expected a number above 0, not 0'],
    [
      'cowl: { both: [9, 2, 3], tolerance: { lenght: 2 } }',
      unknown,
      'lenght',
      'did you mean `length`?',
      'length',
    ],
    [
      'cowl: { both: [9, 2, 3], tolerance: { width: [2, 4] } }',
      wrong,
      '[2, 4]',
      '`width`: the first limit is 0 or below',
    ],
    ['cowl: { both: [9, 2, 3], fixing: hoel }', wrong, 'hoel', 'did you mean hole?', 'hole'],
    ['cowl: { both: [9, 2, 3], base: yes }', wrong, 'yes', '`base` is true or false, not yes', 'true'],
    ['cowl: { both: [9, 2, 3], source: { kind: donr } }', wrong, 'donr', 'did you mean donor?', 'donor'],
    ['cowl: { both: [9, 2, 3], source: { reference: x } }', missing, 'source', '`source` needs `kind`'],
    [
      'Cowl Top: { both: [9, 2, 3] }',
      wrong,
      'Cowl Top',
      'lower-case words joined by hyphens: cowl-top',
      'cowl-top',
    ],
    [
      'cowl.L: { left: [9, 2, 3] }',
      wrong,
      'cowl.L',
      'a name is written here without its side: write cowl',
      'cowl',
    ],
  ];
  it.each(cases)('%s', (...each) => expectOne(bodyWith(each[0]), each));

  it('whose tolerance cannot be read is not judged by another one', async () => {
    const chassis = bodyWith('cowl: { centre: [900, 2, 3], tolerance: 2,5 }');
    const job =
      'framewright: readings/1\nchassis: marten.chassis.yaml\ntimeline:\n  - measure: a\n    readings: { cowl: [900, 2, 3] }\n';
    const said = await saidOf(job, 'w.readings.yaml', chassis);
    expect(said).toEqual([
      expect.objectContaining({
        rule: 'name/unknown-point',
        at: 'cowl',
        message: expect.stringContaining('could not be read there'),
        fixes: [],
      }),
    ]);
  });
});

describe('a part', () => {
  const withPart = (part: string) => bodyWith('').replace('points:\n', `  sill: ${part}\npoints:\n`);
  const cases: Case[] = [
    ['{ sided: yes }', wrong, 'yes', '`sided` is true or false, not yes', 'true'],
    ['{ steel: midl }', wrong, 'midl', 'did you mean mild?', 'mild'],
    ['{ straighten: nver }', wrong, 'nver', '`straighten` is one of freely, minor, never, not nver', 'never'],
    ['{ along: across }', wrong, 'across', '`along` is one of length, width, height, not across'],
    ['{ section: [2700, 2450] }', wrong, '[2700, 2450]', '`section`: the lower number comes first'],
    ['{ section: 2450 }', wrong, '2450', '`section`: a list belongs here, not 2450'],
    ['{ heat: nevr }', wrong, 'nevr', '`heat`: expected never, or a limit', 'never'],
    ['{ heat: { to: 200 } }', wrong, '200', 'expected a temperature with its unit'],
    ['{ heat: { for: 90 s } }', missing, 'heat', '`heat` needs `to`'],
    ['{ stel: mild }', unknown, 'stel', 'did you mean `steel`?', 'steel'],
    ['', wrong, 'sill', 'nothing is given for `sill`'],
  ];
  it.each(cases)('%s', (...each) => expectOne(withPart(each[0]), each));
});

describe('the rest of a chassis file', () => {
  /** The lines stand in place of what the file said under that key. */
  const withTop = (lines: string) =>
    bodyWith('')
      .replace(new RegExp(`^${lines.split(':')[0]}: .*\\n`, 'm'), '')
      .replace('parts:\n', `${lines}\nparts:\n`);
  const cases: Case[] = [
    ['tolerance: 2,5', wrong, '2,5', '`tolerance`: 2,5 has a decimal comma', '2.5'],
    ['tolerance: three', wrong, 'three', '`tolerance`: three is not a number'],
    ['tolerance: [-2, 4]', wrong, '[-2, 4]', '`tolerance`: expected a number above 0, or a map such as'],
    ['build: -1', wrong, '-1', '`build`: expected 0 or a number above 0'],
    ['datum: front', wrong, 'front', '`datum`: a map of keys and values belongs here'],
    ['spans: { from: a }', wrong, '{ from: a }', '`spans`: a list belongs here'],
    [
      'spans:\n  - { from: latch, to: strut-top.L }',
      missing,
      '{ from: latch, to: strut-top.L }',
      'a span needs `distance`',
    ],
    [
      'spans:\n  - { from: latch, to: strut-top.L, distance: 1,411.8 }',
      wrong,
      '1,411.8',
      'write 1411.8',
      '1411.8',
    ],
    [
      'spans:\n  - { from: latch, to: latch, distance: 1411.8 }',
      wrong,
      'latch',
      'a span has two ends, and both are latch',
    ],
    [
      'spans:\n  - { from: strut-top.L, to: rail-tip-lower, distance: 989, pairs: straight }',
      wrong,
      'strut-top.L',
      'with `pairs` a name is written without its side',
      'strut-top',
    ],
    [
      'spans:\n  - [latch, strut-top.L, 12]',
      wrong,
      '[latch, strut-top.L, 12]',
      'a span: a map of keys and values belongs here',
    ],
    ['unit: inch', unknown, 'unit', 'did you mean `units`?', 'units'],
  ];
  it.each(cases)('%s', (...each) => expectOne(withTop(each[0]), each));

  it.each([
    'spans:',
    'tolerance: { length: 3, width: [-2, 4] }',
    'conditions: { powertrain: in, lift: no, belts: 2 }',
  ])('%s is fine', (lines) => expectNothingSaid(withTop(lines), 'w.chassis.yaml'));
});
