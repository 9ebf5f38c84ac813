import { afterEach, expect, it, vi } from 'vitest';
import { memoryFiles } from '../workspace/testing/memory-files';
import { Workspace } from '../workspace/workspace';
import { queryOfRequest } from './query-of-request';
import type { Session } from './session';

const uri = 'file:///shop/w.readings.yaml';
const workspace = new Workspace(memoryFiles({ [uri]: 'order: W-1\n' }, 'file:///shop/'));
const session = { workspace, roots: () => ['file:///shop/'] } as unknown as Session;
const token = { isCancellationRequested: false, onCancellationRequested: () => ({ dispose: () => {} }) };

afterEach(() => {
  vi.restoreAllMocks();
});

it('ends before the next file once the answer is no longer wanted', async () => {
  const cancelled = { ...token };
  const query = queryOfRequest(session, cancelled);
  expect(await query.readText(uri)).toBe('order: W-1\n');
  cancelled.isCancellationRequested = true;
  await expect(query.readText(uri)).rejects.toThrow('no longer wanted');
});

it('lets other work in after a while: only so is a cancellation heard of', async () => {
  let now = 0;
  vi.spyOn(Date, 'now').mockImplementation(() => {
    now += 10;
    return now;
  });
  const query = queryOfRequest(session, token);
  let heard = false;
  setImmediate(() => {
    heard = true;
  });
  for (let file = 0; file < 10; file++) await query.readText(uri);
  expect(heard).toBe(true);
});
