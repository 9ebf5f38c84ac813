import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jobJson } from '../commands/formats/inspect-json';
import { jobSummary } from '../commands/formats/job-summary';
import { planReport } from '../commands/plan';
import { analysed } from '../findings/testing/analysed';
import { drawingOf } from '../report/drawing/drawing';
import { recordPage } from '../report/record/record';
import { shownText } from '../report/sample.fixture';
import { carChassis, jobOn } from '../testing/car';
import type { JobAnalysis } from '../workspace/workspace';
import { hoverAt } from './hover/hover';
import { lensesOf, lensWords } from './show/code-lens';
import { inlayHints } from './show/inlay-hints';

/** Every place where a figure is shown, for readings that fix nothing: what is not known is said so and never printed. */
type Triple = readonly [number, number, number];

const places: Record<string, Triple> = {
  'floor-front.L': [1200, 420, 95],
  'floor-front.R': [1200, -420, 95],
  'floor-rear.L': [-350, 455, 90],
  'tunnel-front.L': [905, 188, 242],
  'cowl-hole.L': [1480, 612, 905],
  'rail-root-lower.L': [1760, 441, 188],
  'rail-root-upper.L': [1760, 445, 328],
  'rail-tip-lower.L': [3012, 448, 210],
  'rail-tip-upper.L': [3012, 452, 352],
  'rail-root-upper.R': [1760, -445, 328],
  'rail-tip-lower.R': [3012, -448, 210],
  'rail-tip-upper.R': [3012, -452, 352],
};

const jobWith = (read: Record<string, Triple>, uncertainty = 0.2): string => {
  const rows = Object.entries(read).map(([id, triple]) => `      ${id}: [${triple.join(', ')}]`);
  return jobOn(
    `  - measure: as received\n    readings:\n${rows.join('\n')}`,
    `instrument: { uncertainty: ${uncertainty} }`,
  );
};

/** All that is shown of a job, each with where. */
async function shownOf(job: string): Promise<readonly (readonly [where: string, text: string])[]> {
  const analysis = (await analysed(
    { 'car.chassis.yaml': carChassis, 'w.readings.yaml': job },
    'w.readings.yaml',
  )) as JobAnalysis;
  const inspection = analysis.inspection!;
  const whole = { start: 0, end: job.length };
  const keys = [...job.matchAll(/[a-z][a-zA-Z-]*(\.[LR])?(?=:)/g)].map(({ index }) => index);
  return [
    ['findings', analysis.findings.map(({ message }) => message).join('\n')],
    ['summary', jobSummary(analysis, 'w', true).lines.join('\n')],
    [
      'lens',
      lensesOf(analysis, new Set(['framewright.signOff']))
        .map(({ about }) => lensWords(analysis, about)?.title ?? '')
        .join('\n'),
    ],
    [
      'hints',
      inlayHints(analysis, whole, { stages: 'all', certainty: true, show: 'all' })
        .map(({ text }) => text)
        .join('\n'),
    ],
    ['hover', keys.map((at) => hoverAt(analysis, at)?.markdown ?? '').join('\n')],
    ['plan', planReport(inspection) ?? ''],
    ['record', shownText(recordPage({ ...analysis, inspection }))],
    ['page', recordPage({ ...analysis, inspection })],
    ['drawing', figuresIn(drawingOf(inspection, inspection.stages[0], { width: 600 }))],
    ['json', figuresIn(jobJson(analysis, 'w'))],
  ];
}

/** Figures that are none, with the keys that they stand under; text by a ± is looked at where it is shown. */
function figuresIn(value: unknown, path = ''): string {
  if (typeof value === 'number') return Number.isFinite(value) ? '' : `${path} ${value}\n`;
  if (value === null || typeof value !== 'object') return '';
  // what was read stands behind the drawing whole, model and all
  if (/point|part$|judged|span|stage/.test(path)) return '';
  return Object.entries(value)
    .map(([key, each]) => figuresIn(each, `${path}/${key}`))
    .join('');
}

