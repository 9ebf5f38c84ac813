import { describe, expect, it } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import { CheckProgress } from './check-progress';

function shown() {
  const told: unknown[][] = [];
  let cancel = (): void => {};
  let stopped = 0;
  const reporter = {
    begin: (...words: unknown[]) => told.push(['begin', ...words]),
    report: (...words: unknown[]) => told.push(['report', ...words]),
    done: () => told.push(['end']),
    token: {
      onCancellationRequested: (listener: () => void) => {
        cancel = listener;
      },
    },
  };
  const connection = { window: { createWorkDoneProgress: async () => reporter } } as unknown as Connection;
  const progress = new CheckProgress(connection, () => stopped++);
  const ready = () => new Promise((resolve) => setImmediate(resolve));
  return { progress, told, ready, cancel: () => cancel(), stopped: () => stopped };
}

describe('the progress of a check', () => {
  it('is not shown for a few files', async () => {
    const { progress, told, ready } = shown();
    for (let done = 0; done <= 49; done++) progress.show(done, 49);
    await ready();
    expect(told).toEqual([]);
  });

  it('begins, tells how far it is, and ends', async () => {
    const { progress, told, ready } = shown();
    progress.show(0, 80);
    await ready();
    progress.show(80, 80);
    expect(told).toEqual([
      ['begin', 'Framewright: checking the workspace', 0, undefined, false],
      ['report', 0, '0 of 80 files'],
      ['end'],
    ]);
  });

  it('can be stopped where there are many', async () => {
    const { progress, told, ready, cancel, stopped } = shown();
    progress.show(0, 500);
    await ready();
    expect(told[0].at(-1)).toBe(true);
    cancel();
    expect(stopped()).toBe(1);
  });

  it('that was over before the editor was ready is not shown beside a later one', async () => {
    const { progress, told, ready } = shown();
    progress.show(0, 60);
    progress.show(60, 60);
    progress.show(0, 60);
    await ready();
    progress.show(60, 60);
    expect(told.map(([kind]) => kind)).toEqual(['begin', 'report', 'end']);
  });
});
