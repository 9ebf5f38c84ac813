import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analysed } from '../findings/testing/analysed';
import type { Measure } from '../model/job';
import type { WrittenSheet } from '../tables/written-cells';
import { spreadsheetRead, spreadsheetWritten } from '../tables/xlsx/spreadsheet';
import { exportTable } from './export';
import { importTable, type TableSource } from './import';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

const bodyPath = 'specs/marten-hatch.chassis.yaml';

async function exported(
  texts: Record<string, string>,
  paths: readonly string[],
  columns: string[] | null = null,
) {
  let text: string | null = null;
  let sheets: readonly WrittenSheet[] = [];
  const run = (asSheets: boolean) =>
    recorded((output) =>
      exportTable(shopOf(texts), paths.map(target), {
        ...output,
        columns,
        asSheets,
        writeText: (written) => {
          text = written;
          return null;
        },
        writeSheets: async (written) => {
          sheets = written;
          return null;
        },
      }),
    );
  const said = await run(false);
  if (said.code === 0) await run(true);
  return { ...said, text: text === null ? '' : String(text), sheets };
}

async function importedInto(texts: Record<string, string>, into: string, source: TableSource) {
  let text = '';
  const said = await recorded((output) =>
    importTable(shopOf(texts), target(into), {
      ...output,
      table: target('table.csv'),
      source,
      measure: null,
      layout: null,
      dryRun: false,
      partial: false,
      byPlace: false,
      write: (written) => {
        text = written;
        return null;
      },
    }),
  );
  return { ...said, text };
}

const asText = (text: string): TableSource => ({ kind: 'text', text, encoding: 'utf-8' });

/** What measures say: names, numbers, what could not be reached. */
const meaningOf = (measures: readonly Measure[]) =>
  measures
    .filter(({ readings, spans }) => readings.length + spans.length > 0)
    .map(({ name, readings, spans }) => ({
      name,
      readings: readings.map(({ id, triplesMm, unreachable }) => ({ id, triplesMm, unreachable })),
      spans: spans.map(({ from, to, distancesMm, unreachable }) => ({ from, to, distancesMm, unreachable })),
    }));

async function measuresOf(texts: Record<string, string>, path: string) {
  const analysis = await analysed(texts, path);
  if (analysis.kind !== 'readings') throw new Error(`${path} is no job`);
  return { job: analysis.job, measures: analysis.job.timeline.filter((entry) => entry.kind === 'measure') };
}

/** The job without what was done and signed: what its table is read back into. */
const headOf = (text: string): string => text.slice(0, text.search(/^timeline:/m));

async function roundTrip(
  texts: Record<string, string>,
  path: string,
  source: (of: { text: string; sheets: readonly WrittenSheet[] }) => Promise<TableSource>,
) {
  const before = await measuresOf(texts, path);
  const table = await exported(texts, [path]);
  expect({ path, code: table.code, said: table.complained }).toEqual({ path, code: 0, said: '' });
  const empty = { ...texts, 'jobs/back.readings.yaml': headOf(texts[path]) };
  const back = await importedInto(empty, 'jobs/back.readings.yaml', await source(table));
  expect({ path, code: back.code, said: back.complained }).toEqual({ path, code: 0, said: '' });
  const after = await measuresOf(
    { ...empty, 'jobs/back.readings.yaml': back.text },
    'jobs/back.readings.yaml',
  );
  expect(meaningOf(after.measures)).toEqual(meaningOf(before.measures));
}

/** Jobs whose every row can be read, and has a point. */
const wholeJobs = Object.keys(sampleTexts).filter((path) => /w-(11|120|1213|1214|1215|1216|1217)/.test(path));

