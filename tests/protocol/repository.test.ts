// A whole repository as the workspace: files that nobody opened are judged as well.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { carChassis, jobOn, measured } from '../../server/src/testing/car';
import { cliPath, uriOf } from './client';
import { ShopServer } from './shop-server';

const folder = mkdtempSync(path.join(tmpdir(), 'framewright-shop-'));
const jobs = path.join(folder, 'jobs');
const jobFile = (number: number): string => path.join(jobs, `w-${number}.readings.yaml`);
const chassisFile = (name: string): string => path.join(folder, 'specs', `${name}.chassis.yaml`);
const old = path.join(folder, 'old', 'w-1.readings.yaml');
const settings = path.join(folder, '.framewright.yaml');
const numbers = Array.from({ length: 60 }, (_, number) => number);

/** Every third job on the child of the body that the others are on; every fifth job with a slip. */
function jobText(number: number): string {
  const row = number % 5 === 0 ? 'lacth' : 'latch';
  const job = jobOn(
    measured(`      ${row}: [3050, 9, 780]`),
    `order: W-${number}\ninstrument: { uncertainty: 0.2 }`,
  );
  return job.replace('car.chassis', number % 3 === 0 ? '../specs/car-long.chassis' : '../specs/car.chassis');
}

const names = (all: Iterable<string>): string[] => [...new Set(all)].sort();
const hasSlip = (file: string): boolean =>
  server.findings(file)?.some(({ code }) => code === 'name/unknown-point') === true;

let server: ShopServer;

