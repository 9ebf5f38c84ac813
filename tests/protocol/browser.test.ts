// The language server as a web worker: no disk, no Node; files come from the client.
import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import {
  createMessageConnection,
  type Location,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol/node';
import {
  chassisPath,
  covered,
  hasRule,
  jobPath,
  ProtocolClient,
  positionOf,
  uriOf,
  workerPath,
} from './client';
import { startWorker } from './worker-thread';

/** Beside the job, and opened by nobody. */
const closedPath = jobPath.replace('w-2001', 'w-2002');

let worker: ReturnType<typeof startWorker>;
let client: ProtocolClient;
let text: string;

beforeAll(async () => {
  worker = startWorker(workerPath);
  client = new ProtocolClient(createMessageConnection(worker.reader, worker.writer));
  const files = new Map([chassisPath, jobPath].map((file) => [uriOf(file), readFileSync(file, 'utf8')]));
  files.set(uriOf(closedPath), readFileSync(jobPath, 'utf8'));
  client.serveFiles(files);
  const { capabilities } = await client.initialize({
    rulePages: 'framewright-rule:/',
    readFilesThroughClient: true,
  });
  expect(capabilities).toMatchObject({
    hoverProvider: expect.anything(),
    codeActionProvider: expect.anything(),
  });
  text = await client.open(jobPath, 'framewright-readings');
});

test('a mistyped point is reported where it stands', async () => {
  const all = await client.findings(jobPath, hasRule('name/unknown-point'));
  const [found] = all.filter(({ code }) => code === 'name/unknown-point');
  expect(covered(text, found)).toBe('raill-tip-upper.R');
});

test('a chassis that is not open is asked of the client, and the readings are judged', async () => {
  const all = await client.findings(jobPath, hasRule('reading/outside'));
  const outside = all.filter(({ code }) => code === 'reading/outside');
  expect(outside.map((finding) => covered(text, finding))).toEqual(['rail-tip-upper.L']);
});

test('a job that nobody opened is judged as well', async () => {
  const all = await client.findings(closedPath, hasRule('reading/outside'));
  expect(all.filter(({ code }) => code === 'name/unknown-point').map((each) => covered(text, each))).toEqual([
    'raill-tip-upper.R',
  ]);
});

test('hover on a reading tells its verdict', async () => {
  const hover = await client.hover(jobPath, positionOf(text, 'rail-tip-upper.L'));
  expect(JSON.stringify(hover?.contents)).toMatch(/outside/);
});

test('a point is found and renamed through all files of the client', async () => {
  const question = {
    textDocument: { uri: uriOf(jobPath) },
    position: positionOf(text, 'rail-tip-upper.L'),
  };
  const [found] = await client.request<Location[]>('textDocument/definition', question);
  expect(found.uri).toBe(uriOf(chassisPath));
  const asked = { ...question, newName: 'rail-nose-upper' };
  const { changes } = await client.request<WorkspaceEdit>('textDocument/rename', asked);
  expect(Object.keys(changes ?? {}).sort()).toEqual([jobPath, closedPath, chassisPath].map(uriOf).sort());
});

test('a rule has its page', async () => {
  expect((await client.rulePage('name/unknown-point')).markdown).toMatch(/^# name\/unknown-point/m);
});

test('nothing went wrong unheard', () => {
  expect(worker.errors).toEqual([]);
});