describe('what is exported reads back as the same measures', () => {
  it.each(wholeJobs)('%s', async (path) => {
    await roundTrip(sampleTexts, path, async ({ text }) => asText(text));
  });

  it('as a spreadsheet too, a sheet a measure', async () => {
    await roundTrip(sampleTexts, 'jobs/w-1174-finished.readings.yaml', async ({ sheets }) =>
      spreadsheetRead(await spreadsheetWritten(sheets)),
    );
  });

  const ids = ['rail-tip-lower.L', 'rail-tip-lower.R', 'latch', 'strut-top.L', 'floor-front.R'];
  const number = fc.integer({ min: -50_000, max: 50_000 }).map((n) => (n / 10).toFixed(1));
  const triple = fc.tuple(number, number, number).map((three) => `[${three.join(', ')}]`);
  const value = fc.oneof(
    { weight: 5, arbitrary: triple },
    fc.array(triple, { minLength: 2, maxLength: 3 }).map((each) => `[${each.join(', ')}]`),
    fc.constant('unreachable'),
  );
  const name = fc.oneof(
    fc.constantFrom(
      'as received',
      '=1+1',
      '-5 mm',
      '@home',
      '+x',
      "'quoted",
      'a, b; c | d',
      '"',
      '12',
      'again',
    ),
    fc.stringMatching(/^[a-z =+"',;@-]{1,12}$/).map((text) => text.trim() || 'x'),
  );
  const distance = fc.oneof(
    fc.integer({ min: 1, max: 30_000 }).map((n) => String(n / 10)),
    fc.constant('unreachable'),
  );
  const measure = fc.record({
    name,
    rows: fc.dictionary(fc.constantFrom(...ids), value, { minKeys: 1 }),
    spans: fc.uniqueArray(
      fc.tuple(fc.constantFrom(...ids), fc.constantFrom('cowl-hole.L', 'cowl-hole.R'), distance),
      {
        selector: ([from, to]) => `${from} ${to}`,
        maxLength: 3,
      },
    ),
  });

  it('of any job', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(measure, { minLength: 1, maxLength: 3 }), async (measures) => {
        const timeline = measures.flatMap(({ name: title, rows, spans }) => [
          `  - measure: ${JSON.stringify(title)}`,
          '    readings:',
          ...Object.entries(rows).map(([id, each]) => `      ${id}: ${each}`),
          ...(spans.length === 0
            ? []
            : ['    spans:', ...spans.map((span) => `      - [${span.join(', ')}]`)]),
        ]);
        const head = 'framewright: readings/1\nchassis: ../specs/marten-hatch.chassis.yaml\norder: W-1\n';
        const texts = {
          ...sampleTexts,
          'jobs/any.readings.yaml': `${head}timeline:\n${timeline.join('\n')}\n`,
        };
        await roundTrip(texts, 'jobs/any.readings.yaml', async ({ text }) => asText(text));
      }),
      { numRuns: 12 },
    );
  }, 120_000);
});

describe('the reference table of a body', () => {
  it.each([
    'specs/marten-hatch.chassis.yaml',
    'specs/marten-nose.chassis.yaml',
    'specs/teal-estate.chassis.yaml',
  ])('%s reads back as the same points and distances', async (path) => {
    const before = await analysed(sampleTexts, path);
    const table = await exported(sampleTexts, [path]);
    expect(table.code).toBe(0);
    // parts are no part of the table: they stand in the file that it goes into, as units and axes do
    const into = 'specs/back.chassis.yaml';
    const axes = /^axes:.*$/m.exec(sampleTexts[path])?.[0] ?? '';
    if (before.kind !== 'chassis') throw new Error('no body');
    const named = new Map([...before.chassis.parts.values()].map(({ name, side }) => [name, side]));
    const keys = (side: string | null | undefined) => (side ? '{ sided: true }' : '{ along: length }');
    const parts = ['parts:', ...[...named].map(([name, side]) => `  ${name}: ${keys(side)}`), ''].join('\n');
    const texts = {
      ...sampleTexts,
      [into]: `framewright: chassis/1\nvehicle: back\n${axes}\n${parts}points:\n`,
    };
    const back = await importedInto(texts, into, asText(table.text));
    expect({ code: back.code, said: back.complained }).toEqual({ code: 0, said: '' });
    const after = await analysed({ ...texts, [into]: back.text }, into);
    if (after.kind !== 'chassis') throw new Error('no body');
    const points = ({ chassis }: typeof before) =>
      [...chassis.points.values()].map(({ id, reference, part, base, fixing, uncertaintyMm, limits }) => ({
        id,
        reference: reference.map((mm) => Number(mm.toFixed(6)) + 0),
        part,
        base,
        fixing,
        uncertaintyMm,
        limits: limits.map((each) => each.map((mm) => Number(mm.toFixed(6)) + 0)),
      }));
    expect(points(after)).toEqual(points(before));
    const spans = ({ chassis }: typeof before) =>
      chassis.spans.map(({ from, to, distanceMm, level, limits }) => ({
        from,
        to,
        distanceMm,
        level,
        limits,
      }));
    expect(spans(after)).toEqual(spans(before));
  });
});

