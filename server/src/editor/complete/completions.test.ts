import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured, soundBase } from '../../testing/car';
import { applyEdits } from '../../text/edits';
import { analysisAt } from '../testing/asked';
import type { Completion } from './completion-item';
import { completionPage } from './completion-page';
import { completionsAt } from './completions';

const able = {
  snippets: true,
  chassisFiles: async () => ['file:///shop/car.chassis.yaml', 'file:///shop/specs/van.chassis.yaml'],
};

/** What is offered at `$0` in a job on the small car; `name`: in another file. */
async function offered(text: string, name = 'w.readings.yaml', abilities = able) {
  const files = { 'car.chassis.yaml': carChassis, [name]: text };
  const { analysis, offset } = await analysisAt(files, name);
  const all = await completionsAt(analysis, offset, abilities);
  const find = (label: string): Completion => {
    const found = all.find((each) => each.label === label);
    if (!found) throw new Error(`not offered: ${label}; only ${all.map((each) => each.label).join(', ')}`);
    return found;
  };
  return {
    labels: all.map(({ label }) => label),
    find,
    page: (label: string) => completionPage(analysis, find(label).subject!),
    /** The line of the cursor after a completion is taken, and the lines that came with it. */
    taken(label: string): string {
      const { replaces, text: written } = find(label);
      const now = applyEdits(analysis.text, [{ ...replaces, text: written }]);
      const start = now.lastIndexOf('\n', replaces.start - 1) + 1;
      const rest = now.indexOf('\n', replaces.start + written.length);
      return now.slice(start, rest < 0 ? undefined : rest);
    },
  };
}

/** A triple with places to fill in. */
const asked = (...words: string[]): string =>
  `[${words.map((word, k) => `\${${k + 1}:${word}}`).join(', ')}]`;

const head = 'framewright: readings/1\nchassis: car.chassis.yaml\n';
const tip = '      rail-tip-lower.L: [3012, 448, 210]';
/** A job with one measure, and a beginning of what comes next. */
const then = (next: string): string => jobOn(`${measured(tip)}\n${next}`);

