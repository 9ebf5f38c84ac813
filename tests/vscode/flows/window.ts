/** The window that a flow is in: the same flows run in two workbenches, each test in a window and a folder of its own. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, test as base, beforeAll } from 'vitest';
import { openBrowser, startServer, startWebServer, windowSize, workbenchUrl } from '../workbench.mjs';
import { screenshot } from './workbench-page';

/** `server`: the extension runs in Node. `web`: in a worker of the page, its language server in another. */
export const workbench: 'server' | 'web' = process.env.WORKBENCH === 'web' ? 'web' : 'server';

const extension = path.join(import.meta.dirname, '../../../client');

/** Opens a page on a fresh copy of the folder; `close` ends what belongs to it. */
interface Workbench {
  open(page: Page): Promise<void>;
  stop(): Promise<void>;
}

const startWorkbench = async (folder: string, settings: object): Promise<Workbench> => {
  const scratch = mkdtempSync(path.join(tmpdir(), 'framewright-flow-'));
  let copies = 0;
  const copy = (): string => {
    copies += 1;
    const target = path.join(scratch, `shop-${copies}`);
    cpSync(folder, target, { recursive: true });
    return target;
  };
  const clean = (): void =>
    rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  if (workbench === 'web') {
    // nothing is written to it: the page keeps what it changes
    const server = await startWebServer({ extension, folder: copy(), settings });
    return {
      open: async (page) => {
        await server.prepare(page);
        await page.goto(`${server.origin}/`);
      },
      stop: () => server.stop().finally(clean),
    };
  }
  const server = await startServer({ settings });
  return {
    open: async (page) => {
      await page.goto(workbenchUrl(server.origin, { open: copy(), development: [extension] }));
    },
    stop: () => server.stop().finally(clean),
  };
};

/** `test` with a `page` that shows a copy of the folder; nothing of one test is left in the next, so that each can be tried again. */
export const testIn = (folder: string, settings: object = {}) => {
  let browser: Browser;
  let started: Workbench;
  beforeAll(async () => {
    [browser, started] = await Promise.all([openBrowser(), startWorkbench(folder, settings)]);
  });
  afterAll(async () => {
    await browser?.close();
    await started?.stop();
  });
  return base.extend<{ page: Page }>({
    page: async ({ task }, use) => {
      const context = await browser.newContext({ viewport: windowSize });
      const page = await context.newPage();
      await started.open(page);
      await use(page);
      if (task.result?.state === 'fail') {
        await screenshot(page, `failed-${task.name.replaceAll(/\W+/g, '-')}`);
      }
      await context.close();
    },
  });
};