describe('what stands in a table', () => {
  const job = 'jobs/w-1187-as-received.readings.yaml';

  it('numbers as they were typed, and figures beside them', async () => {
    const { text } = await exported(
      sampleTexts,
      [job],
      ['id', 'repeat', 'reading-1', 'reading-3', 'verdict'],
    );
    const lines = text.split('\r\n');
    expect(lines.slice(0, 3)).toEqual([
      'id,repeat,reading-1,reading-3,verdict',
      'floor-front.L,1,1593.4,716.5,within',
      'floor-front.L,2,1593.4,716.1,within',
    ]);
  });

  it('no text that a spreadsheet would run', async () => {
    const texts = {
      ...sampleTexts,
      'jobs/one.readings.yaml':
        'framewright: readings/1\nchassis: ../specs/marten-hatch.chassis.yaml\norder: "=1"\ntimeline:\n' +
        ['=HYPERLINK(1)', '+1', '-1', '@x']
          .map((name) => `  - measure: "${name}"\n    readings: { latch: [1, -2, 3] }\n`)
          .join(''),
    };
    const { text } = await exported(texts, ['jobs/one.readings.yaml'], ['order', 'stage', 'reading-2']);
    const cells = text
      .split('\r\n')
      .slice(1, -1)
      .flatMap((line) => line.split(','))
      .filter((cell) => cell !== '-2');
    expect(cells).toEqual(["'=1", "'=HYPERLINK(1)", "'=1", "'+1", "'=1", "'-1", "'=1", "'@x"]);
  });

  it('the order where there are several jobs', async () => {
    const { text } = await exported(sampleTexts, [job, 'jobs/w-1192-twisted-rail.readings.yaml']);
    expect(text.startsWith('order,entry,stage,id,')).toBe(true);
    expect(text).toContain('\r\nW-1192,');
  });

  it('says where a verdict is no result', async () => {
    const { text } = await exported(sampleTexts, ['jobs/w-1174-finished.readings.yaml'], ['stage', 'state']);
    expect(
      new Set(
        text
          .split('\r\n')
          .slice(1, -1)
          .map((line) => line.split(',').at(-1)),
      ),
    ).toEqual(new Set(['', 'under load']));
  });

  it.each([
    ['a column that is none', [job], ['verdct'], 'there is no column verdct; did you mean verdict?'],
    ['a body among jobs', [job, bodyPath], null, 'a chassis file is exported by itself'],
    ['settings', ['.framewright.yaml'], null, 'settings hold no measurements'],
    ['a file that is not there', ['jobs/none.readings.yaml'], null, 'there is no such file'],
  ])('refuses %s', async (_, paths, columns, why) => {
    const { code, text, complained } = await exported(sampleTexts, paths, columns);
    expect({ code, text }).toEqual({ code: 2, text: '' });
    expect(complained).toContain(why);
  });
});
