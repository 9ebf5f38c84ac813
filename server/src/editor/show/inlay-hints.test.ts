import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { JobAnalysis } from '../../workspace/workspace';
import { sampleFiles } from '../testing/asked';
import { type HintChoice, inlayHints } from './inlay-hints';

const judged = async (text: string): Promise<JobAnalysis> =>
  (await analysed(
    { 'car.chassis.yaml': carChassis, 'w.readings.yaml': text },
    'w.readings.yaml',
  )) as JobAnalysis;

const newest: HintChoice = { stages: 'newest', certainty: false, show: 'all' };

/** Each hint by the row that it stands behind. */
function hintsOf(analysis: JobAnalysis, choice = newest, range = { start: 0, end: analysis.text.length }) {
  return inlayHints(analysis, range, choice).map(({ offset, text, tooltip }) => {
    const row = analysis.text.slice(analysis.text.lastIndexOf('\n', offset - 1) + 1, offset).trim();
    return { row, text, tooltip };
  });
}

const both = '      rail-tip-lower.R: [3012, -448, 210]\n      rail-tip-upper.R: [3012, -452, 352]';
const twoStages = jobOn(
  `${measured(`      rail-tip-lower.L: [2998.4, 446.8, 210]\n      rail-tip-upper.L: [3012, 452, 352.02]\n${both}`)}
  - measure: again
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      cowl-hole.L: [1480, 612, 905]
      rail-tip-lower.L: [3012, 445, 210]
      rail-tip-lower.R: [3012, -450, 210]
`,
);

describe('beside each reading', () => {
  it('stands how far off it is, in words of direction, and nothing that shows as nothing', async () => {
    const [first] = (await judged(twoStages)).inspection!.stages;
    expect(first.alignment?.baseIds).toHaveLength(8);
    const hints = hintsOf(await judged(twoStages), { stages: 'all', certainty: false, show: 'all' });
    const firstOf = (id: string) => hints.find(({ row }) => row.startsWith(`${id}:`))!;
    expect(firstOf('rail-tip-lower.L')).toMatchObject({
      row: 'rail-tip-lower.L: [2998.4, 446.8, 210]',
      text: expect.stringMatching(/^13\.6 rearward, 1\.2 inboard/),
    });
    expect(firstOf('rail-tip-upper.R').text).toMatch(/^in place/);
  });

  it('stands first what is farthest past its limit; within all limits in the order of the row', async () => {
    const rows = (tip: string) => `${measured(`      rail-tip-lower.L: ${tip}\n${both}`)}\n`;
    const first = async (tip: string) => {
      const hints = hintsOf(await judged(jobOn(rows(tip))));
      return hints.find(({ row }) => row.startsWith('rail-tip-lower.L:'))!.text;
    };
    expect(await first('[3004, 425, 210.5]')).toMatch(/^2\d\.\d inboard, [78]\.\d rearward/);
    expect(await first('[3012.5, 449, 210]')).toMatch(/^0\.\d forward, 1\.\d outboard/);
  });

  it('only in the newest measure, in all, or in none', async () => {
    const analysis = await judged(twoStages);
    const count = (stages: HintChoice['stages']) =>
      hintsOf(analysis, { stages, certainty: false, show: 'all' }).length;
    expect([count('off'), count('newest'), count('all')]).toEqual([0, 7, 19]);
    for (const { row } of hintsOf(analysis)) expect(analysis.text.indexOf(row)).toBeGreaterThan(0);
    expect(
      hintsOf(analysis)
        .map(({ text }) => text)
        .at(-1),
    ).toMatch(/^2\.0 outboard/);
  });

  it('in the measure before, while the newest has no reading yet', async () => {
    const hints = hintsOf(await judged(twoStages));
    for (const next of [
      '',
      '\n    readings:\n      # latch: [ , , ]',
      '\n    readings:\n      latch: unreachable',
    ]) {
      const shown = hintsOf(await judged(`${twoStages}\n  - measure: next${next}\n`));
      expect(shown.map(({ row }) => row)).toEqual(hints.map(({ row }) => row));
    }
    const begun = hintsOf(
      await judged(`${twoStages}\n  - measure: next\n    readings:\n      latch: [3050, 0, 780]\n`),
    );
    expect(begun.map(({ row }) => row)).toEqual(['latch: [3050, 0, 780]']);
  });

  it('only in the range that is shown', async () => {
    const analysis = await judged(twoStages);
    const start = analysis.text.lastIndexOf('rail-tip-lower.L');
    const shown = hintsOf(analysis, newest, { start, end: start + 50 });
    expect(shown.map(({ row }) => row)).toEqual(['rail-tip-lower.L: [3012, 445, 210]']);
  });

  it('with ± at 95 % where that is wanted, else when it is pointed at', async () => {
    const analysis = await judged(twoStages);
    const certain = hintsOf(analysis, { stages: 'newest', certainty: true, show: 'all' }).at(-1)!;
    expect(certain.text).toMatch(/length 0 ±\d\.\d, (2\.0 ±\d\.\d outboard, )?height 0 ±\d\.\d/);
    const plain = hintsOf(analysis).at(-1)!;
    expect(plain.text).not.toContain('±');
    expect(plain.tooltip).toContain(certain.text);
    expect(plain.tooltip).toBe(certain.tooltip);
  });

  it('says where it must not be taken for more: a peak, a base that is not settled', async () => {
    const path = 'jobs/w-1192-twisted-rail.readings.yaml';
    const analysis = (await analysed(sampleFiles(path), path)) as JobAnalysis;
    const all = hintsOf(analysis, { stages: 'all', certainty: false, show: 'all' });
    const peaks = analysis.inspection!.stages.filter(({ underTension }) => underTension);
    const rows = peaks.flatMap(({ points }) => points).length;
    expect(rows).toBe(10);
    expect(all.filter(({ text }) => text.startsWith('peak: '))).toHaveLength(rows);
    expect(all.filter(({ tooltip }) => tooltip.includes('after release'))).toHaveLength(rows);
    const few = jobOn('  - measure: a\n    readings:\n      latch: [3050, 0, 780]');
    for (const { text } of hintsOf(await judged(few)))
      expect(text).toMatch(/^(provisional: )?not judged|^provisional: /);
  });
});

