import { type AdviseChassis, type AdviseJob, adviseSchema } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { jsonSchemaErrors } from '../../../schemas/src/testing/validators';
import { jobOn, measured } from '../testing/car';
import { teal } from '../testing/teal';
import { advise } from './advise';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

const rear = `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]`;
const rail = 'instrument: { name: arm, uncertainty: 0.8 }\nscope: [front-rail]';
const job = jobOn(rear, rail);

const run = (texts: Record<string, string>, path: string, given: { u?: number; json?: boolean } = {}) =>
  recorded((output) =>
    advise(
      shopOf(texts),
      target(path),
      { uncertaintyMm: given.u ?? null, asJson: given.json ?? false },
      output,
    ),
  );
const said = async (text: string, u?: number) =>
  (await run({ 'w.readings.yaml': text }, 'w.readings.yaml', { u })).printed;

describe('framewright advise, of a job', () => {
  it('prints a line a pair with what it brings, and that everything can be decided then', async () => {
    expect((await said(job)).split('\n')).toEqual([
      'w.readings.yaml: “as received”, u = 0.8 mm (± at 95 %, by the alignment alone)',
      expect.stringMatching(/^ {2}now rail-tip-upper\.[LR] ±2\.9 in height \(at most ±2\.0\)$/),
      expect.stringMatching(/^ {2}read cowl-hole, both sides: ±2\.9 → ±1\.8$/),
      '  Then every point of the scope can be decided.',
    ]);
  });

  it('begins before anything is read', async () => {
    const printed = await said(jobOn('  - note: waiting', rail.replace('0.8', '0.3')));
    expect(printed).toContain('w.readings.yaml: a new measure, u = 0.3 mm');
    expect(printed).toMatch(/read \S+, both sides: a frame needs more/);
    expect(printed).not.toContain('now ');
  });

  it('asks for nothing where nothing is needed', async () => {
    const printed = await said(jobOn(measured(''), rail.replace('0.8', '0.2')));
    expect(printed).toMatch(/\n {2}now .*\n {2}Every point of the scope can be decided\.$/);
  });

  it('takes another instrument’s uncertainty, and says where none of the readings would do', async () => {
    expect(await said(job, 0.3)).toContain('u = 0.3 mm');
    expect(await said(job, 1.7)).toMatch(/cannot be decided with u = 1\.7 mm wherever it stands/);
    const listed = `${rail}\nbase: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R]`;
    expect(await said(jobOn(rear, listed))).toContain('More cannot be reached with u = 0.8 mm');
  });

  it('says what a listed base or a stated zone leaves to do', async () => {
    const zone = await said(jobOn(rear, `${rail}\nbase: { between: [-400, 1250] }`), 0.75);
    expect(zone).toMatch(
      /cannot be reached with u = 0\.75 mm: .*, or state a wider zone under `base` if the metal there is sound\.$/,
    );
    const ids = 'floor-front.L, floor-front.R, floor-rear.L, floor-rear.R';
    expect(await said(jobOn(rear, `${rail}\nbase: [${ids}]`))).toContain(
      'or list more control points under `base`.',
    );
  });

  it('says what must be settled first, and why there is no advice', async () => {
    const moved = measured('').replaceAll('[1480, ', '[1495, ').replaceAll('[905, ', '[920, ');
    const printed = await said(jobOn(moved, rail.replace('0.8', '0.2')));
    expect(printed).toContain('This measure is provisional');
    expect(printed).toMatch(/point of the scope can be decided once the control points are settled\.$/);
    expect(await said(jobOn('  - note: waiting', ''))).toContain(
      'no advice: nothing says what is to be judged',
    );
  });
});

