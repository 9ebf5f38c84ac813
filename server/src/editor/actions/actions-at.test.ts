import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import { after, before, chosenAt, moment, offeredAt, sampleFiles, sampleJobs } from '../testing/asked';
import { actionsAt } from './actions-at';

const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });
const row = '      rail-tip-uper.L: [3012, 452, 352]   # typed in a hurry';

describe('did you mean', () => {
  it('is offered on the finding, mends it and touches nothing else', async () => {
    const job = jobOn(measured(row));
    const files = shop(before(job, 'rail-tip-uper'));
    const [[title, action]] = await offeredAt(files, 'w.readings.yaml');
    expect(title).toContain('rail-tip-upper.L');
    expect(action).toMatchObject({
      kind: 'quickfix',
      preferred: true,
      mends: expect.objectContaining({ rule: 'name/unknown-point' }),
    });
    expect(after(job, action)).toBe(job.replace('rail-tip-uper.L', 'rail-tip-upper.L'));
  });

  it('is not offered elsewhere, nor where the finding is ignored', async () => {
    const job = jobOn(measured(row));
    const elsewhere = await offeredAt(shop(before(job, 'floor-rear.L')), 'w.readings.yaml');
    expect([...elsewhere.keys()].filter((title) => title.includes('rail-tip-upper'))).toEqual([]);
    const ignored = jobOn(
      measured(`${row.split('#')[0]}# framewright-ignore name/unknown-point: not on the sheet`),
    );
    const offered = await offeredAt(shop(before(ignored, 'rail-tip-uper')), 'w.readings.yaml');
    expect([...offered.values()].filter(({ kind }) => kind === 'quickfix')).toEqual([]);
  });

  it('works in a chassis file too', async () => {
    const chassis = carChassis.replace('part: apron }', 'part: aprn }');
    const title = [
      ...(await offeredAt({ 'car.chassis.yaml': before(chassis, 'aprn') }, 'car.chassis.yaml')).keys(),
    ];
    expect(title).toHaveLength(1);
    expect(
      await chosenAt({ 'car.chassis.yaml': before(chassis, 'aprn') }, 'car.chassis.yaml', title[0]),
    ).toBe(carChassis);
  });

  it('works in a settings file', async () => {
    const text = 'framewright: settings/1\ndecison-rule: guarded\n';
    const files = { '.framewright.yaml': before(text, 'decison') };
    const [title] = (await offeredAt(files, '.framewright.yaml')).keys();
    expect(await chosenAt(files, '.framewright.yaml', title)).toBe(text.replace('decison', 'decision'));
  });
});

/** Enough to tell a finding from the others of its rule, wherever edits above have moved it. */
const told = ({ rule, message }: { rule: string; message: string }): string => `${rule}: ${message}`;

describe('every fix of every sample, chosen where its finding stands', () => {
  it.each(sampleJobs)('%s', async (path) => {
    const files = sampleFiles(path);
    const analysis = await analysed(files, path);
    const fixed = analysis.findings.filter(({ replacements }) => replacements.length > 0);
    const withheld: string[] = [];
    for (const finding of fixed) {
      const offered = actionsAt(analysis, finding.range, moment).filter(
        ({ mends, ask }) => mends === finding && ask === undefined,
      );
      const titles = offered.map(({ title }) => title);
      withheld.push(
        ...finding.replacements.map(({ title }) => title).filter((each) => !titles.includes(each)),
      );
      for (const action of offered) {
        const text = after(files[path], action);
        const { findings } = await analysed({ ...files, [path]: text }, path);
        const still = findings.filter(({ range }) => range.start === finding.range.start).map(told);
        expect(still, action.title).not.toContain(told(finding));
      }
    }
    // the measure has a row of that name already
    expect(withheld).toEqual(path.includes('typing-mistakes') ? ['Change to strut-top.R'] : []);
    expect(fixed.length > 0).toBe(/typing-mistakes|measuring-mistakes/.test(path));
  });
});

