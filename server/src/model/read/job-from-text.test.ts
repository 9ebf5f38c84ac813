import { describe, expect, it } from 'vitest';
import { parseText } from '../../text/yaml/parse';
import type { Measure, Pull } from '../job';
import { jobOf } from '../testing/read';
import { jobFrom } from './job-from-text';

const timeline = (lines: string): string => `timeline:\n  - ${lines.replaceAll('\n', '\n    ')}\n`;
const entryOf = (lines: string) => jobOf(timeline(lines)).timeline[0];

describe('a job', () => {
  const job = jobOf(`order: W-1187
technician: 007
units: inch
instrument: { name: bench arm 2, uncertainty: 0.02, repeatability: 0.01, span-uncertainty: 0.04 }
axes: [rearward, up, right]
base: { between: [-30, 50] }
conditions: { powertrain: out, lift: no }
anchors: [floor-front]
scope: [front-rail.L, apron]
${timeline('note: waiting')}sign-off:
  by: rk
  date: 2026-03-05
  chassis: sha256-3f9a61c2
  accepted: [{ point: latch, reason: slotted }]
`);

  it('is read whole, lengths in mm, words as they were typed', () => {
    expect(job).toMatchObject({
      chassisPath: '0.chassis.yaml',
      order: 'W-1187',
      technician: '007',
      unit: 'inch',
      axes: ['rearward', 'up', 'right'],
      base: { kind: 'between', fromMm: -762, toMm: 1270 },
      anchors: [{ id: 'floor-front' }],
      scope: [{ id: 'front-rail.L' }, { id: 'apron' }],
      signOff: {
        by: 'rk',
        date: '2026-03-05',
        chassis: 'sha256-3f9a61c2',
        accepted: [{ point: { id: 'latch' }, reason: 'slotted' }],
      },
      problems: [],
      broken: false,
    });
    expect(job.instrument?.uncertaintyMm).toBeCloseTo(0.508, 12);
    expect(job.instrument?.spanUncertaintyMm).toBeCloseTo(1.016, 12);
    expect([...job.conditions].map(([key, { text }]) => [key, text])).toEqual([
      ['powertrain', 'out'],
      ['lift', 'no'],
    ]);
  });

  it('takes its defaults where nothing is stated, and a blank timeline for nothing yet', () => {
    expect(jobOf('timeline:\n')).toMatchObject({
      unit: 'mm',
      axes: ['forward', 'left', 'up'],
      base: { kind: 'auto' },
      instrument: null,
      scope: null,
      signOff: null,
      ignores: [],
      timeline: [],
      problems: [],
      broken: false,
    });
  });

  it.each(['units: inches', 'axes: [forward, left, sideways]', 'base: atuo'])(
    'is held back by %s, which all readings hang on',
    (line) => {
      const { broken, problems } = jobOf(`${line}\ntimeline:\n`);
      expect(broken).toBe(true);
      expect(problems).toHaveLength(1);
    },
  );

  it('is held back where its first line names another version', () =>
    expect(jobFrom('w.readings.yaml', parseText('framewright: readings/2\ntimeline:\n')).broken).toBe(true));

  it.each([
    'measure: a\nreadings:\n  latch: [1, 2]',
    'measure: a\nreadings:\n  latch: [1, 2, 3]\n  latch: [1, 2, 4]',
    'section: front-rail.R',
    'straighten: front-rail.R',
    'measure: a\nreadings:\n  latch: [1, 2, 3',
  ])('is held back by a mistake in its timeline: %s', (lines) =>
    expect(jobOf(timeline(lines)).broken).toBe(true),
  );

  it.each(['measure: a\nby: rk\nweather: rain', 'measure: a\nreadings:\n  latch: unreachable'])(
    'is not held back by %s',
    (lines) => expect(jobOf(timeline(lines)).broken).toBe(false),
  );

  it('is closed as soon as `sign-off` stands there', () => {
    expect(jobOf('timeline:\nsign-off:\n').signOff).toMatchObject({ by: null, chassis: null, accepted: [] });
  });
});

