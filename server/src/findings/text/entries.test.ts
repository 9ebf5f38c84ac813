import { describe, expect, it } from 'vitest';
import { jobOfEntry, jobWith, saidOf } from '../testing/text-jobs';

/** What is typed, the rule, what part of it is marked, a piece of the message, the fixes. */
type Case = [typed: string, rule: string, at: string, says: string, ...fixes: string[]];

const wrong = 'text/wrong-type';
const missing = 'text/missing-key';
const unknown = 'text/unknown-key';

const expectOne = async (text: string, [, rule, at, says, ...fixes]: Case): Promise<void> =>
  expect(await saidOf(text)).toEqual([{ rule, at, message: expect.stringContaining(says), fixes }]);

describe('an entry of the timeline', () => {
  const pull = 'pull: to the right\npart: front-rail.L';
  const cases: Case[] = [
    [
      'mesure: as received\nreadings:\n  latch: [1, 2, 3]',
      unknown,
      'mesure',
      'did you mean `measure`?',
      'measure',
    ],
    ['readings:\n  latch: [1, 2, 3]\nmeasure: a', unknown, 'readings', '`measure` belongs first'],
    ['note: a\nmeasure: b', unknown, 'note', '`measure` belongs first'],
    ['measure: a\npull: b', unknown, 'pull', '`pull` begins a new entry: put “- ” before it'],
    ['straighten: front-rail.L', unknown, 'straighten', 'is not a timeline entry: measure, observe, pull'],
    ['measure', wrong, 'measure', 'write it with a colon: `measure: …`'],
    ['', wrong, '', 'an entry begins with what was done'],
    ['measure:', wrong, 'measure', 'nothing is given for `measure`'],
    [
      'measure: a\nset-up: smae',
      wrong,
      'smae',
      '`set-up` is one of same, new, not smae; did you mean same?',
      'same',
    ],
    ['measure: a\nat: 2026-3-2', wrong, '2026-3-2', '`at`: expected a date such as 2026-03-05'],
    [
      'measure: a\ninstrument: { uncertainty: 0.5, repeatability: 0.8 }',
      wrong,
      '0.8',
      'a part of the uncertainty and cannot be larger',
    ],
    [
      'measure: a\nconditions: in',
      wrong,
      'in',
      '`conditions`: a map of keys and values belongs here, not in',
    ],
    ['measure: a\nreadings: [1, 2, 3]', wrong, '[1, 2, 3]', '`readings`: rows of'],
    ['measure: a\nspans: { a: 1 }', wrong, '{ a: 1 }', '`spans`: a list belongs here'],
    [
      'measure: a\nspans: [latch, strut-top.R, 1250]',
      wrong,
      '[latch, strut-top.R, 1250]',
      'each on a line behind a dash',
    ],
    ['measure: a\nsummary: { body: [1] }', wrong, '[1]', '`body`: expected a text'],
    ['observe: buckel\npart: apron.L', wrong, 'buckel', 'did you mean buckle?', 'buckle'],
    [
      'observe: dent\npart: apron.L',
      wrong,
      'dent',
      '`observe` is one of kink, buckle, tear, crack, corrosion, gap, not dent',
    ],
    ['observe: kink', missing, 'observe', '`observe` needs `part`'],
    ['observe: kink\npart: apron.L\nat: left', wrong, 'left', '`at`: left is not a number'],
    ['pull: to the right', wrong, 'pull', '`pull`: what is pulled is not stated'],
    [`${pull}\nhook: rail-tip-lower.L`, wrong, 'pull', '`pull`: hook and direction go together'],
    [`${pull}\nchains:\n  - { hook: rail-tip-lower.L }`, missing, 'chains', '`chains` needs `direction`'],
    [
      `${pull}\nchains:\n  - { hok: rail-tip-lower.L, direction: [1, 0, 0] }`,
      unknown,
      'hok',
      'did you mean `hook`?',
      'hook',
    ],
    [
      `${pull}\nchains:\n  - { hook: rail-tip-lower.L, direction: [0, 0, 0] }`,
      wrong,
      '[0, 0, 0]',
      'a direction is not all zeros',
    ],
    [
      `${pull}\nchains:\n  - { hook: rail-tip-lower.L, direction: [1,5, 0, 0] }`,
      wrong,
      '[1,5, 0, 0]',
      'expected three numbers, not four (a decimal comma?)',
    ],
    [
      `${pull}\nchains:\n  - { hook: rail-tip-lower.L, direction: [1, 0, 0], force: 18 }`,
      wrong,
      '18',
      'expected a force with its unit, such as 18 kN, not 18',
    ],
    [
      `${pull}\nchains: { hook: rail-tip-lower.L, direction: [1, 0, 0] }`,
      wrong,
      '{ hook: rail-tip-lower.L, direction: [1, 0, 0] }',
      '`chains`: a list belongs here',
    ],
    [`${pull}\nhold: [{ part: front-rail.L }]`, missing, 'hold', '`hold` needs `at`'],
    [
      `${pull}\nhold: [{ part: front-rail.L, at: 1,900 }]`,
      wrong,
      '1,900',
      'write 1900 or 1.900',
      '1900',
      '1.900',
    ],
    ['relieve:', wrong, 'relieve', 'nothing is given for `relieve`'],
    ['release: []', wrong, '[]', '`release`: the list is empty'],
    ['section: front-rail.R', missing, 'section', '`section` needs `at`'],
    ['section: front-rail.R\natt: 2500', unknown, 'att', 'did you mean `at`?', 'at'],
    ['section: front-rail.R\nat: 2500,5', wrong, '2500,5', 'a decimal comma', '2500.5'],
    ['section: front-rail.R\nat: 0x9C4', wrong, '0x9C4', 'if 2500 is meant', '2500'],
    ['replace:', wrong, 'replace', 'nothing is given for `replace`'],
    ['replace: 12', wrong, '12', 'put it in quotes', '"12"'],
    ['heat: apron.R\nto: 180', wrong, '180', 'expected a temperature with its unit, such as 200 C, not 180'],
    ['heat: apron.R\nto: 180 F', wrong, '180 F', 'expected a temperature with its unit'],
    [
      'heat: apron.R\nto: 180 C\nfor: 60',
      wrong,
      '60',
      'expected a time with its unit, such as 90 s or 2 min',
    ],
    ['note: [1]', wrong, '[1]', '`note`: expected a text'],
  ];
  it.each(cases)('%s', (...each) => expectOne(jobOfEntry(each[0]), each));

  it.each([
    'measure: a\nreadings:',
    'measure: a\nspans:',
    'release: [all]',
    'release: front-rail',
    'note: 12',
    'heat: apron.R',
    'pull: a\nhook: rail-tip-lower.L\ndirection: [1, 0, 0]\nforce: 900 N',
    'pull: a\npart: front-rail.L\nhold: floor-front.L',
  ])('%s is one', async (typed) => expect(await saidOf(jobOfEntry(typed))).toEqual([]));
});

