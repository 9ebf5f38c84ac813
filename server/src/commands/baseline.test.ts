import { describe, expect, it } from 'vitest';
import { analysed } from '../findings/testing/analysed';
import { signed } from '../findings/testing/sign-off';
import { carChassis, jobOn, measured } from '../testing/car';
import { Workspace } from '../workspace/workspace';
import { aboutAt } from './about';
import { baselineFrom, baselineText, knowable, knownCount, stillThere, withoutKnown } from './baseline';
import { fileReport } from './file-report';
import { sampleTexts, shopOf, target } from './recorded.fixture';

const off = (more = ''): string =>
  jobOn(
    measured(`      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 442, 352]${more}`),
    'order: W-1\ninstrument: { name: arm, uncertainty: 0.2 }\ntechnican: rk',
  );

const reportOf = (text: string, open = false) =>
  fileReport(new Workspace(shopOf({ 'w.readings.yaml': text })), target('w.readings.yaml'), {
    open,
    summaries: false,
    verbose: false,
  });

describe('a finding is known by the names on the way to it', () => {
  it.each([
    ['rail-tip-upper.L', 'timeline > as received > readings > rail-tip-upper.L'],
    ['technican', 'technican'],
  ])('at %s', async (piece, about) => {
    const { tree, text } = await analysed(
      { 'car.chassis.yaml': carChassis, 'w.readings.yaml': off() },
      'w.readings.yaml',
    );
    const start = text.indexOf(piece);
    expect(aboutAt(tree, { start, end: start + 1 })).toBe(about);
  });

  it('a distance by its ends, and never by a line', async () => {
    const texts = {
      'w.readings.yaml': jobOn(
        measured('      latch: [3050, 0, 780]').replace(
          '    readings:',
          '    spans:\n      - [floor-front.L, latch, 2010.0]\n    readings:',
        ),
      ),
    };
    const { tree, text } = await analysed({ 'car.chassis.yaml': carChassis, ...texts }, 'w.readings.yaml');
    const start = text.indexOf('2010.0');
    expect(aboutAt(tree, { start, end: start + 6 })).toBe(
      'timeline > as received > spans > floor-front.L latch',
    );
    const lower = {
      ...(await analysed(
        { 'car.chassis.yaml': carChassis, 'w.readings.yaml': `# a line\n${text}` },
        'w.readings.yaml',
      )),
    };
    expect(aboutAt(lower.tree, { start: start + 9, end: start + 15 })).toBe(
      aboutAt(tree, { start, end: start + 6 }),
    );
  });
});

describe('names that do not tell one thing from another', () => {
  const aboutIn = async (text: string, piece: string) => {
    const { tree } = await analysed(
      { 'car.chassis.yaml': carChassis, 'w.readings.yaml': text },
      'w.readings.yaml',
    );
    const start = tree.text.indexOf(piece);
    return aboutAt(tree, { start, end: start + 1 });
  };

  it('a measure whose name is a number has one all the same', async () => {
    const one = await aboutIn(off().replace('as received', '1'), 'rail-tip-upper.L');
    const two = await aboutIn(off().replace('as received', '2'), 'rail-tip-upper.L');
    expect([one, two]).toEqual([1, 2].map((n) => `timeline > ${n} > readings > rail-tip-upper.L`));
  });

  it('what has a name that is too long is always shown', async () => {
    const long = off().replace('as received', 'n'.repeat(400));
    expect(await aboutIn(long, 'rail-tip-upper.L')).toBeNull();
    const report = await reportOf(long);
    const about = (point: string) => report.findings.filter(({ excerpt }) => excerpt.includes(point));
    expect(about('rail-tip-upper.L').length).toBeGreaterThan(0);
    expect(withoutKnown(report, knowable(report)).findings).toEqual(
      expect.arrayContaining(about('rail-tip-upper.L')),
    );
  });
});

it('a broken text is never known: new faults behind it would not be found', async () => {
  const report = await reportOf(off().replace('[3012, 442, 352]', '[3012, 442, 352'));
  const broken = report.findings.filter(({ rule }) => rule === 'text/syntax');
  expect(broken.length).toBeGreaterThan(0);
  const quiet = withoutKnown(report, knowable(report));
  expect([quiet.findings, quiet.fails]).toEqual([broken, true]);
});

