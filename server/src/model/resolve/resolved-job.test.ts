import { expect, it } from 'vitest';
import { chassisOf, jobOf } from '../testing/read';
import { partIds, resolvedJob } from './resolved-job';

const chassis = chassisOf(
  'framewright: chassis/1\nvehicle: Marten\nunits: mm\nparts:\n  rail: { sided: true, along: length }\n  floor: { along: length }\npoints:\n  front: { both: [1000, 400, 90], base: true }\n  rear: { both: [-300, 450, 95], base: true }\n  latch: { centre: [2900, 0, 700] }\n',
);
const resolved = (head: string) => resolvedJob(jobOf(`${head}timeline: []\n`), chassis);
const all = ['front.L', 'front.R', 'rear.L', 'rear.R'];

it.each([
  ['', all],
  ['base: auto\n', all],
  ['base: [latch, rear.L, front.R]\n', ['latch', 'rear.L', 'front.R']],
  ['base: { between: [-300, 999] }\n', ['rear.L', 'rear.R']],
  ['base: { between: [-299, 1000] }\n', ['front.L', 'front.R']],
])('takes as control points what `base` says: %j', (head, ids) => {
  expect([...resolved(head).controlIds]).toEqual(ids);
});

it('takes a bare name in scope and anchors for both sides, and leaves out an anchor that is unknown', () => {
  const { scope, anchors } = resolved('scope: [rail, floor, wing]\nanchors: [rear, front.R, latsch]\n');
  expect([...(scope ?? [])]).toEqual(['rail.L', 'rail.R', 'floor', 'wing']);
  expect(anchors.map(({ id }) => id)).toEqual(['rear.L', 'rear.R', 'front.R']);
  expect(resolved('').scope).toBeNull();
});

it('is settled once for a job on its chassis', () => {
  const job = jobOf('timeline: []\n');
  expect(resolvedJob(job, chassis)).toBe(resolvedJob(job, chassis));
  expect(partIds(job.scope ?? [], chassis)).toEqual([]);
});
