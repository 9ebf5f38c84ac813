import { type InspectJob, type InspectOutput, inspectSchema } from '@framewright/schemas';
import { describe, expect, it } from 'vitest';
import { jsonSchemaErrors } from '../../../schemas/src/testing/validators';
import { analysed } from '../findings/testing/analysed';
import { add, transformed, type Vec3 } from '../geometry/vector';
import { jobOn, measured } from '../testing/car';
import { chassisText, headText, isControl, readingsText } from '../testing/read-car';
import { inspect } from './inspect';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

async function inspected(texts: Record<string, string>, paths: string[]) {
  const run = await recorded((output) => inspect(shopOf(texts), paths.map(target), output));
  return { ...run, output: JSON.parse(run.printed) as InspectOutput };
}
const paths = Object.keys(sampleTexts).filter((path) => !path.startsWith('.'));

describe.each(paths)('%s', (path) => {
  it('answers by its schema', async () => {
    const { output, complained } = await inspected(sampleTexts, [path]);
    expect(jsonSchemaErrors('inspect', output)).toEqual([]);
    expect(inspectSchema.safeParse(output).error?.issues ?? []).toEqual([]);
    expect(output.files.map((file) => file.path)).toEqual([path]);
    expect(complained).toBe('');
  });
});

describe.each(paths.filter((path) => path.startsWith('jobs/')))('the figures of %s', (path) => {
  const job = async () => (await inspected(sampleTexts, [path])).output.files[0] as InspectJob;

  it('agree with each other', async () => {
    const analysis = await analysed(sampleTexts, path);
    if (analysis.kind !== 'readings') throw new Error('a job');
    let compared = 0;
    for (const [i, stage] of (await job()).stages.entries()) {
      const { measure } = analysis.inspection!.stages[i];
      for (const point of stage.points) {
        if (point.measured === null) continue;
        // measured − reference is the deviation, but for what helps to align: that is judged by the others
        const helps = point.inBase || point.witness !== undefined;
        for (const k of [0, 1, 2])
          if (!helps && point.deviation[k] !== null)
            expect(point.deviation[k]).toBeCloseTo((point.measured[k] ?? Number.NaN) - point.reference[k], 6);
        const reading = measure.readings.find(({ id }) => id === point.id);
        const { rotation, translation } = stage.alignment ?? {};
        if (!rotation || !translation || !reading) continue;
        const mean = mapped(reading.triplesMm, analysis.job.axes, point.id);
        const expected = add(transformed(rotation, mean), translation);
        for (const k of [0, 1, 2]) expect(point.measured[k], point.id).toBeCloseTo(expected[k], 6);
        compared++;
      }
      for (const { measured, reference, deviation } of stage.spans)
        if (measured !== null && reference !== null) expect(deviation).toBeCloseTo(measured - reference, 6);
    }
    expect(compared > 0).toBe(!path.includes('tram-only'));
  });

  it('stand in the order of the file, parts by id, with the lines that they stand on', async () => {
    const { stages } = await job();
    const lines = sampleTexts[path].split('\n');
    let seen = 0;
    for (const stage of stages) {
      expect(lines[stage.line - 1]).toMatch(/^ {2}- measure:/);
      const numbers = stage.points.map((point) => point.line);
      expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
      for (const point of stage.points) expect(lines[point.line - 1]).toContain(point.id);
      const ids = stage.parts.map(({ id }) => id);
      expect(ids).toEqual([...ids].sort());
      seen += stage.points.length;
    }
    expect(seen).toBeGreaterThan(0);
  });

  it('repeat the findings with ranges that cover what they are about', async () => {
    const { findings } = await job();
    const lines = sampleTexts[path].split('\n');
    for (const { range, message, rule } of findings) {
      expect(message).not.toMatch(/NaN|undefined|\[object/);
      expect(lines[range.start.line], rule).toBeDefined();
      expect(range.end.line).toBeGreaterThanOrEqual(range.start.line);
    }
    for (const { range, message } of findings.filter(({ rule }) => rule === 'reading/outside')) {
      const covered = lines[range.start.line].slice(range.start.character, range.end.character);
      expect(message.startsWith(`${covered} is `)).toBe(true);
    }
  });
});

/** The mean of a reading's repeats in forward, left, up: what `axes` says of the three numbers. */
function mapped(triples: readonly Vec3[], axes: readonly string[], id: string): Vec3 {
  const mean = [0, 1, 2].map((k) => triples.reduce((sum, triple) => sum + triple[k], 0) / triples.length);
  const result: [number, number, number] = [0, 0, 0];
  for (const [k, axis] of axes.entries()) {
    const way = {
      forward: [0, 1],
      rearward: [0, -1],
      left: [1, 1],
      right: [1, -1],
      up: [2, 1],
      down: [2, -1],
    }[axis];
    if (way) result[way[0]] = way[1] * mean[k];
    else result[1] = id.endsWith('.R') ? -mean[k] : mean[k];
  }
  return result;
}

describe('a job written by hand', () => {
  const text = jobOn(
    `${measured('      rail-tip-upper.L: [3003, 437.8, 352]\n      rail-tip-upper.R: unreachable')}
    spans:
      - [rail-tip-lower.L, strut-top.R, 1399.7]`,
    'order: W-7\ninstrument: { uncertainty: 0.2 }',
  );

  it('has its figures in vehicle axes and mm, and null for what cannot be told', async () => {
    const { output, code } = await inspected({ 'w.readings.yaml': text }, ['w.readings.yaml']);
    const [file] = output.files as InspectJob[];
    expect(file).toMatchObject({
      path: 'w.readings.yaml',
      chassis: 'car.chassis.yaml',
      order: 'W-7',
      closed: false,
    });
    const [stage] = file.stages;
    expect(stage.unreachable).toEqual(['rail-tip-upper.R']);
    const tip = stage.points.find(({ id }) => id === 'rail-tip-upper.L')!;
    expect(tip).toMatchObject({ inBase: false, reference: [3012, 452, 352], verdict: 'outside' });
    expect(tip.deviation.map((value) => Number(value!.toFixed(6)))).toEqual([-9, -14.2, 0]);
    expect(stage.spans[0]).toMatchObject({ reference: 1411.8, measured: 1399.7, verdict: 'outside' });
    const rail = stage.parts.find(({ id }) => id === 'front-rail.L')!;
    expect(rail).toMatchObject({ twist: null, twistUncertainty: null, bend: null, residual: null });
    expect(file.signOff).toMatchObject({ closed: false, passes: false });
    expect(code).toBe(0);
  });

  it('in inches gives the same mm', async () => {
    const inches = text
      .replace(
        'order: W-7\ninstrument: { uncertainty: 0.2 }',
        `order: W-7\nunits: inch\ninstrument: { uncertainty: ${0.2 / 25.4} }`,
      )
      .replace(
        /\[(-?[\d.]+), (-?[\d.]+), (-?[\d.]+)\]/g,
        (_, ...values) =>
          `[${values
            .slice(0, 3)
            .map((value) => Number(value) / 25.4)
            .join(', ')}]`,
      )
      .replace('1399.7', String(1399.7 / 25.4));
    const pointsOf = async (each: string) => {
      const { output } = await inspected({ 'w.readings.yaml': each }, ['w.readings.yaml']);
      return (output.files[0] as InspectJob).stages[0].points.map(({ deviation }) =>
        deviation.map((value) => Number(value!.toFixed(6)) + 0),
      );
    };
    expect(await pointsOf(inches)).toEqual(await pointsOf(text));
  });
});

it('an inherited point of a chassis stands on the line that takes its parent in', async () => {
  const path = 'specs/teal-estate.chassis.yaml';
  const [file] = (await inspected(sampleTexts, [path])).output.files;
  if (!('points' in file)) throw new Error('a chassis');
  const lines = sampleTexts[path].split('\n');
  const lineOf = (id: string) => lines[file.points.find((point) => point.id === id)!.line - 1];
  expect(lineOf('floor-front.L')).toMatch(/^extends:/);
  expect(lineOf('load-floor.R')).toMatch(/^ {2}load-floor:/);
  expect(file.points.some(({ id }) => id.startsWith('tailgate-buffer'))).toBe(false);
});

it('files that cannot be read are complained of, and the rest is printed', async () => {
  const { output, code, complained } = await inspected(sampleTexts, [
    'none.readings.yaml',
    'jobs/w-1174-finished.readings.yaml',
  ]);
  expect(code).toBe(2);
  expect(complained).toBe('framewright: none.readings.yaml: there is no such file');
  expect(output.files).toHaveLength(1);
});

it('a job without its chassis has findings and no figures', async () => {
  const { output, code } = await inspected(
    { 'w.readings.yaml': jobOn(measured('')).replace('car.', 'no.') },
    ['w.readings.yaml'],
  );
  expect(jsonSchemaErrors('inspect', output)).toEqual([]);
  expect(output.files[0]).toMatchObject({ stages: [], signOff: null, springBack: [] });
  expect(output.files[0].findings.map(({ rule }) => rule)).toContain('name/file-not-found');
  expect(code).toBe(1);
});

it('of too few points it is not known whether they are a mirror image', async () => {
  const rows = ['floor-front.L: [1200, 420, 95]', 'floor-front.R: [1200, -420, 95]'];
  const timeline = `  - measure: two points\n    readings:\n${rows.map((row) => `      ${row}`).join('\n')}`;
  const { output } = await inspected({ 'w.readings.yaml': jobOn(timeline) }, ['w.readings.yaml']);
  expect(jsonSchemaErrors('inspect', output)).toEqual([]);
  expect((output.files[0] as InspectJob).stages[0].alignment).toMatchObject({
    rotation: null,
    mirrored: null,
  });
});

describe('what stands around the control points', () => {
  const stageOf = async (moved: (id: string) => Vec3, head?: string) => {
    const texts = {
      'car.chassis.yaml': chassisText(),
      'w.readings.yaml': jobOn(readingsText(moved, 0.2), headText(head)),
    };
    const { output } = await inspected(texts, ['w.readings.yaml']);
    expect(inspectSchema.parse(output)).toEqual(output);
    expect(jsonSchemaErrors('inspect', output)).toEqual([]);
    return (output.files[0] as InspectJob).stages[0];
  };
  const low = (id: string): Vec3 => (id.startsWith('rear-rail') ? [0, 0, -9] : [0, 0, 0]);
  const left = (id: string): Vec3 => (isControl(id) && id.endsWith('.L') ? [0, 0, 6] : [0, 0, 0]);

  it('is listed by what may share an error, with how far it is believed', async () => {
    const { alignment, points } = await stageOf(low);
    const { scatter, groups } = alignment!.witnesses!;
    expect(scatter).toBeCloseTo(1, 12);
    expect(groups.map(({ name }) => name)).toEqual(['centre-pillar', 'rear end', 'sill']);
    const [, rear] = groups;
    expect(rear.points).toContain('rear-rail-extension.L');
    expect(rear.weight).toBe(0);
    expect(rear.off[2]).toBeLessThan(-8);
    expect(points.find(({ id }) => id === 'rear-rail-extension.L')!.witness).toBe(0);
    expect(points.find(({ id }) => id === 'sill-front.R')!.witness).toBeGreaterThan(0.8);
    expect(points.find(({ id }) => id === 'rail-tip-lower.L')).not.toHaveProperty('witness');
  });

  it('is left out where nothing helps, and alternatives say of what kind they are', async () => {
    const { alignment, points } = await stageOf(left);
    expect(alignment).not.toHaveProperty('witnesses');
    expect(alignment).not.toHaveProperty('doubted');
    expect(points.some((point) => 'witness' in point)).toBe(false);
    expect(alignment!.alternatives.length).toBeGreaterThan(0);
    for (const { kind } of alignment!.alternatives)
      expect(['shift', 'body', 'lean', 'turn', 'points', 'zones']).toContain(kind);
  });
});
