import { describe, expect, it } from 'vitest';
import { fileKind } from '../workspace/files';
import { importTable, type TableSource } from './import';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

interface Options {
  readonly texts?: Record<string, string>;
  readonly measure?: string;
  readonly layout?: string;
  readonly dryRun?: boolean;
  readonly partial?: boolean;
  readonly byPlace?: boolean;
}

/** Runs the command on a shop in memory; `written` is null where nothing was. */
async function run(into: string, table: string | TableSource, options: Options = {}) {
  let written: string | null = null;
  const said = await recorded((output) =>
    importTable(shopOf(options.texts ?? sampleTexts), target(into), {
      ...output,
      table: target('table.csv'),
      source: typeof table === 'string' ? { kind: 'text', text: table, encoding: 'utf-8' } : table,
      measure: options.measure ?? null,
      layout: options.layout ?? null,
      dryRun: options.dryRun ?? false,
      partial: options.partial ?? false,
      byPlace: options.byPlace ?? false,
      write: (text) => {
        written = text;
        return null;
      },
    }),
  );
  return { ...said, written: written === null ? null : String(written) };
}

const job = 'jobs/w-1187-as-received.readings.yaml';
const before = sampleTexts[job];
const table =
  'Punkt;X;Y;Z\nfloor front L;1593,4;370,1;716,5\nfloor front R;1627,4;-468,5;708,7\nfloor front R;1627,5;-468,4;708,6\nlatch;-;-;-\n';
const head = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
order: W-2041
`;
const withJob = (text: string) => ({ ...sampleTexts, 'jobs/one.readings.yaml': text });
const one = 'jobs/one.readings.yaml';

describe('into a job', () => {
  it('appends a measure with its repeats, and touches nothing else', async () => {
    const { code, written, printed } = await run(job, table.replace('latch;-;-;-\n', ''), {
      measure: 'second look',
    });
    expect(code).toBe(0);
    expect(written?.startsWith(before.trimEnd())).toBe(true);
    expect(written?.slice(before.trimEnd().length)).toContain(`
  - measure: second look
    readings:
      floor-front.L: [1593.4,  370.1, 716.5]
      floor-front.R: [[1627.4, -468.5, 708.7], [1627.5, -468.4, 708.6]]`);
    expect(printed).toContain('decimal comma');
    expect(printed).toContain('point: Punkt');
  });

  it('writes nothing while a row is not understood, and says which', async () => {
    const { code, written, printed, complained } = await run(job, table);
    expect(code).toBe(1);
    expect(written).toBeNull();
    expect(printed).toContain('row 5, column 2: - is not a number');
    expect(complained).toContain('1 row was not understood, so nothing was written');
  });

  it('leaves with --partial what is not understood as comments, with their rows', async () => {
    const { code, written } = await run(job, table, { partial: true });
    expect(code).toBe(0);
    expect(written).toContain('      # row 5: latch | - | - | - (- is not a number)');
  });

  it('prints the lines with --dry-run and writes nothing', async () => {
    const { code, written, printed } = await run(job, table, { partial: true, dryRun: true });
    expect(code).toBe(0);
    expect(written).toBeNull();
    expect(printed).toContain('    readings:\n      floor-front.L: [1593.4,  370.1, 716.5]');
    expect(printed).not.toContain('rail-tip-upper.L');
  });

  it('reads with the layout of the settings that is named', async () => {
    const settings = `${sampleTexts['.framewright.yaml']}
tables:
  arm: { columns: { point: Punkt, length: X, width: Y, height: Z }, unreachable: ["-"], axes: [rearward, left, up] }
`;
    const texts = { ...sampleTexts, '.framewright.yaml': settings };
    const { code, written } = await run(job, table, { texts, layout: 'arm' });
    expect(code).toBe(0);
    expect(written).toContain('floor-front.L: [-1593.4,  370.1, 716.5]');
    expect(written).toMatch(/latch: +unreachable/);
    const other = await run(job, table, { texts, layout: 'leg' });
    expect(other).toMatchObject({ code: 2, written: null });
    expect(other.complained).toContain('no layout leg: there are arm');
  });

  it('fills the commented rows of the newest measure while that is empty', async () => {
    const text = `${head}timeline:
  - measure: as received
    at: 2026-03-05
    readings:             # remove the # of a row when you read its point
      # floor-front.R: [ , , ]
      # latch:         [ , , ]
      # floor-front.L: [ , , ]
`;
    const { code, written } = await run(one, `${table.replace('latch;-;-;-\n', '')}strut-top.L;1;2;3\n`, {
      texts: withJob(text),
    });
    expect(code).toBe(0);
    expect(written?.slice(head.length)).toBe(`timeline:
  - measure: as received
    at: 2026-03-05
    readings:             # remove the # of a row when you read its point
      floor-front.R: [[1627.4, -468.5, 708.7], [1627.5, -468.4, 708.6]]
      # latch:         [ , , ]
      floor-front.L: [1593.4,  370.1, 716.5]
      strut-top.L:   [     1,      2,     3]
