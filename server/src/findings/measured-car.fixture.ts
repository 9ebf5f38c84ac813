import { expect } from 'vitest';
import { carChassis } from '../inspection/car.fixture';
import { foundIn } from './fixture';

export { carChassis, jobOn, measured, soundBase } from '../inspection/car.fixture';

export const filesOf = (job: string, chassis = carChassis): Record<string, string> => ({
  'car.chassis.yaml': chassis,
  'w.readings.yaml': job,
});

/** Findings of one rule are those that are marked in the job, no more and no fewer. */
export async function expectMarked(rule: string, job: string, chassis = carChassis): Promise<void> {
  const { found, expected } = await foundIn(filesOf(job, chassis), 'w.readings.yaml', rule);
  expect(found.filter((each) => each.rule === rule)).toEqual(expected.filter((each) => each.rule === rule));
  expect(
    expected.some((each) => each.rule === rule),
    'a mark',
  ).toBe(true);
}

/** Findings of one rule: none. */
export async function expectSilent(rule: string, job: string, chassis = carChassis): Promise<void> {
  const { found } = await foundIn(filesOf(job, chassis), 'w.readings.yaml', rule);
  expect(found.filter((each) => each.rule === rule)).toEqual([]);
}