describe('a key of the whole job', () => {
  const cases: Case[] = [
    ['units: inches', wrong, 'inches', '`units` is one of mm, inch, not inches; did you mean inch?', 'inch'],
    ['axes: [forward, left]', wrong, '[forward, left]', 'expected three directions'],
    ['axes: [forward, lefft, up]', wrong, 'lefft', 'did you mean left?', 'left'],
    ['axes: [forward, left, right]', wrong, '[forward, left, right]', 'one direction of each'],
    ['axes: forward left up', wrong, 'forward left up', '`axes`: a list belongs here'],
    ['base: atuo', wrong, 'atuo', 'did you mean auto?', 'auto'],
    ['base: floor-front.L', wrong, 'floor-front.L', 'expected auto, a list of points', '[floor-front.L]'],
    ['base: { between: [1300, -800] }', wrong, '[1300, -800]', 'the lower number comes first'],
    [
      'base: { between: [1,300, 800] }',
      wrong,
      '[1,300, 800]',
      'expected two numbers, not three (a decimal comma?)',
    ],
    ['scope: front-rail', wrong, 'front-rail', '`scope`: a list belongs here', '[front-rail]'],
    ['conditions: { powertrain: [in] }', wrong, '[in]', '`powertrain`: expected a word'],
    ['conditions:', wrong, 'conditions', 'nothing is given for `conditions`'],
    ['odrer: W-1187', unknown, 'odrer', 'did you mean `order`?', 'order'],
    ['customer: x', unknown, 'customer', '`customer` is not a key here; known: framewright, chassis, order'],
    ['sign-off:', wrong, 'sign-off', 'nothing is given for `sign-off`'],
    ['sign-off: { by: rk, date: 2026-03-05 }', missing, 'sign-off', '`sign-off` needs `chassis`'],
    [
      'sign-off: { by: rk, date: 5.3.2026, chassis: sha256-3f9a61c2 }',
      wrong,
      '5.3.2026',
      '`date`: expected a date such as 2026-03-05',
    ],
    ['sign-off: { by: rk, date: 2026-03-05, chassis: 3f9a }', wrong, '3f9a', '`chassis`: expected seal1-'],
  ];
  it.each(cases)('%s', (...each) => expectOne(jobWith(each[0]), each));
});
