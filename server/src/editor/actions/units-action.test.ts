import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { ChassisAnalysis, JobAnalysis } from '../../workspace/workspace';
import { before, chosenAt, offeredAt, sampleFiles, sampleSpecs } from '../testing/asked';

const inch = 'Convert file to inch';
const mm = 'Convert file to mm';

/** Every position of a body, mm. */
const bodyOf = async (text: string) =>
  (await analysed({ 'b.chassis.yaml': text }, 'b.chassis.yaml')) as ChassisAnalysis;

/** A text without its numbers, blanks and unit: what a conversion has to keep. */
const rest = (text: string): string =>
  text
    .replace(/^units:.*\n/m, '')
    .split('\n')
    .map((line) =>
      line.includes('summary') || line.includes('±')
        ? ''
        : line
            .replace(/-?\d+(\.\d+)?/g, 'n')
            .replace(/ +/g, ' ')
            .replaceAll('[ ', '['),
    )
    .join('\n');

describe('Convert file to inch, and back', () => {
  it.each(Object.keys(sampleSpecs))(
    '%s: the body and its limits stay, comments and layout too',
    async (path) => {
      const text = sampleSpecs[path];
      const now = await chosenAt({ ...sampleSpecs, [path]: before(text, 'framewright') }, path, inch);
      expect(now).toMatch(/^units: inch/m);
      expect(rest(now)).toBe(rest(text));
      const [old, converted] = [await bodyOf(text), await bodyOf(now)];
      expect(converted.chassis.points.size).toBe(old.chassis.points.size);
      for (const [id, point] of old.chassis.points) {
        const other = converted.chassis.points.get(id)!;
        for (const k of [0, 1, 2] as const) {
          // half a thousandth of an inch for what was written in whole millimetres or tenths
          expect(Math.abs(other.reference[k] - point.reference[k]), id).toBeLessThanOrEqual(0.0127 + 1e-9);
          for (const side of [0, 1] as const)
            expect(Math.abs(other.limits[k][side] - point.limits[k][side]), id).toBeLessThan(0.0015);
        }
      }
      for (const [id, { section }] of old.chassis.parts)
        if (section) expect(converted.chassis.parts.get(id)!.section![0]).toBeCloseTo(section[0], 1);
      expect(converted.chassis.buildMm).toBeCloseTo(old.chassis.buildMm, 2);
      expect(converted.chassis.buildElsewhereMm).toBeCloseTo(old.chassis.buildElsewhereMm, 2);
      old.chassis.spans.forEach((span, i) => {
        expect(converted.chassis.spans[i].distanceMm).toBeCloseTo(span.distanceMm, 1);
      });
      const back = await chosenAt({ ...sampleSpecs, [path]: before(now, 'framewright') }, path, mm);
      expect(back).toMatch(/^units: mm/m);
      for (const [id, point] of (await bodyOf(back)).chassis.points)
        for (const k of [0, 1, 2] as const)
          expect(point.reference[k], id).toBeCloseTo(old.chassis.points.get(id)!.reference[k], 1);
    },
  );

  it.each([
    'w-1187-as-received',
    'w-1192-twisted-rail',
    'w-1201-side-impact',
    'w-1205-moved-control-point',
    'w-1213-tram-only',
  ])('%s: every verdict stays', async (sample) => {
    const path = `jobs/${sample}.readings.yaml`;
    const files = sampleFiles(path);
    const now = await chosenAt({ ...files, [path]: before(files[path], 'framewright') }, path, inch);
    expect(rest(now)).toBe(rest(files[path]));
    const old = (await analysed(files, path)) as JobAnalysis;
    const converted = (await analysed({ ...files, [path]: now }, path)) as JobAnalysis;
    expect(converted.job.unit).toBe('inch');
    const points = ({ inspection }: JobAnalysis) => inspection!.stages.flatMap((stage) => stage.points);
    expect(points(converted).length).toBe(points(old).length);
    points(old).forEach((point, i) => {
      const other = points(converted)[i];
      for (const k of [0, 1, 2] as const) {
        if (point.deviation[k] === null) expect(other.deviation[k]).toBeNull();
        else expect(Math.abs(other.deviation[k]! - point.deviation[k]), point.id).toBeLessThan(0.05);
      }
      // nearer to its limit than the rounding, a verdict may turn
      const isClose = point.conformity.some(
        (chance) => chance !== null && Math.min(Math.abs(chance - 0.05), Math.abs(chance - 0.95)) < 0.03,
      );
      if (!isClose) expect(other.verdict, point.id).toBe(point.verdict);
    });
    expect(converted.findings.filter(({ rule }) => rule === 'reading/stale-summary')).toEqual([]);
  });

  it('takes instrument, base zone, holds, cuts and tolerances along, and neither directions nor forces', async () => {
    const job = jobOn(
      `${measured('      latch: [3050, 0, 780]')}
  - observe: kink
    part: front-rail.L
    at: 2210
  - pull: out
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.2, -1, 0], force: 18 kN }
    hold: [{ part: front-rail.L, at: 1900 }]
  - section: front-rail.R
    at: 2500`,
      'instrument: { name: arm 2, uncertainty: 0.5, repeatability: 0.2, span-uncertainty: 1.0 }\nbase: { between: [-800, 1500] }',
    );
    const files = { 'car.chassis.yaml': carChassis, 'w.readings.yaml': before(job, 'framewright') };
    const now = await chosenAt(files, 'w.readings.yaml', inch);
    expect(now).toContain(
      '{ name: arm 2, uncertainty: 0.0197, repeatability: 0.0079, span-uncertainty: 0.0394 }',
    );
    expect(now).toContain('base: { between: [-31.496, 59.055] }');
    expect(now).toContain('at: 87.008');
    expect(now).toContain('direction: [0.2, -1, 0], force: 18 kN');
    expect(now).toContain('hold: [{ part: front-rail.L, at: 74.803 }]');
    expect(now).toContain('at: 98.425');
    expect(now).toContain('latch: [120.079, 0, 30.709]');
    const chassis = carChassis.replace(
      'latch: { centre: [3050, 0, 780] }',
      'latch: { centre: [3050, 0, 780], tolerance: { width: [-2, 4] }, uncertainty: 0.3 }',
    );
    const elsewhere = chassis.replace('build: 0.1', 'build: 0.1\nbuild-elsewhere: 1.5');
    const body = await chosenAt(
      { 'c.chassis.yaml': before(elsewhere, 'framewright') },
      'c.chassis.yaml',
      inch,
    );
    expect(body).toContain('tolerance: { width: [-0.0787, 0.1575] }, uncertainty: 0.0118');
    expect(body).toContain('build: 0.0039\nbuild-elsewhere: 0.0591');
    expect(body).toContain('distance: 55.583');
  });

  it('is not offered where half of it would be wrong: faulty text, a named value, a signed job', async () => {
    const offers = async (text: string, name = 'c.chassis.yaml') =>
      [
        ...(
          await offeredAt({ 'car.chassis.yaml': carChassis, [name]: before(text, 'framewright') }, name)
        ).keys(),
      ].filter((each) => each.startsWith('Convert'));
    expect(await offers(carChassis)).toEqual([inch]);
    expect(await offers(carChassis.replace('3050, 0', '3050,5, 0'))).toEqual([]);
    expect(await offers(carChassis.replace('build: 0.1', 'build: &b 0.1'))).toEqual([]);
    const path = 'jobs/w-1174-finished.readings.yaml';
    const files = sampleFiles(path);
    const signed = await offeredAt({ ...files, [path]: before(files[path], 'framewright') }, path);
    expect([...signed.keys()].filter((each) => each.startsWith('Convert'))).toEqual([]);
  });
});
