import { afterEach, expect, it, vi } from 'vitest';
import { carChassis, jobOn, measured } from '../testing/car';
import { memoryFiles } from '../workspace/testing/memory-files';
import { configurationOf } from './editor-settings';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const job = `${root}/w.readings.yaml`;
const text = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]'));
const able = {
  workspace: {
    workspaceFolders: true,
    configuration: true,
    didChangeConfiguration: { dynamicRegistration: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
  },
};

const started = async (answers: InProcessClient['answers']): Promise<InProcessClient> => {
  const client = new InProcessClient(memoryFiles({ [job]: text, [`${root}/car.chassis.yaml`]: carChassis }));
  Object.assign(client.answers, answers);
  await client.initialize(able, { workspaceFolders: [{ uri: root, name: 'shop' }] });
  return client;
};

const listed = async (client: InProcessClient): Promise<number> =>
  (await client.request<{ entries: unknown[] }>('framewright/jobs', {})).entries.length;

afterEach(() => {
  vi.useRealTimers();
});

it('an editor that refuses what it said that it can is served with the defaults, and told so', async () => {
  const client = await started({});
  expect(await listed(client)).toBe(2);
  await vi.waitFor(() => expect(client.found.get(job)).toContain('reading/outside'), 10_000);
  expect(client.logged.join('\n')).toMatch(/no settings/);
  expect(client.logged.filter((line) => line.startsWith('not told of changes'))).toHaveLength(2);
});

it('an editor that does not answer is waited for a while; what it says later is heeded', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  let answer: (settings: unknown[]) => void = () => {};
  const asked = vi.fn(
    () =>
      new Promise((resolve) => {
        answer = resolve;
      }),
  );
  const client = await started({
    'client/registerCapability': () => null,
    'workspace/configuration': asked,
  });
  while (asked.mock.calls.length === 0) await new Promise<void>((resolve) => setImmediate(resolve));
  await vi.advanceTimersByTimeAsync(5000);
  vi.useRealTimers();
  expect(await listed(client)).toBe(2);
  await vi.waitFor(() => expect(client.found.get(job)).toContain('reading/outside'), 10_000);
  answer([{ severity: { 'reading/outside': 'off' } }]);
  await vi.waitFor(() => expect(client.found.get(job)).not.toContain('reading/outside'), 10_000);
});

it('what is no settings is none', () => {
  for (const given of [null, undefined, 'off', 7, [], [{ severity: {} }]])
    expect(configurationOf(given)).toEqual({});
  expect(configurationOf({ severity: 'off', checkWholeWorkspace: false })).toEqual({
    checkWholeWorkspace: false,
  });
});
