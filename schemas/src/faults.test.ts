import { describe, expect, it } from 'vitest';
import { wholeExample } from './testing/page';
import {
  changed,
  type Format,
  passesJsonSchema,
  passesZod,
  refusedBeyondJsonSchemaOnly,
} from './testing/validators';

type Path = (string | number)[];
type Row = [string, Path, unknown];

const chassis: Row[] = [
  ['no first line', ['framewright'], undefined],
  ['another kind of file', ['framewright'], 'readings/1'],
  ['no vehicle', ['vehicle'], undefined],
  ['an empty vehicle', ['vehicle'], ''],
  ['no points', ['points'], undefined],
  ['points of nothing', ['points'], null],
  ['an unknown key', ['tolerence'], 3],
  ['an unknown unit', ['units'], 'cm'],
  ['a source without a kind', ['source'], { reference: 'sheet 4' }],
  ['an unknown kind of source', ['source', 'kind'], 'guessed'],
  ['a date written the other way', ['source', 'date'], '12.01.2026'],
  ['a thirteenth month', ['source', 'date'], '2026-13-01'],
  ['a negative scatter', ['build'], -0.5],
  ['a negative scatter elsewhere', ['build-elsewhere'], -1],
  ['a tolerance of 0', ['tolerance'], 0],
  ['a tolerance with a unit', ['tolerance'], '3 mm'],
  ['limits for all axes at once', ['tolerance'], [-2, 4]],
  ['limits that exclude 0', ['tolerance'], { width: [1, 4] }],
  ['limits the wrong way round', ['tolerance'], { width: [4, -2] }],
  ['limits without room', ['tolerance'], { width: [0, 0] }],
  ['limits of three numbers', ['tolerance'], { width: [-2, 0, 4] }],
  ['a tolerance on an unknown axis', ['tolerance'], { depth: 3 }],
  ['a name in capitals', ['points', 'Latch'], { centre: [0, 0, 0] }],
  ['a name with a side', ['points', 'latch.L'], { centre: [0, 0, 0] }],
  ['a name with an underscore', ['parts', 'front_rail'], {}],
  ['a name that ends in a hyphen', ['parts', 'rail-'], {}],
  ['a point without a position', ['points', 'latch'], { part: 'floor' }],
  ['both and left', ['points', 'latch', 'both'], [1, 2, 3]],
  ['centre and right', ['points', 'latch', 'right'], [1, 2, 3]],
  ['two numbers', ['points', 'latch', 'centre'], [3046, 10]],
  ['six numbers', ['points', 'latch', 'centre'], [3046, 1, 10, 2, 782, 3]],
  ['a number in quotes', ['points', 'latch', 'centre', 1], '10'],
  ['a number that is not one', ['points', 'latch', 'centre', 1], Number.NaN],
  ['a number without end', ['points', 'latch', 'centre', 1], Number.POSITIVE_INFINITY],
  ['base in words', ['points', 'latch', 'base'], 'yes'],
  ['an unknown fixing', ['points', 'latch', 'fixing'], 'rivet'],
  ['a negative uncertainty', ['points', 'latch', 'uncertainty'], -1],
  ['an unknown steel', ['parts', 'floor', 'steel'], 'tin'],
  ['an unknown way', ['parts', 'floor', 'along'], 'up'],
  ['an unknown rule', ['parts', 'floor', 'straighten'], 'perhaps'],
  ['heat without a unit', ['parts', 'floor', 'heat'], { to: 200 }],
  ['heat without a temperature', ['parts', 'floor', 'heat'], { for: '90 s' }],
  ['heat in another word', ['parts', 'floor', 'heat'], 'none'],
  ['a span of no length', ['spans', 0, 'distance'], 0],
  ['a span with one end', ['spans', 0, 'to'], undefined],
  ['a span with unknown pairs', ['spans', 1, 'pairs'], 'both'],
  ['a span as a list', ['spans', 0], ['a', 'b', 100]],
];

