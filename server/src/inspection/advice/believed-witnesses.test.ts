import { describe, expect, it } from 'vitest';
import { type Vec3, zero } from '../../geometry/vector';
import { chassisText, isControl, readCar } from '../../testing/read-car';
import type { Inspection } from '../job/inspect';
import type { MeasuringAdvice } from './answer';
import { advised } from './job-advice';

function adviceOf(inspection: Inspection): MeasuringAdvice {
  const advice = advised(inspection, inspection.stages[0], null);
  if (typeof advice === 'string') throw new Error(advice);
  return advice;
}

/** The worst that the stage's own alignment leaves at a point of the scope, by tolerances that are all alike. */
const worstOf = ({ stages: [{ points }] }: Inspection): number =>
  Math.max(
    ...points
      .filter(({ point }) => point.part?.startsWith('front-rail'))
      .flatMap(({ alignmentVariance }) => alignmentVariance.map((each) => Math.sqrt(each!))),
  );

const moved = (by: Readonly<Record<string, Vec3>>) => (id: string) =>
  Object.entries(by).find(([name]) => id.startsWith(name))?.[1] ?? zero;

describe('advice and what stands around', () => {
  it.each<[string, Readonly<Record<string, Vec3>>]>([
    ['all of it believed', {}],
    ['one group low', { 'rear-rail': [0, 0, -8] }],
    ['one group near what is believed', { 'rear-rail': [0, 0, -3] }],
    ['two groups off', { 'rear-rail': [0, 0, -6], sill: [0, 5, 0] }],
  ])('begins with what the stage’s own frame says: %s', (_, by) => {
    const inspection = readCar(moved(by));
    expect(inspection.stages[0].provisional).toBe(false);
    expect(adviceOf(inspection).now?.uncertaintyMm).toBeCloseTo(worstOf(inspection), 9);
  });

  it('counts none that the frame does not believe as if it helped', () => {
    const all = adviceOf(readCar(moved({}))).now!.uncertaintyMm;
    const low = adviceOf(readCar(moved({ 'rear-rail': [0, 0, -8] }))).now!.uncertaintyMm;
    expect(low).toBeGreaterThan(1.05 * all);
  });

  it('begins with the scatter that was raised', () => {
    const wild = readCar(moved({}), {
      noiseMm: 0.6,
      chassis: chassisText(undefined, 'build-elsewhere: 0.1\nbuild: 0.6\n'),
    });
    expect(wild.stages[0].alignment?.witnesses?.scatterMm).toBeGreaterThan(0.1);
    expect(adviceOf(wild).now?.uncertaintyMm).toBeCloseTo(worstOf(wild), 9);
  });

  it('counts nothing around control points that are not settled, and says that they come first', () => {
    const inspection = readCar((id) => (isControl(id) ? zero : [0, 0, -600]));
    expect(inspection.stages[0].provisional).toBe(true);
    const advice = adviceOf(inspection);
    expect(advice.unsettled).toBe(true);
    expect(advice.now?.uncertaintyMm).toBeCloseTo(worstOf(inspection), 9);
    expect(adviceOf(readCar(moved({}))).unsettled).toBe(false);
  });
});
