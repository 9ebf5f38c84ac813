import { expect, test } from 'vitest';
import { bentFrom, chassisWith, job, jobFiles, measure, sound } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/no-hold';
const received = measure('as received', bentFrom(2200));
const pull = (hold = '') => `  - pull: left rail out\n    part: front-rail.L\n${hold}`;
const warned = async (timeline: string, head = '') =>
  (await said(name, jobFiles(job(timeline, head)))).length > 0;

test('a bent rail is pulled with nothing holding behind the bend', async () => {
  await found(
    name,
    jobFiles(
      job(`
${received}
  - pull: left rail out
#   ^^^^ warning: procedure/no-hold front-rail.L is bent from 2200 mm on, and neither a hold nor an anchor stands on straight metal behind that: hold it between 1600 and 21
    part: front-rail.L
`),
    ),
  );
});

test('a hold on the rail, or at a point, on the base’s side within 600 mm', async () => {
  for (const hold of [
    '{ part: front-rail.L, at: 2100 }',
    '{ part: front-rail.L, at: 1605 }',
    'rail-second-lower.L',
    'floor-front.L, rail-root-lower.L',
  ])
    expect([hold, await warned(`${received}\n${pull(`    hold: [${hold}]`)}`)]).toEqual([hold, false]);
});

test('a hold that cannot be read: nobody knows whether it holds, and the other rules go on', async () => {
  const text = job(`${received}\n${pull('    hold: { part: front-rail.L }')}`);
  const files = { 'body.chassis.yaml': chassisWith(), 'job.readings.yaml': text };
  const { findings } = await analysed(files, 'job.readings.yaml');
  const rules = findings.map((each) => each.rule);
  expect(rules).toContain('text/missing-key');
  expect(rules).not.toContain(name);
  expect(rules).toContain('reading/outside');
});

test('a hold beyond the bend, in its doubt, too far off, on the other side, or along a part that runs another way', async () => {
  for (const hold of [
    '{ part: front-rail.L, at: 2300 }',
    '{ part: front-rail.L, at: 2199.9 }',
    '{ part: front-rail.L, at: 1595 }',
    '{ part: front-rail.R, at: 2100 }',
    'rail-second-lower.R',
    '{ part: centre-pillar.L, at: 2100 }',
  ])
    expect([hold, await warned(`${received}\n${pull(`    hold: [${hold}]`)}`)]).toEqual([hold, true]);
});

test('an anchor of the body counts as a hold does', async () => {
  expect(await warned(`${received}\n${pull()}`, 'anchors: [rail-second-lower]\n')).toBe(false);
  expect(await warned(`${received}\n${pull()}`, 'anchors: [rail-second-lower.R]\n')).toBe(true);
  expect(await warned(`${received}\n${pull()}`, 'anchors: [floor-rear]\n')).toBe(true);
});

test('no bend is known', async () => {
  await silent(name, jobFiles(job(pull())));
  await silent(name, jobFiles(job(`${measure('as received', sound)}\n${pull()}`)));
});

test('a part that was renewed is not bent any more', async () => {
  await silent(name, jobFiles(job(`${received}\n  - replace: front-rail.L\n${pull()}`)));
  await silent(name, jobFiles(job(`${received}\n  - section: front-rail.L\n    at: 2120\n${pull()}`)));
});
