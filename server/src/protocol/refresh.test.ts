import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { ClientCapabilities, Connection } from 'vscode-languageserver';
import { Faults } from './faults';
import { refresher } from './refresh';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const heard = (able: ClientCapabilities) => {
  const asked: string[] = [];
  const connection = {
    languages: {
      inlayHint: { refresh: async () => asked.push('inlay hints') },
      semanticTokens: { refresh: async () => asked.push('semantic tokens') },
    },
    sendRequest: async (method: string) => asked.push(method),
  } as unknown as Connection;
  return { asked, refresh: refresher(connection, () => able, new Faults(connection)) };
};

it('asks once for a burst of changes, and again for a later one', () => {
  const support = { refreshSupport: true };
  const { asked, refresh } = heard({
    workspace: { inlayHint: support, semanticTokens: support, codeLens: support },
  });
  for (let i = 0; i < 5; i++) {
    refresh();
    vi.advanceTimersByTime(100);
  }
  expect(asked).toEqual([]);
  vi.runAllTimers();
  expect(asked).toEqual(['inlay hints', 'semantic tokens', 'workspace/codeLens/refresh']);
  refresh();
  vi.runAllTimers();
  expect(asked).toHaveLength(6);
});

it('asks an editor for nothing that it cannot do', () => {
  const { asked, refresh } = heard({ workspace: { codeLens: { refreshSupport: true } } });
  refresh();
  vi.runAllTimers();
  expect(asked).toEqual(['workspace/codeLens/refresh']);
});
