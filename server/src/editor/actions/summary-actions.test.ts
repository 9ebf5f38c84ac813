import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import { chassisText, controlIds, jobText, measureText, railIds } from '../../testing/pulled-rail';
import { before, chosenAt, difference, offeredAt, sampleFiles, type Texts } from '../testing/asked';

const titles = ['twist', 'sweep', 'bend', 'stretch', 'body', 'spring-back'].map(
  (kind) => `Insert ${kind} summary`,
);
const name = 'w.readings.yaml';
const shop = (job: string): Texts => ({ 'car.chassis.yaml': carChassis, [name]: job });
const rows = `      rail-root-lower.L: [1760, 441, 188]   # hole
      rail-root-upper.L: [1760, 445, 328]
      rail-tip-lower.L: [3012, 441, 210]
      rail-tip-upper.L: [3012, 430, 352]   # stud bent`;
const job = jobOn(
  `  # the morning\n${measured(rows)}\n    note: on the lift\n\n  # the afternoon\n  - observe: kink\n    part: front-rail.L`,
  'scope: [front-rail.L]',
);

const stale = async (files: Texts) =>
  (await analysed(files, name)).findings
    .filter(({ rule }) => /^text\/|stale-summary/.test(rule))
    .map(({ rule, message }) => `${rule}: ${message}`);

describe.each(titles.slice(0, 5))('%s', (title) => {
  const kind = title.split(' ')[1];
  const asked = shop(before(job, 'as received'));

  it('adds lines below the measure and touches nothing else', async () => {
    const text = await chosenAt(asked, name, title);
    const { added, gone } = difference(job, text);
    expect(gone).toEqual([]);
    expect(added[0]).toBe('    summary:\n');
    expect(added.slice(1)).toHaveLength(1);
    expect(added[1]).toMatch(kind === 'body' ? /^ {6}body: ./ : new RegExp(`^ {6}front-rail\\.L ${kind}: .`));
    expect(text.indexOf('    note: on the lift\n    summary:')).toBeGreaterThan(0);
  });

  it('reads back as not stale, and is then not offered again', async () => {
    const text = await chosenAt(asked, name, title);
    expect(await stale(shop(text))).toEqual([]);
    expect((await offeredAt(shop(before(text, 'as received')), name)).has(title)).toBe(false);
  });

  it('keeps the line ends of the file', async () => {
    const crlf = job.replaceAll('\n', '\r\n');
    const text = await chosenAt(shop(before(crlf, 'as received')), name, title);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(text.replaceAll('\r\n', '\n')).toBe(await chosenAt(asked, name, title));
  });
});