describe('a row of readings', () => {
  it('is any point that the body has and the measure lacks, in the order of reading', async () => {
    const { labels, find } = await offered(jobOn(measured(`${tip}\n      $0`)));
    // its other side, then the sheet
    expect(labels.slice(0, 3)).toEqual(['rail-tip-lower.R', 'rail-root-lower.L', 'rail-root-lower.R']);
    expect(labels).toHaveLength(19 - 9);
    expect(labels).not.toContain('rail-tip-lower.L');
    expect(labels).not.toContain('floor-rear.R');
    expect(find('rail-tip-upper.L').detail).toBe('[3012.0, 452.0, 352.0] · front-rail.L');
  });

  it('comes with places for its numbers, and a page about the point', async () => {
    const { taken, page } = await offered(jobOn(measured(`${tip}\n      rail-t$0`)));
    expect(taken('rail-tip-upper.L')).toBe(`      rail-tip-upper.L: ${asked('forward', 'left', 'up')}`);
    expect(page('rail-tip-upper.L')).toContain('rail-tip-upper.L');
  });

  it('asks for the numbers in the order of the instrument', async () => {
    const text = `${head}axes: [rearward, right, up]\ntimeline:\n  - measure: a\n    readings:\n      $0\n`;
    expect((await offered(text)).taken('latch')).toBe(`      latch: ${asked('rearward', 'right', 'up')}`);
  });

  it('is its name alone where the numbers stand already, and where the editor fills nothing in', async () => {
    const beside = jobOn(measured(`${tip}\n      rail-$0tip: [1, 2, 3]`));
    expect((await offered(beside)).taken('rail-tip-upper.L')).toBe('      rail-tip-upper.L: [1, 2, 3]');
    const plain = { ...able, snippets: false };
    const { find } = await offered(jobOn(measured(`${tip}\n      $0`)), 'w.readings.yaml', plain);
    expect(find('latch')).toMatchObject({ text: 'latch: ', snippet: false });
  });

  it('is found in braces, in a list under the margin, and where lines above and below are broken', async () => {
    const braces = `${head}timeline:\n  - measure: a\n    readings: { floor-front.L: [1, 2, 3], $0 }\n`;
    const inBraces = await offered(braces);
    expect(inBraces.labels).toHaveLength(18);
    expect(inBraces.labels).not.toContain('floor-front.L');
    const margin = `${head}timeline:\n- measure: a\n  readings:\n    floor-front.L: [1, 2, 3]\n    $0\n`;
    expect((await offered(margin)).labels).toHaveLength(18);
    const broken = `${head}timeline:\n  - measure: a\n    readings:\n      floor-front.L: [1, 2\n      floor-rear.L [3\n      $0\n      latch: [1, 2, 3]\n  - pull: "x\n`;
    const inBroken = await offered(broken);
    expect(inBroken.labels).toHaveLength(17);
    expect(inBroken.labels).not.toContain('latch');
  });

  it('without a body is what other measures of the job have', async () => {
    const text = `framewright: readings/1\nchassis: lost.chassis.yaml\ntimeline:\n  - measure: a\n    readings:\n      tip.L: [1, 2, 3]\n      tip.R: [1, 2, 3]\n  - measure: b\n    readings:\n      tip.R: [1, 2, 3]\n      $0\n`;
    expect((await offered(text)).labels).toEqual(['tip.L']);
  });

  it('has as its value a triple or one word', async () => {
    const value = await offered(jobOn(measured('      latch: $0')));
    expect(value.labels).toEqual(['[ , , ]', 'unreachable', 'as-before']);
    const close = await offered(jobOn(measured('      latch:$0')));
    expect(close.taken('[ , , ]')).toBe(`      latch: ${asked('forward', 'left', 'up')}`);
    expect((await offered(jobOn(measured('      latch: [1, $0')))).labels).toEqual([]);
  });
});

describe('a whole measure', () => {
  const label = 'measure with every point to read';

  it('has a row for each point to judge, in the order of the stage before', async () => {
    const order = ['latch', 'rail-tip-lower.R', 'rail-tip-lower.L'];
    const rows = order.map((id) => `      ${id}: [3050, 0, 780]`).join('\n');
    const scope = 'instrument: { name: arm, uncertainty: 0.2 }\nscope: [front-rail]';
    const text = jobOn(`${measured(rows)}\n  - pull: out\n  - $0`, scope);
    const taken = (await offered(text)).taken(label).split('\n');
    expect(taken[0]).toBe(`  - measure: \${1:under load}`);
    // lines below the first stand deeper by the indent of the line, which the editor adds
    expect(taken[1]).toBe('  readings:');
    const ids = taken.slice(2).map((row) => /^ {4}([\w.-]+): +\[\$\d+, \$\d+, \$\d+\]$/.exec(row)?.[1]);
    const base = [...soundBase.matchAll(/ ([\w.-]+):/g)].map(([, id]) => id);
    expect(ids.slice(0, 8)).toEqual(base);
    expect(ids.slice(8, 10)).toEqual(['rail-tip-lower.R', 'rail-tip-lower.L']);
    expect(ids).toContain('rail-root-upper.R');
    // neither of a part in the scope nor a control point
    expect(ids).not.toContain('latch');
    expect(new Set(ids).size).toBe(ids.length);
    expect(taken.slice(2).map((row) => row.indexOf('['))).toEqual(ids.map(() => taken[2].indexOf('[')));
    expect(taken.at(-1)).toContain(`$${3 * ids.length + 1}]`);
  });

  it('begins its own dash on a bare line, and is the first thing in an empty timeline', async () => {
    expect((await offered(then('  $0'))).taken(label)).toMatch(/^ {2}- measure: /);
    expect((await offered(`${head}timeline:\n  - $0\n`)).taken(label)).toMatch(
      /^ {2}- measure: \$\{1:as received\}/,
    );
    expect((await offered(then('  -$0'))).taken(label)).toMatch(/^ {2}- measure: /);
  });

  it('is offered neither inside an entry nor to an editor that fills nothing in', async () => {
    expect((await offered(then('  - pull: x\n    $0'))).labels).not.toContain(label);
    const plain = { ...able, snippets: false };
    expect((await offered(then('  - $0'), 'w.readings.yaml', plain)).labels).not.toContain(label);
  });
});

