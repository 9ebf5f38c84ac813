import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { analysed } from '../../server/src/findings/testing/analysed';
import { sealsOf as sealsOfModel } from '../../server/src/inspection/gate/seal';
import { sealsOf } from './seal.mjs';

const read = (path: string) => readFileSync(new URL(`../../samples/${path}`, import.meta.url), 'utf8');
const sheets: Record<string, string> = {
  'specs/teal-estate.chassis.yaml': read('specs/teal-estate.chassis.yaml'),
  'specs/marten-hatch.chassis.yaml': read('specs/marten-hatch.chassis.yaml'),
};
test('x', async () => {
  const path = 'jobs/w-1174-finished.readings.yaml';
  const text = read(path);
  const analysis = await analysed({ ...sheets, [path]: text }, path);
  if (analysis.kind !== 'readings' || !analysis.chassis) throw new Error('no');
  const { job, chassis } = analysis;
  expect(
    sealsOf(text, [sheets['specs/teal-estate.chassis.yaml'], sheets['specs/marten-hatch.chassis.yaml']]),
  ).toEqual(sealsOfModel(job, chassis, job.signOff!, 'simple'));
});