`);
  });

  it.each(['', 'timeline:\n', 'timeline: []\n'])(
    'begins the timeline of a job that has none: %j',
    async (timeline) => {
      const { code, written } = await run(one, 'floor-front.L,1,2,3\n', { texts: withJob(head + timeline) });
      expect(code).toBe(0);
      expect(written).toContain(
        'timeline:\n  - measure: as received\n    readings:\n      floor-front.L: [1, 2, 3]',
      );
    },
  );

  it('converts units exactly', async () => {
    const inches = 'Name,X (inch),Y (inch),Z (inch)\nfloor-front.L,1.5,-2.25,10\n';
    const { written } = await run(one, inches, { texts: withJob(head) });
    expect(written).toContain('floor-front.L: [38.10, -57.150, 254.0]');
  });

  it('offers by place what lies within 15 mm of one unread reference, and takes it where it is asked to', async () => {
    const rows = ['floor-front.L', 'floor-front.R', 'floor-rear.L', 'floor-rear.R', 'cowl-hole.L'].map(
      (id) => {
        const numbers = new RegExp(`${id.replace('.', '\\.')}: +\\[+ *([-\\d., ]+)\\]`).exec(before)?.[1];
        return `${id},${numbers?.replaceAll(' ', '')}`;
      },
    );
    const strange = `${rows.join('\n')}\nP7,2150.7,412.4,814.0\nfar,9000,0,0\n`;
    const asked = await run(job, strange);
    expect(asked).toMatchObject({ code: 1, written: null });
    expect(asked.printed).toMatch(
      /row 6: P7 is no point .*; by its place, 1\.\d mm off, it is rail-root-lower\.L/,
    );
    expect(asked.printed).toMatch(/row 7: far is no point of the body$/m);
    const taken = await run(job, strange, { byPlace: true, partial: true });
    expect(taken.written).toMatch(/rail-root-lower\.L: .*# P7 in the table, matched by place, 1\.\d mm off/);
    // without three control points nothing says where a row is
    const few = await run(job, strange.split('\n').slice(3).join('\n'));
    expect(few.printed).not.toContain('by its place');
  });

  it.each([
    ['jobs/w-1174-finished.readings.yaml', 'it is signed: nothing is added to a signed job'],
    ['jobs/none.readings.yaml', 'there is no such file'],
    ['.framewright.yaml', 'a table goes into a file whose name ends in .readings.yaml or .chassis.yaml'],
    ['notes.txt', 'a table goes into a file whose name ends in .readings.yaml or .chassis.yaml'],
  ])('refuses %s', async (into, why) => {
    const { code, written, complained } = await run(into, table);
    expect({ code, written }).toEqual({ code: 2, written: null });
    expect(complained).toContain(why);
  });

  it('refuses a job whose text is broken', async () => {
    const { code, written } = await run(one, table, { texts: withJob(`${head}timeline: [\n`) });
    expect({ code, written }).toEqual({ code: 2, written: null });
  });

  it('refuses a table that cannot be read, with the reason', async () => {
    const { code, written, complained } = await run(job, {
      kind: 'refused',
      message: 'the table is larger than 50 MB',
    });
    expect({ code, written }).toEqual({ code: 2, written: null });
    expect(complained).toBe('framewright: table.csv: the table is larger than 50 MB');
  });

  it('says of which sheet of a spreadsheet a row is', async () => {
    const sheet = (name: string, ...rows: string[][]) => ({ name, rows: [['Name', 'X', 'Y', 'Z'], ...rows] });
    const source: TableSource = {
      kind: 'sheets',
      sheets: [sheet('one', ['latch', '1', '2', '3']), sheet('two', ['latch', '1', '2', 'x'])],
    };
    const { code, printed } = await run(job, source);
    expect(code).toBe(1);
    expect(printed).toContain('sheet two, row 2, column 4: x is not a number');
  });
});

describe('into a body', () => {
  const body = 'specs/new-car.chassis.yaml';
  const points = `Name,Length,Width,Height
floor-front L,1200,420,95
floor-front R,1200.02,420,95
strut-top L,2244,563,828
strut-top R,2244,568,828
latch,3046,10,782
`;

  it('begins a new file; sides that mirror are one position', async () => {
    const { code, written } = await run(body, points);
    expect(code).toBe(0);
    expect(written).toBe(`framewright: chassis/1
vehicle: new car
units: mm
points:
  floor-front: { both: [1200, 420, 95] }
  strut-top:   { left: [2244, 563, 828], right: [2244, 568, 828] }
  latch:       { centre: [3046, 10, 782] }
`);
    expect(fileKind(body)).toBe('chassis');
  });

  it('adds to a file; what is there already stays, and what contradicts it is refused', async () => {
    const hatch = 'specs/marten-hatch.chassis.yaml';
    const same = await run(
      hatch,
      'Name,Length,Width,Height\nfloor-front L,1200,420,95\nnew-hole L,100,200,300\n',
    );
    expect(same.code).toBe(0);
    expect(same.printed).toContain('1 points are in the file already, with the same numbers');
    expect(same.written).toContain('\n  new-hole: { left: [100, 200, 300] }\n');
    const other = await run(hatch, 'Name,Length,Width,Height\nfloor-front L,1210,420,95\n');
    expect(other).toMatchObject({ code: 1, written: null });
    expect(other.printed).toContain('floor-front.L is in the file already, 10.0 mm from there');
  });

  it('refuses widths that count to the left in a sheet that counts outboard', async () => {
    const { code, printed } = await run(body, points.replace('R,2244,568', 'R,2244,-568'));
    expect(code).toBe(1);
    expect(printed).toContain('row 5: strut-top.R would lie across the centre plane');
  });

  it('takes them with the axes of a layout', async () => {
    const settings = `${sampleTexts['.framewright.yaml']}
tables:
  arm: { columns: { point: Name, length: Length, width: Width, height: Height }, axes: [forward, left, up] }
`;
    const { written } = await run(body, 'Name,Length,Width,Height\nstrut-top R,2244,-568,828\n', {
      texts: { ...sampleTexts, '.framewright.yaml': settings },
      layout: 'arm',
    });
    expect(written).toContain('strut-top: { right: [2244, 568, 828] }');
  });
});