describe('keys', () => {
  it('are those that the map may have and has not, each with its page', async () => {
    const { labels, page, taken } = await offered(then('  - pull: out\n    part: front-rail.L\n    $0'));
    expect(labels).toEqual(['chains', 'hook', 'direction', 'force', 'hold', 'plan', 'note']);
    for (const label of labels) expect(page(label), label).toBeTruthy();
    expect(taken('force')).toBe('    force: ');
    // each chain stands behind its own dash
    expect(taken('chains')).toBe('    chains:\n  - $0');
  });

  it('at a dash of the timeline are the kinds of entries', async () => {
    const { labels } = await offered(then('  - pu$0'));
    const kinds = [
      'measure',
      'observe',
      'pull',
      'relieve',
      'release',
      'section',
      'replace',
      'join',
      'heat',
      'note',
    ];
    expect(labels.slice(1)).toEqual(kinds);
  });

  it('are those of the kind of the entry', async () => {
    expect((await offered(then('  - section: front-rail.L\n    $0'))).labels).toEqual([
      'at',
      'beyond',
      'note',
    ]);
    const measure = await offered(then('  - measure: b\n    $0'));
    expect(measure.labels).toContain('set-up');
    expect(measure.page('at')).not.toBe((await offered(then('  - section: x\n    $0'))).page('at'));
  });

  it('are found in an empty file, half typed, in braces and before what is there', async () => {
    expect((await offered('$0')).labels[0]).toBe('framewright');
    const half = await offered('framewright: readings/1\ncha$0');
    expect(half.labels).toContain('chassis');
    expect(half.labels).not.toContain('framewright');
    expect(half.taken('chassis')).toBe('chassis: ');
    const braces = await offered(then('  - pull: x\n    chains:\n      - { hook: latch, $0 }'));
    expect(braces.labels).toEqual(['direction', 'force']);
    const before = await offered(then('  - pull: x\n    $0\n    part: front-rail.L'));
    expect(before.labels).not.toContain('part');
    expect((await offered(then('  - pull: x\n    pa$0: front-rail.L'))).taken('part')).toBe(
      '    part: front-rail.L',
    );
  });

  it('begin no block inside braces', async () => {
    const { taken } = await offered(`${then('')}sign-off: { by: rk, $0 }\n`);
    expect(taken('accepted')).toBe('sign-off: { by: rk, accepted:  }');
  });

  it('of a chassis file and of the settings are known too', async () => {
    const point = 'framewright: chassis/1\npoints:\n  a: { both: [1, 2, 3], $0 }\n';
    const { labels, page } = await offered(point, 'b.chassis.yaml');
    expect(labels).toEqual([
      'left',
      'right',
      'centre',
      'part',
      'base',
      'tolerance',
      'fixing',
      'uncertainty',
      'source',
    ]);
    expect(page('base')).toBeTruthy();
    const top = await offered('framewright: chassis/1\nvehicle: x\n$0\npoints: {}\n', 'b.chassis.yaml');
    expect(top.labels).toContain('parts');
    expect(top.labels).not.toContain('points');
    const settings = await offered('framewright: settings/1\n$0', '.framewright.yaml');
    expect(settings.labels).toEqual([
      'rules',
      'decision-rule',
      'advise-uncertainty',
      'calibration-months',
      'signed-since',
      'ignore',
      'tables',
    ]);
  });
});