describe('framewright advise, of a body', () => {
  const body = { 'w.chassis.yaml': teal };

  it('prints which parts can be decided with which instrument, and what to mark', async () => {
    const { printed, code } = await run(body, 'w.chassis.yaml', { u: 0.5 });
    expect(code).toBe(0);
    const lines = printed.split('\n');
    expect(lines[0]).toBe(
      'w.chassis.yaml: all control points read, u = 0.5 mm (± at 95 %, by the alignment alone)',
    );
    expect(lines[1]).toMatch(
      /^ {2}floor {7}cannot be decided \(it can with an instrument of standard uncertainty up to 0\.\d\d mm\): floor-rear\.[LR] .* Marking strut-top, both sides, as control points would do\.$/,
    );
    expect((await run(body, 'w.chassis.yaml', { u: 0.1 })).printed).not.toContain('cannot be decided');
  });

  it('takes the instrument of the settings', async () => {
    expect((await run(body, 'w.chassis.yaml')).printed).toContain('u = 0.5 mm');
    const settings = { '.framewright.yaml': 'framewright: settings/1\nadvise-uncertainty: 0.3\n', ...body };
    expect((await run(settings, 'w.chassis.yaml')).printed).toContain('u = 0.3 mm');
  });

  it('shows inches where the file is in inches', async () => {
    const inches = teal.replace('vehicle', 'units: inch\nvehicle').replaceAll(
      /\[(-?\d+), (\d+), (\d+)\]/g,
      (_, ...n) =>
        `[${n
          .slice(0, 3)
          .map((each) => Number(each) / 25.4)
          .join(', ')}]`,
    );
    expect((await run({ 'w.chassis.yaml': inches }, 'w.chassis.yaml')).printed).toContain('u = 0.020 in');
  });

  it('has none for a body that holds no frame', async () => {
    const none = teal.replaceAll(', base: true', '');
    expect((await run({ 'w.chassis.yaml': none }, 'w.chassis.yaml')).printed).toContain(
      'no advice: fewer than three control points',
    );
  });
});

const paths = Object.keys(sampleTexts).filter((path) => !path.startsWith('.'));

describe('framewright advise --format json', () => {
  it.each(paths)('answers by its schema: %s', async (path) => {
    const { printed, code, complained } = await run(sampleTexts, path, { json: true });
    if (code === 2) {
      expect(complained).toContain('mistakes');
      return;
    }
    const output: unknown = JSON.parse(printed);
    expect(jsonSchemaErrors('advise', output)).toEqual([]);
    expect(adviseSchema.safeParse(output).error?.issues ?? []).toEqual([]);
  });

  it('says the same as the text', async () => {
    const ofJob: AdviseJob = JSON.parse(
      (await run({ 'w.readings.yaml': job }, 'w.readings.yaml', { json: true })).printed,
    );
    expect(ofJob).toMatchObject({
      framewright: 'advise/1',
      measure: 'as received',
      provisional: false,
      uncertainty: 0.8,
      reached: true,
      coarse: null,
      now: { axis: 'height', most: expect.closeTo(1, 9) },
    });
    expect(ofJob.steps[0]).toMatchObject({ points: ['cowl-hole.L', 'cowl-hole.R'], control: true });
    const ofBody: AdviseChassis = JSON.parse(
      (await run({ 'w.chassis.yaml': teal }, 'w.chassis.yaml', { json: true })).printed,
    );
    expect(ofBody.parts.map(({ name, decidable }) => [name, decidable])).toEqual([
      ['floor', false],
      ['front-rail', false],
    ]);
  });
});

describe('exit code 2', () => {
  it.each([
    [
      '.framewright.yaml',
      { '.framewright.yaml': 'framewright: settings/1\n' },
      'a readings file or a chassis file',
    ],
    ['w.readings.yaml', { 'w.readings.yaml': job.replace('car.', 'bus.') }, 'chassis file cannot be read'],
    ['w.readings.yaml', { 'w.readings.yaml': job.replace('scope: [', 'scope: [[') }, 'mistakes'],
    ['none.readings.yaml', { 'w.readings.yaml': job }, 'none.readings.yaml'],
  ])('%s', async (path, texts, complaint) => {
    expect(await run(texts, path)).toMatchObject({
      code: 2,
      printed: '',
      complained: expect.stringContaining(complaint),
    });
  });
});