describe('what is known', () => {
  it('is not shown and counts nowhere, wherever it stands by now', async () => {
    const report = await reportOf(off());
    const known = knowable(report);
    expect(report.fails).toBe(true);
    expect(known.size).toBeGreaterThan(1);
    const moved = await reportOf(`# above\n\n${off()}`);
    const quiet = withoutKnown(moved, known);
    expect(quiet.findings).toEqual([]);
    expect(quiet.counts).toMatchObject({ error: 0, warning: 0 });
    expect([quiet.fails, quiet.known]).toEqual([false, report.findings.length]);
  });

  it('does not hide what is new, be it of the same rule', async () => {
    const known = knowable(await reportOf(off()));
    const worse = off('\n      cowl-hole.L: [1480, 640, 905]').replaceAll(
      /cowl-hole\.L: \[1480, 612, 905\]\n +/g,
      '',
    );
    const { findings } = withoutKnown(await reportOf(worse), known);
    expect(findings.map(({ about }) => about)).toContain('timeline > as received > readings > cowl-hole.L');
  });

  it('does not hide a warning that became an error', async () => {
    const report = await reportOf(off());
    const lowered = report.findings.map((finding) => ({ ...finding, severity: 'warning' as const }));
    const shown = withoutKnown(report, knowable({ findings: lowered })).findings;
    expect(shown).toEqual(report.findings.filter(({ severity }) => severity === 'error'));
    expect(shown.length).toBeGreaterThan(0);
  });

  it('shows the last where there are more than were known', async () => {
    const report = await reportOf(off());
    const twice = {
      ...report,
      findings: [...report.findings, ...report.findings.map((each) => ({ ...each, line: 99 }))],
    };
    const shown = withoutKnown(twice, knowable(report)).findings;
    expect(shown.map(({ line }) => line)).toEqual(report.findings.map(() => 99));
  });

  it('with --open counts as little', async () => {
    const report = await reportOf(off(), true);
    expect([report.fails, withoutKnown(report, knowable(report)).fails]).toEqual([true, false]);
  });

  it('is nothing that guards work or sign-off, and no error of a signed job', async () => {
    const procedure = 'jobs/w-1212-procedure-mistakes.readings.yaml';
    const shop = shopOf({
      ...sampleTexts,
      'w.readings.yaml': signed(measured('      rail-tip-lower.L: [3012, 400, 210]')),
      'car.chassis.yaml': carChassis,
    });
    for (const path of [procedure, 'w.readings.yaml']) {
      const report = await fileReport(new Workspace(shop), target(path), {
        open: false,
        summaries: false,
        verbose: false,
      });
      const quiet = withoutKnown(report, knowable(report));
      expect(report.counts.error).toBeGreaterThan(0);
      expect(quiet.counts.error).toBe(
        report.findings.filter(({ about, severity }) => about === null && severity === 'error').length,
      );
      expect(quiet.counts.error).toBeGreaterThan(0);
      expect(quiet.fails).toBe(report.fails);
    }
  });
});

it('what is gone is taken out, and nothing comes in', async () => {
  const known = knowable(await reportOf(off()));
  const mended = await reportOf(
    off('\n      cowl-hole.L: [1480, 640, 905]').replace('technican', 'technician'),
  );
  const left = stillThere(known, mended);
  expect(left.size).toBeLessThan(known.size);
  for (const [key, count] of left) expect(known.get(key)).toBeGreaterThanOrEqual(count);
});

describe('the text of a baseline', () => {
  it('is read back as it was, a line a finding', async () => {
    const known = knowable(await reportOf(off()));
    const baseline = new Map([
      ['jobs/b.readings.yaml', known],
      ['jobs/a "q".readings.yaml', known],
    ]);
    const text = baselineText(baseline);
    expect(baselineFrom(text)).toEqual(baseline);
    expect(text.split('\n').filter((line) => line.includes('"rule"'))).toHaveLength(2 * known.size);
    expect(knownCount(baseline)).toBe([...known.values()].reduce((sum, count) => sum + count, 0) * 2);
    expect(baselineFrom(baselineText(new Map()))).toEqual(new Map());
    // whoever writes first, the text is the same
    expect(baselineText(new Map([...baseline].reverse()))).toBe(text);
  });

  it('may hold a line twice, as a merge leaves it: it counts once', async () => {
    const baseline = new Map([['a', knowable(await reportOf(off()))]]);
    const text = baselineText(baseline);
    const line = text.split('\n').find((each) => each.includes('"rule"'));
    expect(line).toMatch(/,$/);
    expect(baselineFrom(text.replace('[\n', `[\n${line}\n`))).toEqual(baseline);
  });

  it('may begin with a byte-order mark', async () => {
    const baseline = new Map([['a', knowable(await reportOf(off()))]]);
    expect(baselineFrom(`\ufeff${baselineText(baseline)}`)).toEqual(baseline);
  });

  it.each([
    ['half of one', (text: string) => text.slice(0, -20)],
    ['another version', (text: string) => text.replace('baseline/1', 'baseline/2')],
    ['a negative count', (text: string) => text.replace('"count":1', '"count":-1')],
    ['a merge conflict', (text: string) => `<<<<<<< ours\n${text}`],
    ['nothing', () => ''],
  ])('is refused where it is damaged: %s', async (_, damage) => {
    const text = baselineText(new Map([['a', knowable(await reportOf(off()))]]));
    expect(baselineFrom(damage(text))).toBeNull();
  });
});