describe('names', () => {
  it.each([
    ['  - pull: x\n    part: fr$0', 'front-rail.L'],
    ['  - section: $0', 'front-rail.L'],
    ['  - replace: $0', 'apron.R'],
    ['  - heat: $0', 'apron.R'],
    ['  - observe: kink\n    part: $0', 'floor'],
    ['  - relieve: [$0]', 'front-rail'],
    ['  - release:\n      - $0', 'apron'],
    ['  - pull: x\n    hold: [{ part: $0', 'front-rail.R'],
  ])('parts: %s', async (next, part) => {
    const { labels, find } = await offered(then(next));
    expect(labels).toContain(part);
    expect(labels).not.toContain('latch');
    expect(find(part)).toMatchObject({ kind: 'part', text: part });
  });

  it.each([
    '  - pull: x\n    hook: $0',
    '  - pull: x\n    chains:\n      - { hook: $0, force: 3 kN }',
    '  - measure: b\n    spans:\n      - [$0',
    '  - measure: b\n    spans:\n      - [latch, $0, 3]',
  ])('points: %s', async (next) => {
    const { labels, find } = await offered(then(next));
    expect(labels).toContain('rail-tip-upper.R');
    expect(labels).not.toContain('front-rail.L');
    expect(labels).not.toContain('rail-tip-upper');
    expect(find('floor-front.L').detail).toBe('[1200.0, 420.0, 95.0] · floor · control point');
  });

  it('a hold may mean both sides', async () => {
    const { labels, find } = await offered(then('  - pull: x\n    hold:\n      - $0'));
    expect(labels).toEqual(expect.arrayContaining(['rail-tip-upper', 'rail-tip-upper.R']));
    expect(find('rail-tip-upper').detail).toBe('both sides');
  });

  it('have no side where both are meant, and say what they are', async () => {
    const scope = await offered(`${head}scope: [floor, $0]\n`);
    expect(scope.find('front-rail').detail).toBe('both sides');
    expect(scope.find('front-rail.L').detail).toBe('high-strength · straighten: minor');
    // what is in the list is not offered again
    expect(scope.labels).not.toContain('floor');
    expect(scope.page('front-rail')).toContain('high-strength');
  });

  it('of the base are control points only', async () => {
    const { labels } = await offered(`${head}base: [floor-front.L, $0, floor-rear.L]\n`);
    expect(labels).toHaveLength(6);
    expect(labels).not.toContain('latch');
  });

  it('all is what is under tension', async () => {
    expect((await offered(then('  - release: $0'))).labels[0]).toBe('all');
    expect((await offered(then('  - release: [$0]'))).labels).not.toContain('all');
  });

  it('in a chassis file are its own', async () => {
    const sheet = (rest: string) =>
      `framewright: chassis/1\nparts:\n  floor: {}\n  rail: { sided: true }\npoints:\n  a: { both: [1, 2, 3] }\n${rest}`;
    expect((await offered(sheet('  b: { centre: [1, 0, 3], part: $0 }\n'), 'b.chassis.yaml')).labels).toEqual(
      ['floor', 'rail'],
    );
    expect((await offered(sheet('spans:\n  - { from: $0 }\n'), 'b.chassis.yaml')).labels).toEqual([
      'a',
      'a.L',
      'a.R',
    ]);
  });
});

