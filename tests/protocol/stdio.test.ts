// The language server as any editor starts it, from the command line and over its standard streams.
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { chassisPath, cliPath, covered, hasRule, jobPath, ProtocolClient, positionOf, uriOf } from './client';

let server: ChildProcessWithoutNullStreams;
let client: ProtocolClient;
let errors = '';
let text: string;

beforeAll(async () => {
  server = spawn(process.execPath, [cliPath, 'lsp', '--stdio']);
  server.stderr.on('data', (data) => {
    errors += data;
  });
  const reader = new StreamMessageReader(server.stdout);
  client = new ProtocolClient(createMessageConnection(reader, new StreamMessageWriter(server.stdin)));
  const { capabilities } = await client.initialize({ rulePages: 'framewright-rule:/' });
  expect(capabilities).toMatchObject({
    hoverProvider: expect.anything(),
    codeActionProvider: expect.anything(),
  });
  text = await client.open(jobPath, 'framewright-readings');
});

afterAll(() => {
  server.kill();
});

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
  const gone = new Promise<number | null>((resolve) => server.once('exit', resolve));
  await client.shutdown();
  expect(await gone).toBe(0);
  expect(errors).toBe('');
});
