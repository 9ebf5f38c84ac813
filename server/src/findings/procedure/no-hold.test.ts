import { expect, test } from 'vitest';
import { analysed } from '../testing/analysed';
import { bentFrom, chassisWith, job, jobFiles, measure, rule, sound } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/no-hold';
const received = measure('as received', bentFrom(1500));
const pull = (hold = '') => `  - pull: left rail out\n    part: rail.L\n${hold}`;
const warned = async (timeline: string, head = '') =>
  (await rule(name, job(timeline, head))).found.length > 0;

test('a bent rail is pulled with nothing holding behind the bend', async () => {
  await found(
    name,
    jobFiles(
      job(`
${received}
  - pull: left rail out
#   ^^^^ warning: procedure/no-hold rail.L is bent from 1500 mm on, and neither a hold nor an anchor stands on straight metal behind that: hold it between 900 and 14
    part: rail.L
`),
    ),
  );
});

test('a hold on the rail, or at a point, on the base’s side within 600 mm', async () => {
  for (const hold of [
    '{ part: rail.L, at: 1400 }',
    '{ part: rail.L, at: 905 }',
    'rail-2.L',
    'floor-front.L, rail-1.L',
  ])
    expect([hold, await warned(`${received}\n${pull(`    hold: [${hold}]`)}`)]).toEqual([hold, false]);
});

test('a hold that cannot be read: nobody knows whether it holds, and the other rules go on', async () => {
  const text = job(`${received}\n${pull('    hold: { part: rail.L }')}`);
  const files = { 'body.chassis.yaml': chassisWith(), 'job.readings.yaml': text };
  const { findings } = await analysed(files, 'job.readings.yaml');
  const rules = findings.map((each) => each.rule);
  expect(rules).toContain('text/missing-key');
  expect(rules).not.toContain(name);
  expect(rules).toContain('reading/outside');
});

test('a hold beyond the bend, in its doubt, too far off, on the other side, or along a part that runs another way', async () => {
  for (const hold of [
    '{ part: rail.L, at: 1600 }',
    '{ part: rail.L, at: 1499.9 }',
    '{ part: rail.L, at: 895 }',
    '{ part: rail.R, at: 1400 }',
    'rail-2.R',
    '{ part: pillar.L, at: 1400 }',
  ])
    expect([hold, await warned(`${received}\n${pull(`    hold: [${hold}]`)}`)]).toEqual([hold, true]);
});

test('an anchor of the body counts as a hold does', async () => {
  expect(await warned(`${received}\n${pull()}`, 'anchors: [rail-2]\n')).toBe(false);
  expect(await warned(`${received}\n${pull()}`, 'anchors: [rail-2.R]\n')).toBe(true);
  expect(await warned(`${received}\n${pull()}`, 'anchors: [floor-rear]\n')).toBe(true);
});

test('no bend is known', async () => {
  await silent(name, jobFiles(job(pull())));
  await silent(name, jobFiles(job(`${measure('as received', sound)}\n${pull()}`)));
});

test('a part that was renewed is not bent any more', async () => {
  await silent(name, jobFiles(job(`${received}\n  - replace: rail.L\n${pull()}`)));
  await silent(name, jobFiles(job(`${received}\n  - section: rail.L\n    at: 1420\n${pull()}`)));
});