describe('a block that stands already', () => {
  it('gets the lines that it lacks below those that it has', async () => {
    const first = await chosenAt(shop(before(job, 'as received')), name, titles[0]);
    const second = await chosenAt(shop(before(first, 'as received')), name, titles[1]);
    const { added, gone } = difference(first, second);
    expect(gone).toEqual([]);
    expect(added).toHaveLength(1);
    expect(added[0]).toMatch(/^ {6}front-rail\.L sweep: /);
    expect(await stale(shop(second))).toEqual([]);
  });

  it('has its stale line written anew, its comment and the other lines kept', async () => {
    const old = job.replace(
      '    note: on the lift\n',
      '    summary:\n      body: as I see it\n      front-rail.L twist: 1°    # by eye\n    note: on the lift\n',
    );
    const text = await chosenAt(shop(before(old, 'as received')), name, titles[0]);
    const { added, gone } = difference(old, text);
    expect(gone).toEqual(['      front-rail.L twist: 1°    # by eye\n']);
    expect(added).toEqual([expect.stringMatching(/^ {6}front-rail\.L twist: 6\.0° .* {4}# by eye\n$/)]);
    expect(text).toContain('body: as I see it');
  });

  it('in braces keeps what it holds', async () => {
    const old = job.replace('    note: on the lift\n', '    summary: { body: as I see it }   # mine\n');
    const text = await chosenAt(shop(before(old, 'as received')), name, titles[0]);
    expect(text).toMatch(/ {4}summary: \{ body: as I see it, front-rail\.L twist: ".*" \} {3}# mine\n/);
    expect((await stale(shop(text))).filter((each) => !each.includes('it would now be'))).toEqual([]);
  });

  it.each(['', ' {}', ' ~'])('that is empty is filled: `summary:%s`', async (empty) => {
    const old = job.replace(
      '    note: on the lift\n',
      `    summary:${empty}   # here\n    note: on the lift\n`,
    );
    const text = await chosenAt(shop(before(old, 'as received')), name, titles[0]);
    expect(text).toContain('# here');
    expect(text).toContain('    note: on the lift\n');
    expect(await stale(shop(text))).toEqual([]);
  });

  it('that is no block at all is a person’s: nothing is offered', async () => {
    const old = job.replace('    note: on the lift\n', '    summary: looks twisted\n');
    const offered = await offeredAt(shop(before(old, 'as received')), name);
    expect([...offered.keys()].filter((title) => titles.includes(title))).toEqual([]);
  });
});

describe('is not offered', () => {
  const offeredTitles = async (files: Texts, of = name) =>
    [...(await offeredAt(files, of)).keys()].filter((title) => titles.includes(title));

  it('outside of a measure, or of what nothing can be told', async () => {
    expect(await offeredTitles(shop(before(job, 'kink')))).toEqual([]);
    expect(await offeredTitles(shop(before(job, 'scope')))).toEqual([]);
    const none = jobOn(measured('      latch: [3050, 0, 780]'));
    expect(await offeredTitles(shop(before(none, 'as received')))).toEqual(['Insert body summary']);
  });

  it('without a chassis, or on a measure in braces', async () => {
    expect(await offeredTitles({ [name]: before(job, 'as received') })).toEqual([]);
    const braces = jobOn('  - { measure: quick, readings: { latch: [3050, 0, 780] } }');
    expect(await offeredTitles(shop(before(braces, 'quick')))).toEqual([]);
  });
});

it('spring-back is told once a pull was released, and reads back', async () => {
  const ids = [...controlIds, ...railIds('L')];
  const rail =
    (mm: number) =>
    (id: string): [number, number, number] => [0, railIds('L').includes(id) ? mm : 0, 0];
  const files = {
    'marten.chassis.yaml': chassisText(),
    [name]: jobText([
      measureText('as received', ids, rail(-12)),
      '  - pull: out\n    part: front-rail.L\n    hook: tip-lower.L\n    direction: [0, 1, 0]\n',
      measureText('under load', railIds('L'), rail(2)),
      '  - release: all\n',
      measureText('released', ids, rail(-4)),
    ]),
  };
  const asked = (text: string, where: string) => ({ ...files, [name]: before(text, where) });
  expect((await offeredAt(asked(files[name], 'as received'), name)).size).toBeGreaterThan(0);
  const text = await chosenAt(asked(files[name], 'measure: released'), name, 'Insert spring-back summary');
  const { added, gone } = difference(files[name], text);
  expect(gone).toEqual([]);
  expect(added.join('')).toMatch(/ {4}summary:\n {6}front-rail\.L spring-back: .*6\.0 mm/);
  expect(await stale({ ...files, [name]: text })).toEqual([]);
});

it('every summary of the twisted rail, one after the other, leaves every other line as it was', async () => {
  const path = 'jobs/w-1192-twisted-rail.readings.yaml';
  const files = sampleFiles(path);
  let text = files[path];
  for (const title of titles)
    text = await chosenAt({ ...files, [path]: before(text, 'after second pull') }, path, title);
  expect(text.split('\n').filter((line) => !files[path].split('\n').includes(line))).toHaveLength(
    1 + 2 * 4 + 1 + 1,
  );
  const { findings } = await analysed({ ...files, [path]: text }, path);
  expect(findings.filter(({ rule }) => /stale-summary|^text\//.test(rule))).toEqual([]);
});