describe('words', () => {
  it.each([
    ['units: $0', ['mm', 'inch']],
    ['axes: [forward, $0]', ['rearward', 'left', 'right', 'up', 'down', 'outboard']],
    ['timeline:\n  - observe: $0', ['kink', 'buckle', 'tear', 'crack', 'corrosion', 'gap']],
    ['timeline:\n  - measure: a\n    set-up: $0', ['same', 'new']],
    ['timeline:\n  - note: $0', []],
    ['technician: $0', []],
  ])('of a job: %s', async (next, words) => {
    expect((await offered(`${head}${next}\n`)).labels).toEqual(words);
  });

  it.each([
    [
      'parts:\n  a: { steel: $0 }',
      ['mild', 'high-strength', 'ultra-high-strength', 'press-hardened', 'aluminium', 'other'],
    ],
    ['parts:\n  a: { sided: $0 }', ['true', 'false']],
    ['parts:\n  a:\n    straighten: m$0', ['freely', 'minor', 'never']],
    ['points:\n  a: { fixing: $0 }', ['hole', 'bolt', 'stud', 'edge', 'surface']],
    ['source: { kind: $0 }', ['published', 'donor', 'mirrored', 'measured']],
    ['spans:\n  - { pairs: $0 }', ['straight', 'crossed']],
    ['points:\n  a: $0', ['{ both: [ , , ] }', '{ centre: [ , , ] }']],
    ['points:\n  a: { left: $0 }', ['[ , , ]']],
  ])('of a chassis file: %s', async (next, words) => {
    expect((await offered(`framewright: chassis/1\n${next}\n`, 'b.chassis.yaml')).labels).toEqual(words);
  });
});

describe('files', () => {
  it('are the chassis files that belong together with it, by the way to them', async () => {
    const job = await offered('framewright: readings/1\nchassis: $0\n', 'jobs/w.readings.yaml');
    expect(job.labels).toEqual(['../car.chassis.yaml', '../specs/van.chassis.yaml']);
    // few steps first
    expect((await offered('framewright: readings/1\nchassis: $0\n')).labels).toEqual([
      'car.chassis.yaml',
      'specs/van.chassis.yaml',
    ]);
    const own = await offered('framewright: chassis/1\nextends: ./$0\n', 'specs/van.chassis.yaml');
    expect(own.labels).toEqual(['../car.chassis.yaml']);
    const beside = await offered('framewright: readings/1\nchassis: ./$0\n');
    expect(beside.taken('./specs/van.chassis.yaml')).toBe('chassis: ./specs/van.chassis.yaml');
  });
});

describe('rules', () => {
  it('in the settings are those that may be changed, and their severities', async () => {
    const { labels, page } = await offered(
      'framewright: settings/1\nrules:\n  reading/outside: off\n  $0',
      '.framewright.yaml',
    );
    expect(labels).toContain('base/moved');
    expect(labels).not.toContain('reading/outside');
    expect(labels).not.toContain('procedure/never-straighten');
    expect(page('base/moved')).toBeTruthy();
    const severity = await offered(
      'framewright: settings/1\nrules: { reading/outside: $0 }',
      '.framewright.yaml',
    );
    expect(severity.labels).toEqual(['error', 'warning', 'information', 'off']);
  });

  it('in a comment that silences are those found on the line first, and none that no comment silences', async () => {
    const row = '      rail-tip-lower.L: [3012, 468, 210]   # framewright-ignore $0';
    const { labels, taken } = await offered(jobOn(measured(row)));
    expect(labels.slice(0, 2).sort()).toEqual(['reading/one-level', 'reading/outside']);
    expect(
      labels.filter(
        (label) => label !== 'sign-off/old-seal' && /^(text|sign-off)\/|never-straighten/.test(label),
      ),
    ).toEqual([]);
    expect(taken('reading/outside')).toMatch(/# framewright-ignore reading\/outside: $/);
    const above = jobOn(
      measured('      # framewright-ignore read$0\n      rail-tip-lower.L: [3012, 468, 210]'),
    );
    expect((await offered(above)).labels).toContain('reading/outside');
  });

  it('the word that silences is offered in a comment, and nothing else is', async () => {
    expect((await offered(then('  - note: x # fr$0'))).labels).toEqual(['framewright-ignore']);
    expect((await offered(then('  - note: x # first of two $0'))).labels).toEqual([]);
    expect((await offered(then('  - note: "x # $0'))).labels).toEqual([]);
  });
});