it('beside a distance stands by how much it is too long or too short', async () => {
  const spans = (mm: string) =>
    jobOn(
      `${measured('      latch: [3050, 0, 780]')}\n    spans:\n      - [rail-tip-lower.L, strut-top.R, ${mm}]`,
    );
  const last = async (mm: string) => hintsOf(await judged(spans(mm))).at(-1)!;
  expect((await last('1400.0')).text).toMatch(/^11\.8 too short/);
  expect((await last('1413.0')).text).toMatch(/^1\.2 too long/);
  expect((await last('1411.8')).text).toMatch(/^as listed/);
  expect((await last('unreachable')).row).toContain('latch');
});

it('in an inch file stand inches', async () => {
  const mm = await judged(twoStages);
  const inch = twoStages
    .replace('framewright: readings/1', 'framewright: readings/1\nunits: inch')
    .replace('uncertainty: 0.2', 'uncertainty: 0.008')
    .replace(/-?\d+(\.\d+)?(?=[,\]])/g, (number) => (Number(number) / 25.4).toFixed(4));
  const texts = hintsOf(await judged(inch), { stages: 'all', certainty: false, show: 'all' }).map(
    ({ text }) => text,
  );
  expect(texts).toHaveLength(19);
  expect(texts[8]).toMatch(/^0\.535 rearward, 0\.04[678] inboard/);
  expect(hintsOf(mm, { stages: 'all', certainty: false, show: 'all' })[8].text).toMatch(/^13\.6 rearward/);
});

it('without a body nothing is shown', async () => {
  const analysis = await judged(twoStages.replace('car.chassis', 'lost.chassis'));
  expect(hintsOf(analysis, { stages: 'all', certainty: true, show: 'all' })).toEqual([]);
});
