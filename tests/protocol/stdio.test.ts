// The language server as any editor starts it, from the command line and over its standard streams.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Range } from 'vscode-languageserver-protocol';
import { chassisPath, covered, hasRule, jobPath, positionOf, uriOf } from './client';
import { StartedClient } from './started-client';

const client = new StartedClient();
let text: string;

beforeAll(async () => {
  const { capabilities } = await client.initialize({ rulePages: 'framewright-rule:/' });
  expect(capabilities).toMatchObject({
    hoverProvider: expect.anything(),
    codeActionProvider: expect.anything(),
  });
  text = await client.open(jobPath, 'framewright-readings');
});

afterAll(() => client.kill());

test('a mistyped point is reported where it stands, with its rule and its page', async () => {
  const all = await client.findings(jobPath, hasRule('name/unknown-point'));
  const [found] = all.filter(({ code }) => code === 'name/unknown-point');
  expect(covered(text, found)).toBe('raill-tip-upper.R');
  expect(found.severity).toBe(1);
  expect(found.codeDescription?.href).toBe('framewright-rule:/name/unknown-point.md');
});

test('the chassis is read from the disk: a reading out of tolerance is judged', async () => {
  const all = await client.findings(jobPath, hasRule('reading/outside'));
  const outside = all.filter(({ code }) => code === 'reading/outside');
  expect(outside.map((finding) => covered(text, finding))).toEqual(['rail-tip-upper.L']);
});

test('hover on a reading tells its verdict', async () => {
  const hover = await client.hover(jobPath, positionOf(text, 'rail-tip-upper.L'));
  expect(JSON.stringify(hover?.contents)).toMatch(/outside/);
});

test('the fix of a mistyped point names the nearest one', async () => {
  const all = await client.findings(jobPath, hasRule('name/unknown-point'));
  const [found] = all.filter(({ code }) => code === 'name/unknown-point');
  const actions = await client.actions(jobPath, found);
  expect(actions.map(({ title }) => title).join('\n')).toContain('rail-tip-upper.R');
});

test('a rule has its page, and an unknown one has none', async () => {
  expect((await client.rulePage('name/unknown-point')).markdown).toMatch(/^# name\/unknown-point/m);
  expect((await client.rulePage('name/of-no-rule')).markdown).toBeNull();
});

test('the rows outside tolerance are listed where they stand, with how far', async () => {
  const asked = (file: string) =>
    client.request<{ places: { range: Range; words: string }[] }>('framewright/outside', {
      uri: uriOf(file),
    });
  const { places } = await asked(jobPath);
  expect(places.map(({ range }) => covered(text, { range }))).toEqual(['rail-tip-upper.L']);
  expect(places[0].words).toMatch(/^rail-tip-upper\.L: 10\.\d mm too far left \(outboard\)$/);
  expect(await asked(chassisPath)).toEqual({ places: [] });
});

test('the points of a chassis file are listed with their places, and a job has none', async () => {
  const asked = (file: string) =>
    client.request<{ points: { range: Range }[]; order: string[] }>('framewright/chassisPoints', {
      uri: uriOf(file),
    });
  const { points, order } = await asked(chassisPath);
  expect(points).toHaveLength(16);
  // control points first
  expect(order.slice(0, 2)).toEqual(['floor-front.L', 'floor-front.R']);
  expect(new Set(order).size).toBe(16);
  expect(points[1]).toMatchObject({
    id: 'floor-front.R',
    position: '1200 forward, 420 right, 95 up',
    part: 'floor',
    base: true,
  });
  const sheet = readFileSync(chassisPath, 'utf8');
  expect(points[1].range.start).toEqual(positionOf(sheet, 'floor-front:'));
  expect(await asked(jobPath)).toEqual({ points: [], order: [] });
});

test('the record of a job is made as it is being typed, and not of a chassis file', async () => {
  const record = await client.request<{ html: string; name: string }>('framewright/report', {
    uri: uriOf(jobPath),
    paper: 'letter',
  });
  expect(record.name).toBe('w-2001.html');
  expect(record.html).toMatch(/^<!doctype html>[\s\S]*@page\{size:letter[\s\S]*Dimensional record/);
  expect(await client.request('framewright/report', { uri: uriOf(chassisPath) })).toEqual({
    message: 'a report is made from a readings file',
  });
});

test('an edit of the open chassis is felt in the job', async () => {
  const chassis = await client.open(chassisPath, 'framewright-chassis');
  const wide = chassis.replace(/(rail-tip-upper:.*front-rail) }/, '$1, tolerance: 20 }');
  expect(wide).not.toBe(chassis);
  await client.replace(chassisPath, 2, wide);
  await client.findings(jobPath, (all) => !hasRule('reading/outside')(all));
  await client.replace(chassisPath, 3, chassis);
  await client.findings(jobPath, hasRule('reading/outside'));
});

test('an edit that mends the name clears the finding', async () => {
  await client.replace(jobPath, 2, text.replace('raill-tip-upper.R', 'rail-tip-upper.R'));
  await client.findings(jobPath, (all) => !hasRule('name/unknown-point')(all));
});

test('it ends when told to, and said nothing beside the protocol', async () => {
  expect(await client.end()).toBe(0);
  expect(client.errors).toBe('');
});