const readings: Row[] = [
  ['no first line', ['framewright'], undefined],
  ['no chassis', ['chassis'], undefined],
  ['no timeline', ['timeline'], undefined],
  ['a timeline that is a map', ['timeline'], { measure: 'as received' }],
  ['an unknown key', ['scopes'], []],
  ['an instrument of negative uncertainty', ['instrument', 'uncertainty'], -0.5],
  ['a negative repeatability', ['instrument', 'repeatability'], -0.1],
  ['an instrument by name alone', ['instrument'], 'bench arm 2'],
  ['two axes', ['axes'], ['forward', 'left']],
  ['an axis twice', ['axes'], ['forward', 'rearward', 'up']],
  ['outboard first', ['axes'], ['outboard', 'forward', 'up']],
  ['outboard and left', ['axes'], ['left', 'outboard', 'up']],
  ['an unknown direction', ['axes'], ['front', 'left', 'up']],
  ['a base in another word', ['base'], 'all'],
  ['a zone with one end', ['base'], { between: [1300] }],
  ['a scope in words', ['scope'], 'front'],
  ['a condition with a list', ['conditions', 'powertrain'], ['in']],
  ['an entry of no kind', ['timeline', 0], { readings: {} }],
  ['an entry of two kinds', ['timeline', 0, 'pull'], 'left rail'],
  ['an entry that is text', ['timeline', 0], 'as received'],
  ['an unknown key in an entry', ['timeline', 0, 'reading'], {}],
  ['a measuring at no date', ['timeline', 0, 'at'], 'Monday'],
  ['a reading of two numbers', ['timeline', 0, 'readings', 'latch'], [1, 2]],
  ['a reading of no repeats', ['timeline', 0, 'readings', 'latch'], []],
  [
    'a repeat of two numbers',
    ['timeline', 0, 'readings', 'latch'],
    [
      [1, 2, 3],
      [1, 2],
    ],
  ],
  ['a reading in another word', ['timeline', 0, 'readings', 'latch'], 'hidden'],
  ['a reading of nothing', ['timeline', 0, 'readings', 'latch'], null],
  ['a span without a distance', ['timeline', 0, 'spans', 0], ['a', 'b']],
  ['a span of no length', ['timeline', 0, 'spans', 0, 2], 0],
  ['an unknown set-up', ['timeline', 0, 'set-up'], 'moved'],
  ['an unknown observation', ['timeline', 1, 'observe'], 'scratch'],
  ['an observation of no part', ['timeline', 1, 'part'], undefined],
  ['a pull of no part and no chain', ['timeline', 2], { pull: 'a' }],
  ['a pull of no chains', ['timeline', 2, 'chains'], []],
  ['a pull in both forms', ['timeline', 2, 'hook'], 'latch'],
  [
    'a pull in both whole forms',
    ['timeline', 2],
    { pull: 'a', part: 'b', chains: [{ hook: 'c', direction: [1, 0, 0] }], hook: 'c', direction: [1, 0, 0] },
  ],
  ['a hook without a direction', ['timeline', 2], { pull: 'a', part: 'b', hook: 'c' }],
  ['a direction without a hook', ['timeline', 2], { pull: 'a', part: 'b', direction: [1, 0, 0] }],
  ['a force without a hook', ['timeline', 2], { pull: 'a', part: 'b', force: '18 kN' }],
  ['a short form without a way', ['timeline', 2], { pull: 'a', part: 'b', hook: 'c', direction: [0, 0, 0] }],
  ['a chain that pulls nowhere', ['timeline', 2, 'chains', 0, 'direction'], [0, 0, 0]],
  ['a chain without a hook', ['timeline', 2, 'chains', 0, 'hook'], undefined],
  ['a force without a unit', ['timeline', 2, 'chains', 0, 'force'], 18],
  ['a force in tonnes', ['timeline', 2, 'chains', 0, 'force'], '1.8 t'],
  ['a hold on a part without a place', ['timeline', 2, 'hold'], [{ part: 'front-rail.L' }]],
  ['relief of no parts', ['timeline', 4, 'relieve'], []],
  ['a release of nothing', ['timeline', 5, 'release'], null],
  ['a cut without a place', ['timeline', 7], { section: 'front-rail.L' }],
  ['a temperature without a unit', ['timeline', 7], { heat: 'apron.R', to: 180 }],
  ['a time in hours', ['timeline', 7], { heat: 'apron.R', for: '1 h' }],
  ['a replacement with a place', ['timeline', 7, 'at'], 2500],
  ['a signature without a chassis', ['sign-off'], { by: 'rk', date: '2026-03-05' }],
  ['a short fingerprint', ['sign-off'], { by: 'rk', date: '2026-03-05', chassis: 'sha256-3f9a' }],
  [
    'an acceptance without a reason',
    ['sign-off'],
    { by: 'rk', date: '2026-03-05', chassis: 'sha256-3f9a61c2', accepted: [{ point: 'latch' }] },
  ],
];