describe('all suggestions for mistyped words', () => {
  const path = 'jobs/w-1210-typing-mistakes.readings.yaml';
  const all = /^Take all \d+ suggestions/;

  it('mend the faulty sample in two goes, and leave what only a person can type', async () => {
    const files = { ...sampleFiles(path) };
    const changed: number[] = [];
    for (;;) {
      const analysis = await analysed(files, path);
      const single = analysis.findings.filter(({ replacements }) => replacements.length === 1);
      const offered = single.flatMap(({ range }) => actionsAt(analysis, range, moment));
      const action =
        offered.find(({ title }) => all.test(title)) ?? offered.find(({ preferred }) => preferred);
      if (!action) break;
      expect(changed.length).toBeLessThan(3);
      changed.push(action.edits.length);
      files[path] = after(files[path], action);
    }
    expect(changed[0]).toBeGreaterThan(7);
    const mended = files[path]
      .split('\n')
      .filter((line, i) => line !== sampleFiles(path)[path].split('\n')[i]);
    for (const word of [
      'technician:',
      '[floor-front, ',
      'front-rail.R]',
      'rail-tip-lower.L:',
      'unreachable',
      'latch:',
      'buckle',
      'apron.L',
      '- release:',
      'readings:',
    ])
      expect(mended.join('\n'), word).toContain(word);
  });

  it('are no choice of an editor alone: never preferred, and no fix of a file that is saved', async () => {
    const job = jobOn(measured(row)).replace('instrument:', 'instrumnt:');
    const offered = await offeredAt(shop(before(job, 'rail-tip-uper')), 'w.readings.yaml');
    const action = [...offered].find(([title]) => all.test(title))?.[1];
    expect(action).toMatchObject({ kind: 'quickfix', preferred: false });
    expect(after(job, action!)).toBe(
      job.replace('rail-tip-uper', 'rail-tip-upper').replace('instrumnt', 'instrument'),
    );
    const elsewhere = await offeredAt(shop(before(job, 'floor-rear.L')), 'w.readings.yaml');
    expect([...elsewhere.keys()].filter((title) => all.test(title))).toEqual([]);
    const single = await offeredAt(shop(before(jobOn(measured(row)), 'rail-tip-uper')), 'w.readings.yaml');
    expect([...single.keys()].filter((title) => all.test(title))).toEqual([]);
  });

  it('do not make one word of two', async () => {
    const rows = `${row}\n      rail-tip-uppr.L: [3012, 452, 352]`;
    const offered = await offeredAt(shop(before(jobOn(measured(rows)), 'rail-tip-uper')), 'w.readings.yaml');
    expect([...offered.keys()].filter((title) => all.test(title))).toEqual([]);
  });
});

it.each(sampleJobs)(
  'what silences stands below all else of its group, as an editor sorts them: %s',
  async (path) => {
    const analysis = await analysed(sampleFiles(path), path);
    const whole = { start: 0, end: analysis.text.length };
    for (const range of [...analysis.findings.map((finding) => finding.range), whole]) {
      const fixes = actionsAt(analysis, range, moment).filter(({ kind }) => kind === 'quickfix');
      // what mends a finding is put above what mends none
      const sorted = [...fixes.filter(({ mends }) => mends), ...fixes.filter(({ mends }) => !mends)];
      const silences = sorted.map(({ title }) => title.startsWith('Silence '));
      const first = silences.indexOf(true);
      expect(
        first < 0 || silences.slice(first).every((is) => is),
        sorted.map(({ title }) => title).join('\n'),
      ).toBe(true);
    }
  },
);

it('what silences a finding stands below a fix that mends none', async () => {
  const text = jobOn(measured(`${row}\n      rail-tip-lower.L: [2980, 448, 210]`)).replace(
    'instrument:',
    'instrumnt:',
  );
  const analysis = await analysed(shop(text), 'w.readings.yaml');
  const fixes = actionsAt(analysis, { start: 0, end: text.length }, moment).filter(
    ({ kind }) => kind === 'quickfix',
  );
  const sorted = [...fixes.filter(({ mends }) => mends), ...fixes.filter(({ mends }) => !mends)];
  const titles = sorted.map(({ title }) => title.split(' ')[0]);
  expect(titles).toContain('Silence');
  expect(titles.indexOf('Silence')).toBeGreaterThan(titles.lastIndexOf('Take'));
});

it('all did-you-mean fixes of the typing mistakes together leave only what a person must type', async () => {
  const path = 'jobs/w-1210-typing-mistakes.readings.yaml';
  const files = { ...sampleFiles(path) };
  for (let round = 0; round < 40; round++) {
    const analysis = await analysed(files, path);
    const finding = analysis.findings.find(({ replacements }) => replacements.length === 1);
    if (!finding) break;
    const [action] = actionsAt(analysis, finding.range, moment).filter(
      ({ mends, ask }) => mends === finding && ask === undefined,
    );
    files[path] = after(files[path], action);
  }
  const { findings } = await analysed(files, path);
  expect(findings.filter(({ replacements }) => replacements.length === 1)).toEqual([]);
  const left = findings.filter(({ rule }) => /^(text|name)\//.test(rule)).map(({ rule }) => rule);
  expect(left).not.toContain('text/unknown-key');
  expect(left).not.toContain('name/unknown-part');
  // an unclosed bracket, a name typed twice and a missing number are for a person to settle
  expect(left).toContain('text/syntax');
  expect(left).toContain('text/duplicate-key');
});