beforeAll(async () => {
  for (const name of ['jobs', 'specs', 'old', '.git']) mkdirSync(path.join(folder, name));
  writeFileSync(chassisFile('car'), carChassis);
  const child = `framewright: chassis/1\nextends: ./car.chassis.yaml\nvehicle: Marten, long\nsource: { kind: published }\n`;
  writeFileSync(chassisFile('car-long'), child);
  for (const number of numbers) writeFileSync(jobFile(number), jobText(number));
  writeFileSync(old, jobText(0));
  writeFileSync(settings, 'framewright: settings/1\nignore: [old]\n');
  server = await ShopServer.started(folder);
  await server.checked();
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

test('no progress is left standing', () => {
  // none at all where everything was looked at before the editor was ready to show it
  expect(server.progress().filter((kind) => kind === 'begin')).toHaveLength(
    server.progress().filter((kind) => kind === 'end').length,
  );
});

test('findings are told of the files that `check` has findings in, and of no other', () => {
  const printed = execFileSync(process.execPath, [cliPath, 'check', '--verbose', '--exit-zero', '.'], {
    cwd: folder,
    encoding: 'utf8',
  });
  const faulty = names(
    [...printed.matchAll(/^(\S+\.yaml):\d+:\d+: /gm)].map(([, name]) => uriOf(path.join(folder, name))),
  );
  expect(faulty.length).toBeGreaterThanOrEqual(60);
  const told = server.published().filter(({ diagnostics }) => diagnostics.length > 0);
  expect(names(told.map(({ uri }) => uri))).toEqual(faulty);
  expect(faulty).not.toContain(uriOf(old));
  expect(numbers.filter((number) => hasSlip(jobFile(number)))).toEqual(
    numbers.filter((number) => number % 5 === 0),
  );
});

test('the list of jobs is had from what is known', async () => {
  type Listed = { entries: { kind: string; uri: string }[]; left: number; checking: boolean };
  const { entries, left, checking } = await server.connection.sendRequest<Listed>('framewright/jobs', {});
  expect({ left, checking }).toEqual({ left: 0, checking: false });
  expect(entries.map(({ uri }) => uri)).toEqual(
    names([...numbers.map(jobFile), chassisFile('car'), chassisFile('car-long')].map(uriOf)),
  );
  const row = jobText(7)
    .split('\n')
    .findIndex((line) => line.includes('latch'));
  expect(entries.find(({ uri }) => uri === uriOf(jobFile(7)))).toMatchObject({
    kind: 'job',
    order: 'W-7',
    state: 'open',
    stage: 'as received',
    counts: { outside: 1, within: 8 },
    worst: {
      id: 'latch',
      words: '9.0 mm too far left, ±0.6 (95 %)',
      range: { start: { line: row, character: 6 } },
    },
    chassis: uriOf(chassisFile('car')),
  });
  expect(entries.find(({ uri }) => uri === uriOf(chassisFile('car-long')))).toMatchObject({
    kind: 'chassis',
    vehicle: 'Marten, long',
    points: 19,
  });
});

test('single files are told of as in the list, and what is no job says so', async () => {
  const ask = (...files: string[]) =>
    server.connection.sendRequest('framewright/jobEntries', { uris: files.map(uriOf) });
  expect(await ask(jobFile(7), settings, jobFile(900))).toMatchObject({
    entries: [
      { kind: 'job', order: 'W-7', counts: { outside: 1, within: 8 }, worst: { id: 'latch' } },
      { kind: 'unreadable', uri: uriOf(settings), message: 'it is neither a job nor a chassis file' },
      { kind: 'unreadable', uri: uriOf(jobFile(900)), message: expect.stringMatching(/./) },
    ],
  });
});

test('an editor that does not watch the files by itself is asked to', () => {
  const asked = server.told.filter(({ method }) => method === 'client/registerCapability');
  expect(JSON.stringify(asked)).toContain('**/*.readings.yaml');
});

test('an edit of a chassis file is felt in every job on it, the open one first', async () => {
  const open = jobFile(31);
  await server.open(open);
  await server.open(chassisFile('car'));
  const from = server.told.length;
  // the second edit comes before the first is felt in all
  await server.replace(chassisFile('car'), 2, carChassis.replace('build: 0.1', 'build: 0.2'));
  await server.replace(chassisFile('car'), 3, carChassis.replaceAll('latch:', 'lock:'));
  await server.until(() => numbers.every((number) => hasSlip(jobFile(number))), 'a slip in every job');
  const order = server.published(from).map(({ uri }) => uri);
  const first = order.findIndex((uri) => uri !== uriOf(open) && uri !== uriOf(chassisFile('car')));
  expect(order.slice(0, first)).toContain(uriOf(open));
  expect(names(order)).toEqual(expect.arrayContaining(numbers.map((number) => uriOf(jobFile(number)))));

  await server.close(chassisFile('car'));
  await server.close(open);
  const isAsBefore = (): boolean =>
    numbers.every((number) => hasSlip(jobFile(number)) === (number % 5 === 0));
  await server.until(isAsBefore, 'findings by the chassis file as it stands on the disk');
});

test('what changed is told to a list that was asked for once', async () => {
  const changes = () => server.told.filter(({ method }) => method === 'framewright/jobsChanged');
  const from = changes().length;
  writeFileSync(jobFile(7), jobText(7).replace('[3050, 9, 780]', '[3050, 0, 780]'));
  await server.changed([jobFile(7)], 2);
  const entry = (): { counts?: { outside: number } } | undefined =>
    changes()
      .slice(from)
      .flatMap(({ params }) => params.entries)
      .findLast(({ uri }: { uri: string }) => uri === uriOf(jobFile(7)));
  // what the edit before led to may still be told
  await server.until(() => entry()?.counts?.outside === 0, 'the changed job');
  expect(entry()?.counts).toMatchObject({ outside: 0, within: 9 });
});

test('a file that is deleted has no findings, and is on the list no more', async () => {
  expect(server.findings(jobFile(20))).not.toEqual([]);
  rmSync(jobFile(20));
  await server.changed([jobFile(20)], 3);
  await server.until(() => server.findings(jobFile(20))?.length === 0, 'no findings');
  const isGone = () => server.told.some(({ params }) => params?.gone?.includes(uriOf(jobFile(20))));
  await server.until(isGone, 'that it is gone');
});

test('a folder that is ignored from now on has no findings', async () => {
  writeFileSync(settings, 'framewright: settings/1\nignore: [old, jobs]\n');
  await server.changed([settings], 2);
  await server.until(
    () => numbers.every((number) => !server.findings(jobFile(number))?.length),
    'no findings',
  );
  writeFileSync(settings, 'framewright: settings/1\nignore: [old]\n');
  await server.changed([settings], 2);
  await server.until(() => hasSlip(jobFile(5)), 'the findings again');
});

test('told to leave closed files alone, it takes their findings back', async () => {
  await server.open(jobFile(10));
  server.configuration = { checkWholeWorkspace: false };
  await server.connection.sendNotification('workspace/didChangeConfiguration', { settings: {} });
  await server.until(
    () => numbers.every((number) => number === 10 || !server.findings(jobFile(number))?.length),
    'no findings of closed files',
  );
  expect(hasSlip(jobFile(10))).toBe(true);
  await server.close(jobFile(10));
  await server.until(
    () => server.findings(jobFile(10))?.length === 0,
    'no findings of a file that was closed',
  );
});

test('it ends when told to', async () => {
  expect(await server.end()).toBe(0);
});

test('a long check can be stopped; files are then left as they are', async () => {
  const many = '/many';
  const jobUris = Array.from({ length: 700 }, (_, number) => uriOf(`${many}/w-${number}.readings.yaml`));
  const chassisUri = uriOf(`${many}/car.chassis.yaml`);
  const text = jobOn(measured('      lacth: [3050, 9, 780]'));
  let read = 0;
  let goOn = (): void => {};
  const isStopped = new Promise<void>((resolve) => {
    goOn = resolve;
  });
  const other = await ShopServer.started(
    many,
    {},
    {
      uris: [...jobUris, chassisUri],
      read: async (uri) => {
        if (uri === chassisUri) return carChassis;
        if (!jobUris.includes(uri)) return null;
        // here the check has to wait until it was told to stop
        if (++read === 20) await isStopped;
        return text;
      },
    },
  );
  await other.until(() => other.progress().includes('begin'), 'the begin');
  const { params } = other.told.find(({ method }) => method === '$/progress')!;
  expect(params.value).toMatchObject({ cancellable: true });
  await other.connection.sendNotification('window/workDoneProgress/cancel', { token: params.token });
  goOn();
  await other.until(() => other.progress().at(-1) === 'end', 'the end');
  expect(names(other.published().map(({ uri }) => uri)).length).toBeLessThanOrEqual(20);
  type Listed = { entries: { kind: string; of?: string }[] };
  const { entries } = await other.connection.sendRequest<Listed>('framewright/jobs', {});
  expect(
    entries.filter(({ kind, of }) => kind === 'unchecked' && of === 'job').length,
  ).toBeGreaterThanOrEqual(680);
  expect(entries).toHaveLength(701);
  // the person asks for it after all
  await other.connection.sendNotification('framewright/checkWorkspace', {});
  await other.until(() => names(other.published().map(({ uri }) => uri)).length >= 700, 'all files');
  expect(await other.end()).toBe(0);
});
