import { describe, expect, it } from 'vitest';
import { signed } from '../findings/testing/sign-off';
import { chassisWith, job, measure, off } from '../testing/body';
import { carChassis, jobOn, measured } from '../testing/car';
import { check } from './check';
import type { Printing } from './check-selected';
import type { CheckOptions } from './file-report';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

const plain: CheckOptions & Printing = { open: false, summaries: false, verbose: false, coloured: false };

const checked = (
  texts: Record<string, string>,
  paths: string[],
  options: Partial<CheckOptions & Printing> = {},
) => recorded((output) => check(shopOf(texts), paths.map(target), { ...plain, ...options }, output));

const tipIn = jobOn(
  measured('      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]'),
  'order: W-1\ninstrument: { name: arm, uncertainty: 0.2 }\nscope: [front-rail.L]',
);
const typo = tipIn.replace('rail-tip-lower.L', 'rail-tip-lowr.L');

describe('what could not be read', () => {
  const shop = shopOf({ 'jobs/w.readings.yaml': tipIn.replace('car.chassis', '../car.chassis') });
  const locked = { uri: 'file:///shop/jobs/old%202024', message: 'this folder may not be read' };
  const run = (files: Partial<typeof shop>, path: string) =>
    recorded((output) => check({ ...shop, ...files }, [target(path)], plain, output));
  const broken = async (): Promise<never> => {
    throw new Error('EIO: i/o error');
  };

  it('is a line of its own and exit code 2, and the rest is judged', async () => {
    const list: typeof shop.list = async (...asked) => ({
      ...(await shop.list(...asked)),
      unread: [locked, { ...locked, uri: 'file:///shop/jobs/\u202e%1b.readings.yaml' }],
    });
    const { code, printed, complained } = await run({ list }, 'jobs');
    expect(code).toBe(2);
    expect(printed).toContain('jobs/w.readings.yaml: order W-1');
    expect(complained.split('\n')).toEqual([
      'framewright: jobs/old 2024: this folder may not be read',
      'framewright: jobs/  .readings.yaml: this folder may not be read',
    ]);
  });

  it('is said of the folder itself', async () => {
    const list = async () => ({ uris: [], unread: [{ uri: 'file:///shop/jobs/', message: 'no' }] });
    expect(await run({ list }, 'jobs')).toEqual({
      code: 2,
      printed: '',
      complained: 'framewright: jobs: no',
    });
  });

  it.each(['list', 'read'])('is said where the disk fails to %s', async (what) => {
    const { code, printed, complained } = await run({ [what]: broken }, 'jobs');
    expect({ code, printed }).toEqual({ code: 2, printed: '' });
    expect(complained).toBe('framewright: jobs: it cannot be read (EIO: i/o error)');
  });
});