describe('a measuring', () => {
  it('has its readings in mm, repeats, and what was unreachable', () => {
    const measure = jobOf(
      `units: inch\n${timeline('measure: a\nreadings:\n  latch: [1, 2, 3]\n  rail.L: [[1, 2, 3], [2, 3, 4]]\n  rail.R: unreachable\nspans:\n  - [a, b, [10, 11]]')}`,
    ).timeline[0] as Measure;
    expect(
      measure.readings.map(({ id, triplesMm, unreachable }) => ({ id, triplesMm, unreachable })),
    ).toEqual([
      { id: 'latch', triplesMm: [[25.4, 2 * 25.4, 3 * 25.4]], unreachable: false },
      {
        id: 'rail.L',
        triplesMm: [
          [25.4, 50.8, 3 * 25.4],
          [50.8, 3 * 25.4, 4 * 25.4],
        ],
        unreachable: false,
      },
      { id: 'rail.R', triplesMm: [], unreachable: true },
    ]);
    expect(measure.spans).toMatchObject([
      { from: 'a', to: 'b', distancesMm: [254, 11 * 25.4], unreachable: false },
    ]);
  });

  it('loses one wrong row only', () => {
    const measure = entryOf(
      'measure: a\nset-up: smae\nreadings:\n  a: [1, 2]\n  b: [1, 2, 3]\n  c: [x, 2, 3]\n  d: [[1, 2], [4, 5, 6]]',
    ) as Measure;
    expect(measure.readings.map(({ id, triplesMm }) => [id, triplesMm])).toEqual([
      ['b', [[1, 2, 3]]],
      ['d', [[4, 5, 6]]],
    ]);
    expect(measure.setUp).toBeNull();
  });

  it('of which the first key is mistyped or stands later keeps its readings', () => {
    for (const lines of ['mesure: a\nreadings:\n  b: [1, 2, 3]', 'readings:\n  b: [1, 2, 3]\nmeasure: a']) {
      const measure = entryOf(lines) as Measure;
      expect(measure.name).toBe('a');
      expect(measure.readings.map(({ id }) => id)).toEqual(['b']);
    }
  });

  it('keeps the first of two readings of one point', () => {
    const measure = entryOf('measure: a\nreadings:\n  b: [1, 2, 3]\n  b: [4, 5, 6]') as Measure;
    expect(measure.readings.map(({ triplesMm }) => triplesMm)).toEqual([[[1, 2, 3]]]);
  });

  it('has lines of a summary with the place of each', () => {
    const measure = entryOf(
      'measure: a\nsummary:\n  front-rail.L twist: 2.3° ±0.2°, top leans right',
    ) as Measure;
    expect(measure.summary).toMatchObject([
      { key: 'front-rail.L twist', text: '2.3° ±0.2°, top leans right' },
    ]);
  });
});