/** What must not be shown. */
function wrongIn(text: string): string[] {
  const wrong: string[] = [...(text.match(/.{0,40}\b(NaN|Infinity|undefined)\b/g) ?? [])];
  for (const [all, size, unit] of text.matchAll(/±(\d+(?:\.\d+)?)(°?)/g))
    if (Number(size) > (unit === '°' ? 45 : 1000)) wrong.push(all);
  return [...new Set(wrong)];
}

async function expectKnown(job: string): Promise<void> {
  const wrong = (await shownOf(job)).flatMap(([where, text]) =>
    wrongIn(text).map((each) => `${where}: ${each}`),
  );
  expect(wrong, job).toEqual([]);
}

describe('what readings do not fix', () => {
  const onto = (to: string, shift: Triple = [0, 0, 0]): Triple => {
    const [x, y, z] = places[to];
    return [x + shift[0], y + shift[1], z + shift[2]];
  };

  it('is no twist of two levels that were read at one place, or nearly', async () => {
    for (const shift of [
      [0, 0, 0],
      [0, 0.1, 0],
      [0, 0, 0.02],
    ] as const) {
      const job = jobWith({ ...places, 'rail-tip-upper.L': onto('rail-tip-lower.L', shift) });
      await expectKnown(job);
      const shown = new Map(await shownOf(job));
      expect(shown.get('lens')).toContain('front-rail.L: twist 0.0°');
    }
    const both = jobWith({
      ...places,
      'rail-tip-upper.L': onto('rail-tip-lower.L'),
      'rail-root-upper.L': onto('rail-root-lower.L'),
    });
    await expectKnown(both);
    const shown = new Map(await shownOf(both));
    expect(shown.get('lens')).toContain('front-rail.L: twist not known');
    expect(shown.get('summary')).toContain('front-rail.L twist: twist is not known');
  });

  it('is nothing at all where the control points were read on one line', async () => {
    const line = Object.fromEntries(
      Object.entries(places).map(([id, [x]]): [string, Triple] => [id, [x, 0, 0]]),
    );
    await expectKnown(jobWith(line));
    const same = Object.fromEntries(Object.keys(places).map((id): [string, Triple] => [id, [10, 20, 30]]));
    await expectKnown(jobWith(same));
    const shown = new Map(await shownOf(jobWith(line)));
    expect(shown.get('findings')).toContain('stand on one line, but the points themselves do not');
  });

  it('is a point that a coarse instrument on a small base leaves to over a metre', async () => {
    const {
      'floor-front.L': a,
      'floor-rear.L': b,
      'tunnel-front.L': c,
      'rail-tip-upper.R': far,
      'rail-tip-lower.R': low,
    } = places;
    const job = jobWith(
      {
        'floor-front.L': a,
        'floor-rear.L': b,
        'tunnel-front.L': c,
        'rail-tip-upper.R': far,
        'rail-tip-lower.R': low,
      },
      190,
    );
    await expectKnown(job);
    const json = jobJson(
      (await analysed(
        { 'car.chassis.yaml': carChassis, 'w.readings.yaml': job },
        'w.readings.yaml',
      )) as JobAnalysis,
      'w',
    );
    expect(json.stages[0].points.find(({ id }) => id === 'rail-tip-upper.R')!.deviation).toContain(null);
  });

  it('is never printed, whatever was read', async () => {
    const ids = Object.keys(places);
    const change = fc.tuple(
      fc.constantFrom(...ids),
      fc.oneof(
        fc.constantFrom(...ids).map((to) => ({ to, by: [0, 0, 0] as Triple })),
        fc
          .tuple(fc.constantFrom(...ids), fc.constantFrom(0, 0.01, 0.3, 900), fc.constantFrom(0, 0.01, -2000))
          .map(([to, y, z]) => ({ to, by: [0, y, z] as Triple })),
      ),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(change, { minLength: 1, maxLength: 8 }),
        fc.subarray(ids, { minLength: 4 }),
        fc.constantFrom(0.05, 1, 60, 250),
        async (changes, read, u) => {
          const now = new Map(Object.entries(places));
          for (const [id, { to, by }] of changes) now.set(id, onto(to, by));
          await expectKnown(jobWith(Object.fromEntries(read.map((id) => [id, now.get(id)!])), u));
        },
      ),
      { numRuns: 60 },
    );
  }, 60_000);
});