const settings: Row[] = [
  ['no first line', ['framewright'], undefined],
  ['an unknown severity', ['rules', 'reading/coverage'], 'fatal'],
  ['a rule without its family', ['rules', 'coverage'], 'off'],
  ['an unknown decision rule', ['decision-rule'], 'strict'],
  ['an instrument without an uncertainty', ['advise-uncertainty'], 0],
  ['one folder outside a list', ['ignore'], 'archive'],
  ['an unknown key', ['severity'], {}],
];

const tables: [Format, Row[]][] = [
  ['chassis', chassis],
  ['readings', readings],
  ['settings', settings],
];

describe.each(tables)('a %s file', (format, rows) => {
  it('is accepted as the page shows it', () => {
    expect(passesZod(format, wholeExample(format))).toBe(true);
    expect(passesJsonSchema(format, wholeExample(format))).toBe(true);
  });

  it.each(rows)('with %s is refused by both judges', (_, path, replacement) => {
    const value = changed(wholeExample(format), path, replacement);
    expect(passesZod(format, value)).toBe(false);
    expect(passesJsonSchema(format, value)).toBe(false);
  });
});

const sound: [Format, ...Row][] = [
  [
    'chassis',
    'extends in place of vehicle and points',
    [],
    { framewright: 'chassis/1', extends: './a.chassis.yaml' },
  ],
  ['chassis', 'an entry taken away', ['points', 'latch'], null],
  ['chassis', 'one side only', ['points', 'latch'], { right: [1, 2, 3] }],
  ['chassis', 'some axes only', ['tolerance'], { width: [-2, 4] }],
  ['chassis', 'limits on one side', ['tolerance'], { width: [0, 4], height: [-3, 0] }],
  ['chassis', 'a part of which nothing is known', ['parts', 'floor'], {}],
  ['chassis', 'a vehicle that is a number', ['vehicle'], 208],
  ['readings', 'a number for the order', ['order'], 2041],
  ['readings', 'a condition of yes or no', ['conditions', 'jacked'], true],
  ['readings', 'outboard in the middle', ['axes'], ['up', 'outboard', 'rearward']],
  ['readings', 'axes in another order', ['axes'], ['left', 'up', 'forward']],
  ['readings', 'a list as base', ['base'], ['floor-front.L', 'floor-rear']],
  ['readings', 'an empty timeline', ['timeline'], []],
  ['readings', 'one hold', ['timeline', 2, 'hold'], 'floor-front.L'],
  ['readings', 'a pull of the parts that its chains hook on', ['timeline', 2, 'part'], undefined],
  ['readings', 'one place to hold', ['timeline', 2, 'hold'], { part: 'front-rail.L', at: 1900 }],
  ['readings', 'a pull of which no chain is told', ['timeline', 2, 'chains'], undefined],
  ['readings', 'a time with seconds and zone', ['timeline', 0, 'at'], '2026-03-02T09:10:30+01:00'],
];

describe('what is unusual but sound', () => {
  it.each(sound)('%s: %s is accepted by both judges', (format, _, path, replacement) => {
    const value = path.length === 0 ? replacement : changed(wholeExample(format), path, replacement);
    expect(judged(format, value)).toEqual([true, true]);
  });
});

const judged = (format: Format, value: unknown) => [
  passesZod(format, value),
  passesJsonSchema(format, value),
];

describe('what JSON Schema cannot say', () => {
  it.each([
    ['chassis', 'a band the wrong way round', ['parts', 'front-rail', 'section'], [2700, 2450]],
    ['readings', 'a zone the wrong way round', ['base'], { between: [1300, -800] }],
    ['readings', 'more repeatability than uncertainty', ['instrument', 'repeatability'], 0.6],
  ] as [Format, string, Path, unknown][])(
    '%s: %s is refused by zod alone',
    (format, _, path, replacement) => {
      const value = changed(wholeExample(format), path, replacement);
      expect(judged(format, value)).toEqual([false, true]);
      expect(refusedBeyondJsonSchemaOnly(format, value)).toBe(true);
    },
  );
});