describe('a finding', () => {
  it('has file, line and column, its line and a caret under its range', async () => {
    const { printed, code } = await checked({ 'w.readings.yaml': typo }, ['w.readings.yaml']);
    const [head, line, caret] = printed
      .split('\n')
      .slice(printed.split('\n').findIndex((each) => each.includes('name/')));
    expect(head).toBe(
      'w.readings.yaml:17:7: error: there is no point rail-tip-lowr.L; did you mean rail-tip-lower.L? [name/unknown-point]',
    );
    expect(line).toBe('  17 |       rail-tip-lowr.L: [3012, 448, 210]');
    expect(caret).toBe('     |       ^^^^^^^^^^^^^^^');
    expect(line.indexOf('rail-tip')).toBe(caret.indexOf('^'));
    expect(code).toBe(1);
  });

  it('keeps its caret in place behind a tab and in a long line', async () => {
    const tab = typo
      .replace('      rail-tip-lowr.L: [', '      rail-tip-lowr.L:\t[')
      .replace(': [3012, 442', ':\t[3012, 442');
    const { printed } = await checked({ 'w.readings.yaml': tab }, ['w.readings.yaml']);
    expect(printed).not.toContain('\t');
    const long = typo.replace('[3012, 448, 210]', `[3012, 448, 210]   # ${'x'.repeat(500)}`);
    const { printed: clipped } = await checked({ 'w.readings.yaml': long }, ['w.readings.yaml']);
    expect(
      Math.max(
        ...clipped
          .split('\n')
          .filter((each) => /^ +\d* \|/.test(each))
          .map((each) => each.length),
      ),
    ).toBeLessThan(140);
    expect(clipped).toContain('x…');
  });

  it('for information is printed only when asked for, and counted all the same', async () => {
    const quiet = jobOn(measured('      latch: [3050, 0, 780]'), 'instrument: { name: arm }');
    const silent = await checked({ 'w.readings.yaml': quiet }, ['w.readings.yaml']);
    expect(silent.printed).not.toContain('[reading/no-uncertainty]');
    expect(silent.printed).toMatch(/for information \(--verbose shows (it|them)\)$/);
    const loud = await checked({ 'w.readings.yaml': quiet }, ['w.readings.yaml'], { verbose: true });
    expect(loud.printed).toContain('[reading/no-uncertainty]');
    expect(loud.printed).not.toContain('--verbose');
  });

  it('that is ignored is listed with its reason and does not count', async () => {
    const ignored = tipIn.replace(
      '      rail-tip-upper.L',
      '      # framewright-ignore reading/outside: comes with the new wing\n      rail-tip-upper.L',
    );
    const { printed } = await checked({ 'w.readings.yaml': ignored }, ['w.readings.yaml'], { open: true });
    expect(printed).toContain('error (ignored): rail-tip-upper.L is 10.0 mm too far right');
    expect(printed).toContain('  ignored here: comes with the new wing');
    expect(printed).toMatch(/^1 file: 0 errors, .*, 1 ignored with a reason$/m);
  });

  it('says nothing to the terminal but text: what steers it is blanked', async () => {
    const steering = typo
      .replace('rail-tip-lowr.L', '"\\e[2J\\u202erail\\u009b31m"')
      .replace('order: W-1', 'order: "W\\e[31m"')
      .replace('measure: as received', 'measure: "a\\ab\\nc"');
    const { printed, complained } = await checked({ 'w.readings.yaml': steering }, ['w.readings.yaml'], {
      summaries: true,
      verbose: true,
    });
    expect(printed).toContain('there is no point');
    expect(printed + complained).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    expect(printed.split('\n').some((line) => line.startsWith('c"'))).toBe(false);
  });
});

