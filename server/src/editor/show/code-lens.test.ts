import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { JobAnalysis } from '../../workspace/workspace';
import { sampleFiles } from '../testing/asked';
import { lensesOf, lensWords } from './code-lens';

async function lenses(files: Record<string, string>, name: string) {
  const analysis = (await analysed(files, name)) as JobAnalysis;
  return lensesOf(analysis, new Set()).map(({ range, about }) => ({
    at: analysis.text.slice(range.start, range.end),
    line: analysis.text.slice(0, range.start).split('\n').length,
    text: about.kind === 'point' ? about.name : (lensWords(analysis, about)?.title ?? null),
  }));
}

const sample = (name: string) =>
  lenses(sampleFiles(`jobs/${name}.readings.yaml`), `jobs/${name}.readings.yaml`);
const onCar = (job: string) =>
  lenses({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job }, 'w.readings.yaml');

describe('above a measure', () => {
  it('stands its base, how many points are how, and the worst', async () => {
    const found = (await sample('w-1192-twisted-rail')).filter(({ at }) => at === 'measure');
    expect(found).toHaveLength(5);
    expect(found[0].text).toMatch(
      /^base of 14 points · \d+ within, \d+ outside, \d+ undecided · worst rail-tip-upper\.L: 4\d\.\d mm too far right \(inboard\), ±\d\.\d \(95 %\)$/,
    );
    expect(found[1].text).toMatch(/^peaks · alignment of "as received" · /);
  });

  it('stands which control points were left out, and that a base is not settled', async () => {
    expect((await sample('w-1205-moved-control-point'))[0].text).toMatch(
      /^base of 11 points, without sill-hole-rear\.R · /,
    );
    const few = jobOn('  - measure: a\n    readings:\n      latch: [3050, 0, 780]');
    expect((await onCar(few))[0].text).toMatch(/^(provisional · )?no alignment · 1 unjudged/);
  });

  it('stands what to read first, and what to read where the base is weak', async () => {
    const head = 'instrument: { name: arm, uncertainty: 0.8 }\nscope: [front-rail]';
    const [empty] = await onCar(jobOn('  - measure: as received', head));
    expect(empty.text).toMatch(/^nothing to judge yet · read first \S+.*, both sides$/);
    const rear = `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]`;
    const [weak] = await onCar(jobOn(rear, head));
    expect(weak.text).toMatch(/^base of 4 points · .* · weak, read cowl-hole, both sides$/);
    // once work was done its readings are history
    const [done] = await onCar(jobOn(`${rear}\n  - replace: front-rail.L`, head));
    expect(done.text).not.toContain('read');
    const [strong] = await onCar(jobOn(measured(''), head.replace('0.8', '0.2')));
    expect(strong.text).not.toContain('read');
  });

  it('stands where there are distances alone', async () => {
    expect((await sample('w-1213-tram-only'))[0].text).toMatch(/^distances only, one network · /);
  });
});

describe('above a part’s first row in the newest measure', () => {
  it('stands in the measure before, while the newest has no reading yet', async () => {
    const name = 'jobs/w-1192-twisted-rail.readings.yaml';
    const files = sampleFiles(name);
    const parts = async (text: string) =>
      (await lenses({ ...files, [name]: text }, name)).filter(({ at }) => at !== 'measure');
    const now = await parts(files[name]);
    expect(now.length).toBeGreaterThan(0);
    expect(await parts(`${files[name]}  - measure: next\n    readings:\n`)).toEqual(now);
  });

  it('stands where it is twisted and swept most, in one short line', async () => {
    const found = await sample('w-1192-twisted-rail');
    const parts = found.filter(({ at }) => at !== 'measure');
    const newest = found.filter(({ at }) => at === 'measure').at(-1)!;
    for (const { line, text } of parts) {
      expect(line).toBeGreaterThan(newest.line);
      expect(text!.length).toBeLessThan(130);
    }
    expect(parts[0].at).toBe('rail-root-lower.L');
    // the text has a twist of some degrees at the tip, which the summaries tell station by station
    expect(parts[0].text).toMatch(
      /^front-rail\.L: twist \d\.\d° ±\d\.\d° top leans right at 3012 mm · sweep \d\.\d ±\d\.\d mm inboard at 3012 mm$/,
    );
  });

  it('says what one level does not show, and what is not settled', async () => {
    const job = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]'));
    const [, part] = await onCar(job);
    expect(part.text).toMatch(
      /^front-rail\.L( \(provisional\))?: twist cannot be observed · sweep 20\.0 ±\d\.\d mm outboard at 3012 mm$/,
    );
  });
});

it('figures under load are called peaks above a part, too', async () => {
  const path = 'jobs/w-1192-twisted-rail.readings.yaml';
  const files = sampleFiles(path);
  const underLoad = files[path].slice(0, files[path].lastIndexOf('  - relieve:'));
  const found = await lenses({ ...files, [path]: underLoad }, path);
  expect(found.at(-1)!.text).toMatch(/^front-rail\.L \(peak\): /);
});

it('without a body nothing stands above anything', async () => {
  expect(await onCar(jobOn(measured('')).replace('car.chassis', 'lost.chassis'))).toEqual([]);
});

it('a lens of what is gone has no words', async () => {
  const analysis = (await analysed(
    { 'car.chassis.yaml': carChassis, 'w.readings.yaml': jobOn(measured('      latch: [3050, 0, 780]')) },
    'w.readings.yaml',
  )) as JobAnalysis;
  expect(lensWords(analysis, { kind: 'stage', index: 7 })).toBeNull();
  expect(lensWords(analysis, { kind: 'part', index: 0, id: 'apron.L' })).toBeNull();
});

it('above each point of a chassis is room for its tally', async () => {
  const found = await lenses({ 'car.chassis.yaml': carChassis }, 'car.chassis.yaml');
  expect(found.map(({ at }) => at)).toEqual(
    [...carChassis.matchAll(/^ {2}([\w-]+): \{ (?:both|centre)/gm)].map(([, id]) => id),
  );
});
