import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { jobFileName, jobFolderOf, nameFault, newJobText, pathFrom } from './new-job';

const job = { order: 'W-2041', chassisPath: '../specs/marten.chassis.yaml', today: '2026-03-02' };

test('every point has a row that waits as a comment', () => {
  const lines = newJobText({ ...job, pointIds: ['latch', 'rail-tip.L'] }).split('\n');
  expect(lines.slice(-3)).toEqual(['      # latch:      [ , , ]', '      # rail-tip.L: [ , , ]', '']);
});

test('taking away the # of a row makes it one', () => {
  const text = newJobText({ ...job, pointIds: ['latch', 'rail-tip.L'] });
  const filled = text.replace('# latch:      [ , , ]', 'latch:      [1, 2, 3]');
  expect(parse(filled).timeline).toEqual([
    { measure: 'as received', at: '2026-03-02', readings: { latch: [1, 2, 3] } },
  ]);
});

test('whatever the order and the path are called, the file says just that', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'grapheme', minLength: 1 }),
      fc.string({ minLength: 1 }),
      (order, folder) => {
        const chassisPath = `./${folder}/a.chassis.yaml`;
        const read = parse(newJobText({ ...job, order, chassisPath, pointIds: [] }));
        expect([read.order, read.chassis]).toEqual([order, chassisPath]);
      },
    ),
  );
});

test.each(['2041', 'true', 'No', '1e3', '~', '- a', 'a: b', 'a #b'])('the order %s stays text', (order) => {
  expect(parse(newJobText({ ...job, order, pointIds: [] })).order).toBe(order);
});

test.each([
  ['W-2041 left rail', 'w-2041-left-rail.readings.yaml'],
  ['  Müller / Ø 3 ', 'muller-ø-3.readings.yaml'],
  ['../../etc', 'etc.readings.yaml'],
  ['///', null],
])('the file of %j', (name, file) => {
  expect(jobFileName(name)).toBe(file);
});

test('a name that is taken or empty is refused with the reason', () => {
  const taken = new Set(['w-1.readings.yaml']);
  expect(nameFault('W-1', taken)).toMatch(/w-1\.readings\.yaml already/);
  expect(nameFault('W-2', taken)).toBeNull();
  expect(nameFault('?', taken)).toMatch(/letters or figures/);
});

test.each([
  ['specs/marten.chassis.yaml', 'jobs', '../specs/marten.chassis.yaml'],
  ['marten.chassis.yaml', 'jobs', '../marten.chassis.yaml'],
  ['shop/specs/marten.chassis.yaml', 'shop/jobs', '../specs/marten.chassis.yaml'],
])('the job of %s goes into %s', (chassis, folder, way) => {
  expect(jobFolderOf(chassis)).toBe(folder);
  expect(pathFrom(folder, chassis)).toBe(way);
});

test('a chassis file in the same folder is named so', () => {
  expect(pathFrom('', 'marten.chassis.yaml')).toBe('./marten.chassis.yaml');
});