describe('colour', () => {
  it('is there only when asked for, and the words are the same', async () => {
    const without = await checked({ 'w.readings.yaml': typo }, ['w.readings.yaml']);
    const coloured = await checked({ 'w.readings.yaml': typo }, ['w.readings.yaml'], { coloured: true });
    expect(without.printed).not.toContain('\u001b');
    expect(coloured.printed).toContain('\u001b[');
    expect(coloured.printed.replace(/\u001b\[\d+m/g, '')).toBe(without.printed);
  });
});

describe('the summary of a job', () => {
  it('names base, counts, the worst point and what remains', async () => {
    const { printed } = await checked({ 'w.readings.yaml': tipIn }, ['w.readings.yaml']);
    expect(printed).toContain(`w.readings.yaml: order W-1, open
  newest stage "as received"
  base: cowl-hole.L, cowl-hole.R, floor-front.L, floor-front.R, floor-rear.L, floor-rear.R, tunnel-front.L and tunnel-front.R
  newest readings: 9 within, 1 outside, 0 undecided
  worst: rail-tip-upper.L, 10.0 mm right (inboard) of its place, ±0.6 (95 %)
  remains:
    rail-tip-upper.L: outside
    rail-root-lower.L: not measured`);
  });

  it('names moved control points and says where an alignment was taken from', async () => {
    const moved = measured('      latch: [3050, 0, 780]').replace('[1480, 612, 905]', '[1480, 612, 930]');
    const { printed } = await checked(
      { 'w.readings.yaml': jobOn(`${moved}\n  - measure: later\n    readings: { latch: [3050, 9, 780] }`) },
      ['w.readings.yaml'],
    );
    expect(printed).toContain('  newest stage "later"\n');
    expect(printed).toMatch(/ {2}base: .* \(taken over from "as received"\)/);
    expect(printed).toContain('  moved: cowl-hole.L');
  });

  it('counts nothing as within by a base that is not settled', async () => {
    const text = jobOn(
      `${measured('      latch: [3050, 0, 780]')}
  - pull: out
    part: front-rail.L
  - release: all
  - measure: after
    readings: { latch: [3050, 0, 780] }`,
    );
    const { printed } = await checked({ 'w.readings.yaml': text }, ['w.readings.yaml']);
    expect(printed).toContain('  newest stage "after", provisional\n');
    expect(printed).toContain(
      '  newest readings: 8 within, 0 outside, 0 undecided, 1 within but provisional\n',
    );
  });

  it('has the summaries of the newest stage when asked for', async () => {
    const lines = /^ {2}front-rail\.L twist: 4\.0° ±.* top leans right at 3012 mm$/m;
    expect((await checked({ 'w.readings.yaml': tipIn }, ['w.readings.yaml'])).printed).not.toMatch(lines);
    expect(
      (await checked({ 'w.readings.yaml': tipIn }, ['w.readings.yaml'], { summaries: true })).printed,
    ).toMatch(lines);
  });

  it('says what stands of a sign-off, and that it covers dimensions only', async () => {
    const closed = (mm: number) => ({
      'body.chassis.yaml': chassisWith(),
      'w.readings.yaml': job(
        measure('finished', off({ 'rail-root-lower.L': [0, mm, 0] })),
        'scope: [front-rail.L]\n',
        signed(),
      ),
    });
    expect((await checked(closed(0), ['w.readings.yaml'])).printed).toContain(
      '  sign-off: stands (dimensions only)',
    );
    const failed = (await checked(closed(9), ['w.readings.yaml'])).printed;
    expect(failed).toContain('  sign-off does not stand:\n    rail-root-lower.L: outside');
  });

  it.each([
    ['nothing is judged: there is no chassis file to judge by', tipIn.replace('car.chassis', 'none.chassis')],
    [
      'nothing was measured yet',
      'framewright: readings/1\nchassis: car.chassis.yaml\ntimeline:\n  - note: not here yet\n',
    ],
  ])('%s', async (words, text) => {
    expect((await checked({ 'w.readings.yaml': text }, ['w.readings.yaml'])).printed).toContain(`  ${words}`);
  });
});

describe('the exit code', () => {
  // its one listed distance is what its positions give
  const soundChassis = carChassis.replace('1411.8', '1408.2');
  const sound = jobOn(
    measured(
      ['root-lower', 'root-upper', 'tip-lower', 'tip-upper']
        .map(
          (name, i) =>
            `      rail-${name}.L: ${['[1760, 441, 188]', '[1760, 445, 328]', '[3012, 448, 210]', '[3012, 452, 352]'][i]}`,
        )
        .join('\n'),
    ),
    'scope: [front-rail.L]\ninstrument: { name: arm, uncertainty: 0.2 }',
  );
  const shop = (text: string) => ({ 'w.readings.yaml': text });

  it('is 0 where nothing is wrong', async () => {
    const { code, printed, complained } = await checked(shop(sound), ['w.readings.yaml']);
    expect({ code, complained }).toEqual({ code: 0, complained: '' });
    expect((await checked({ 'c.chassis.yaml': soundChassis }, ['c.chassis.yaml'])).code).toBe(0);
    expect(printed).toMatch(/\n1 file: 0 errors, 0 warnings, \d+ for information/);
  });

  it('is 0 for the work still to do in an open job, 1 with --open', async () => {
    expect((await checked(shop(tipIn), ['w.readings.yaml'])).code).toBe(0);
    expect((await checked(shop(tipIn), ['w.readings.yaml'], { open: true })).code).toBe(1);
    expect((await checked(shop(sound), ['w.readings.yaml'], { open: true })).code).toBe(0);
  });

  it.each([
    ['a slip in a job', shop(typo), 'w.readings.yaml'],
    ['an empty file', shop(''), 'w.readings.yaml'],
    ['no chassis', shop(tipIn.replace('car.chassis', 'none.chassis')), 'w.readings.yaml'],
    [
      'a slip in a chassis',
      { 'c.chassis.yaml': soundChassis.replace('part: apron', 'part: aprn') },
      'c.chassis.yaml',
    ],
    [
      'a distance that disagrees',
      { 'c.chassis.yaml': soundChassis.replace('1408.2', '1511.8') },
      'c.chassis.yaml',
    ],
    [
      'a slip in the settings',
      { '.framewright.yaml': 'framewright: settings/1\ndecision-rule: strict\n' },
      '.framewright.yaml',
    ],
    [
      'a sign-off that does not stand',
      shop(`${tipIn}sign-off: { by: rk, date: 2026-03-05, chassis: sha256-0badc0de }\n`),
      'w.readings.yaml',
    ],
  ])('is 1 for %s', async (_, texts, path) => {
    expect((await checked(texts as Record<string, string>, [path])).code).toBe(1);
  });

  it('is 2 where a path cannot be read, and the others are judged all the same', async () => {
    const { code, printed, complained } = await checked(shop(tipIn), [
      'none.readings.yaml',
      'w.readings.yaml',
    ]);
    expect(code).toBe(2);
    expect(complained).toBe('framewright: none.readings.yaml: there is no such file');
    expect(printed).toContain('[reading/outside]');
    const other = await checked({ 'notes.txt': 'x' }, ['notes.txt']);
    expect(other).toMatchObject({
      code: 2,
      complained: expect.stringContaining('the name must end in .chassis.yaml'),
    });
  });
});

describe('folders', () => {
  it('are searched, but for what the settings leave out, and no file is judged twice', async () => {
    const texts = {
      'jobs/a.readings.yaml': tipIn.replace('car.', '../car.'),
      'old/b.readings.yaml': typo,
      'notes.md': '',
    };
    const { printed } = await checked(
      { ...texts, '.framewright.yaml': 'framewright: settings/1\nignore: [old]\n' },
      ['.', 'jobs/a.readings.yaml', 'jobs'],
    );
    expect(printed).toContain('jobs/a.readings.yaml:');
    expect(printed).not.toContain('b.readings.yaml');
    expect(printed).toMatch(/^3 files: /m);
  });

  it('that hold none of ours are said to', async () => {
    const { code, complained } = await checked({ 'docs/notes.md': '' }, ['docs']);
    expect({ code, complained }).toEqual({
      code: 2,
      complained: 'framewright: docs: no *.chassis.yaml or *.readings.yaml below this folder',
    });
  });
});

it('the sample shop: among fourteen jobs one is malformed, one fails, one has names that its body has not yet; the signed one passes', async () => {
  const all = await checked(sampleTexts, ['.']);
  expect(all.code).toBe(1);
  expect(all.printed).toMatch(
    /\n18 files: \d+ errors, \d+ warnings, \d+ for information .*, 1 ignored with a reason$/,
  );
  const codes: Record<string, number> = {};
  for (const path of Object.keys(sampleTexts)) codes[path] = (await checked(sampleTexts, [path])).code;
  expect(Object.keys(codes).filter((path) => codes[path] !== 0)).toEqual([
    'jobs/w-1210-typing-mistakes.readings.yaml',
    'jobs/w-1212-procedure-mistakes.readings.yaml',
    'jobs/w-1218-used-front.readings.yaml',
  ]);
}, 60_000);