describe('work', () => {
  it('has the chains of a pull in their long and their short form', () => {
    const long = entryOf(
      'pull: a\npart: front-rail.L\nchains:\n  - { hook: b.L, direction: [0.2, -1, 0], force: 18 kN }\n  - { hook: c.L, direction: [1, 0, 0] }',
    );
    const short = entryOf('pull: a\nhook: b.L\ndirection: [0.2, -1, 0]\nforce: 900 N');
    expect((long as Pull).chains).toMatchObject([
      { hook: { id: 'b.L' }, direction: [0.2, -1, 0], forceKn: 18 },
      { hook: { id: 'c.L' }, direction: [1, 0, 0], forceKn: null },
    ]);
    expect(short).toMatchObject({
      part: null,
      chains: [{ hook: { id: 'b.L' }, direction: [0.2, -1, 0], forceKn: 0.9 }],
    });
  });

  it('has one hold or many, on a part or at a point', () => {
    const one = entryOf('pull: a\npart: r.L\nhold: { part: r.L, at: 1900 }') as Pull;
    const many = entryOf('pull: a\npart: r.L\nhold: [floor-front.L, { part: r.L, at: 1800 }]') as Pull;
    expect(one.holds).toMatchObject([{ kind: 'part', part: { id: 'r.L' }, atMm: 1900 }]);
    expect(many.holds).toMatchObject([
      { kind: 'point', point: { id: 'floor-front.L' } },
      { kind: 'part', atMm: 1800 },
    ]);
  });

  it('has a hold as one map beside the list that it may be as well', () => {
    for (const hold of ['{ part: r.L, at: 1900 }', '[{ part: r.L, at: 1900 }]', 'floor-front.L']) {
      const { problems, broken } = jobOf(timeline(`pull: a\npart: r.L\nhold: ${hold}`));
      expect([hold, problems, broken]).toEqual([hold, [], false]);
    }
    const wrong = jobOf(timeline('pull: a\npart: r.L\nhold: { part: r.L, at: near }'));
    expect(wrong.problems.map(({ message }) => message)).toEqual(['`at`: near is not a number']);
    expect(wrong.timeline[0]).toMatchObject({ holds: [], holdsUnclear: true });
  });

  const pull = 'pull: a\npart: r.L\nchains: [{ hook: b.L, direction: [0, 1, 0] }]';
  it.each([
    `${pull}\nhold: { part: r.L }`,
    `${pull}\nhold:`,
    `${pull}\nhold: [{ part: r.L, at: 1900 }, { at: 1800 }]`,
    `${pull}\nplan: [1, 2]`,
    `${pull}\nnote: [a, b]`,
    'pull: a\npart: r.L\nforce: 18',
    'pull: a\npart: r.L\nchains: [{ hook: b.L, direction: [0, 1, 0], force: 18 }]',
    'measure: a\nby: [rk]',
    'measure: a\nat: soon',
    'measure: a\nsummary: { body: [1] }',
    'heat: r.L\nnote: [a]',
  ])(
    'of which a detail is wrong that nothing is concluded from says so, and the rest stands: %s',
    (lines) => {
      const { problems, broken } = jobOf(timeline(lines));
      expect(problems.length).toBeGreaterThan(0);
      expect(broken).toBe(false);
    },
  );

  it.each([
    'pull: a\npart: r.L\nhook: [b.L]\ndirection: [0, 1, 0]',
    'pull: a\npart: [r.L]',
    'pull: a\npart: r.L\nchains: [{ hook: b.L, direction: left, force: 18 }]',
    'pull: a\nhold: r-1.L',
    'measure: a\nset-up: sam',
    'measure: a\nreadings: { b.L: [1, 2] }',
    'section: r.R\nat: near',
    'release:',
  ])('of which a figure, a tension or a renewal hangs on the wrong detail is held back: %s', (lines) => {
    expect(jobOf(timeline(lines)).broken).toBe(true);
  });

  it('is not lost with a detail that is wrong: tension would go unseen', () => {
    expect(entryOf('pull: a\npart: r.L\nhook: b.L')).toMatchObject({
      kind: 'pull',
      part: { id: 'r.L' },
      chains: [{ direction: null }],
    });
    expect(entryOf('pull: a\npart: r.L\nforce: 18')).toMatchObject({ kind: 'pull', part: { id: 'r.L' } });
    expect(entryOf('section: r.R')).toMatchObject({
      kind: 'section',
      part: { id: 'r.R' },
      cutsMm: [],
      beyond: null,
    });
    expect(entryOf('heat: r.R\nto: 400')).toMatchObject({
      kind: 'heat',
      part: { id: 'r.R' },
      toCelsius: null,
    });
  });

  it('has heat in °C and s', () => {
    expect(entryOf('heat: r.R\nto: 180 C\nfor: 2 min')).toMatchObject({ toCelsius: 180, forSeconds: 120 });
    expect(entryOf('heat: r.R\nto: 180C\nfor: 90 s')).toMatchObject({ toCelsius: 180, forSeconds: 90 });
  });

  it('releases and relieves one part, some or all', () => {
    expect(entryOf('release: all')).toMatchObject({ parts: 'all' });
    expect(entryOf('release: [all]')).toMatchObject({ parts: 'all' });
    expect(entryOf('relieve: r.L')).toMatchObject({ parts: [{ id: 'r.L' }] });
    expect(entryOf('relieve: [r.L, s]')).toMatchObject({ parts: [{ id: 'r.L' }, { id: 's' }] });
  });
});
