import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { ChassisAnalysis } from '../../workspace/workspace';
import { sampleFiles } from '../testing/asked';
import { fileEntry, type JobEntry, pointEntries } from './jobs';
import { outsidePlaces } from './outside';

const analysisOf = (job: string, chassis = carChassis) =>
  analysed({ 'car.chassis.yaml': chassis, 'w.readings.yaml': job }, 'w.readings.yaml');
const entryOf = async (job: string) => fileEntry(await analysisOf(job)) as JobEntry;
const sound = measured('      latch: [3050, 0, 780]');

describe('a job in a line', () => {
  it('says what is out, the worst point in words, and where it stands', async () => {
    const job = jobOn(
      measured('      rail-tip-lower.L: [3012, 468, 210]\n      latch: [3050, 4, 780]'),
      'order: W-1\ninstrument: { uncertainty: 0.2 }',
    );
    const entry = await entryOf(job);
    expect(entry).toMatchObject({ state: 'open', order: 'W-1', stage: 'as received' });
    expect(entry.counts).toMatchObject({ outside: 2, within: 8 });
    expect(entry.worst).toMatchObject({
      id: 'rail-tip-lower.L',
      words: '20.0 mm too far left (outboard), ±0.6 (95 %)',
    });
    expect(job.slice(entry.worst!.range.start, entry.worst!.range.end)).toBe('rail-tip-lower.L');
    expect(entry.chassis).toBe('file:///shop/car.chassis.yaml');
    expect(entry.errors + entry.warnings).toBeGreaterThan(0);
  });

  it.each([
    ['text-errors', jobOn(sound.replace('780]', '780'))],
    ['no-chassis', jobOn(sound).replace('car.chassis', 'cart.chassis')],
    ['unmeasured', jobOn('  - note: came in on a truck')],
    ['open', jobOn(measured('      latch: [3050, 9, 780]'))],
    ['ready', jobOn(sound, 'instrument: { uncertainty: 0.2 }\nscope: [floor]')],
    [
      'sign-off-fails',
      `${jobOn(measured('      latch: [3050, 9, 780]'))}sign-off: { by: rk, date: 2026-03-05, chassis: sha256-00000000 }\n`,
    ],
  ])('is %s', async (state, job) => {
    expect((await entryOf(job)).state).toBe(state);
  });

  it('the finished sample is signed', async () => {
    const path = 'jobs/w-1174-finished.readings.yaml';
    expect(fileEntry(await analysed(sampleFiles(path), path))).toMatchObject({
      state: 'signed',
      remaining: 0,
    });
  });
});

describe('a chassis file in a line', () => {
  it('counts its points and control points, and lists them in words', async () => {
    const analysis = (await analysed(
      { 'car.chassis.yaml': carChassis },
      'car.chassis.yaml',
    )) as ChassisAnalysis;
    expect(fileEntry(analysis)).toMatchObject({ kind: 'chassis', points: 19, controlPoints: 8 });
    const points = pointEntries(analysis);
    expect(points).toHaveLength(19);
    expect(points.find(({ id }) => id === 'floor-rear.R')).toMatchObject({
      position: '350 rearward, 455 right, 90 up',
      part: 'floor',
      base: true,
    });
    expect(points.find(({ id }) => id === 'latch')?.position).toBe('3050 forward, centre, 780 up');
  });
});

describe('rows outside tolerance', () => {
  it('are those of the newest readings, in the order of the text', async () => {
    const job = jobOn(
      `${measured('      rail-tip-lower.L: [3012, 468, 210]\n      latch: [3050, 9, 780]')}\n${measured('      latch: [3050, 8, 780]\n      rail-tip-lower.R: [3012, -448, 230]', 'again')}`,
    );
    const places = outsidePlaces(await analysisOf(job));
    expect(places.map(({ range }) => job.slice(range.start, range.end))).toEqual([
      'rail-tip-lower.L',
      'latch',
      'rail-tip-lower.R',
    ]);
    expect(places[1].range.start).toBeGreaterThan(job.indexOf('again'));
    expect(places[2].words).toBe('rail-tip-lower.R: 20.0 mm too far up');
  });

  it('are none in a chassis file', async () => {
    expect(outsidePlaces(await analysed({ 'car.chassis.yaml': carChassis }, 'car.chassis.yaml'))).toEqual([]);
  });
});
