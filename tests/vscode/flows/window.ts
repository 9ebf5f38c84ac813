/** The window that a flow is in. To open one takes longer than most flows, so it is tidied and used again. */
import { cpSync, mkdtempSync } from 'node:fs';
import path from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { test as base, inject } from 'vitest';
import { openInWeb, windowSize, workbenchUrl } from '../workbench.mjs';
import { failedScreenshot, patience } from './workbench-page';

/** `server`: the extension runs in Node. `web`: in a worker of the page, its language server in another. */
export const workbench: 'server' | 'web' = process.env.WORKBENCH === 'web' ? 'web' : 'server';

const shared = inject('shared');
const extension = path.join(import.meta.dirname, '../../../client');

let connection: Promise<Browser> | undefined;
/** The browser that all flows share; it ends with the run. */
export const sharedBrowser = (): Promise<Browser> => {
  connection ??= chromium.connect(shared.browser);
  return connection;
};

/** Opens a window on a fresh copy of the folder. */
const openWindow = async (folder: string): Promise<Page> => {
  const shop = mkdtempSync(path.join(shared.shops, 'shop-'));
  cpSync(folder, shop, { recursive: true });
  const context = await (await sharedBrowser()).newContext({ viewport: windowSize });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  if (workbench === 'web') await openInWeb(page, shared.web, path.basename(shop));
  else await page.goto(workbenchUrl(shared.server.origin, { open: shop, development: [extension] }));
  return page;
};

/** Closes what a flow has opened, without keeping what it typed; throws where something stays. */
const tidy = async (page: Page): Promise<void> => {
  await page.emulateMedia({ colorScheme: null, forcedColors: null });
  await page.mouse.move(0, 0);
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Alt+Shift+F9');
  const leave = page.locator('.monaco-dialog-box').getByRole('button', { name: "Don't Save" });
  // the last thing that the keys do
  const box = page.locator('.quick-input-widget');
  await leave.or(box).locator('visible=true').first().waitFor();
  if (await leave.isVisible()) await leave.click();
  await box.waitFor();
  await page.keyboard.press('Escape');
  await box.waitFor({ state: 'hidden' });
  for (const left of ['.part.editor .tab', '.notification-toast', '.part.panel', '.monaco-dialog-box'])
    await page.locator(left).first().waitFor({ state: 'hidden' });
};

/** The tidy windows, by their folder. */
const kept = new Map<string, Page>();

const windowOn = async (folder: string): Promise<Page> => {
  const page = kept.get(folder);
  kept.delete(folder);
  if (!page) return openWindow(folder);
  try {
    await tidy(page);
    return page;
  } catch (reason) {
    console.log(`a window could not be tidied: ${reason}`);
    await page.context().close();
    return openWindow(folder);
  }
};

/**
 * `test` with a window that shows a copy of the folder: `page`, which other flows use before and after, so the test
 * leaves the files as they are; `ownPage`, for a test that writes some. After a failure the next try has a new one.
 */
export const testIn = (folder: string) => {
  const used = async (page: Page, passed: boolean, name: string, again: boolean): Promise<void> => {
    if (passed && again) {
      kept.set(folder, page);
      return;
    }
    if (!passed) await failedScreenshot(page, `failed-${name.replaceAll(/\W+/g, '-')}`);
    await page.context().close();
  };
  return base.extend<{ page: Page; ownPage: Page }>({
    page: async ({ task }, use) => {
      const page = await windowOn(folder);
      await use(page);
      await used(page, task.result?.state === 'pass', task.name, true);
    },
    ownPage: async ({ task }, use) => {
      const page = await windowOn(folder);
      await use(page);
      await used(page, task.result?.state === 'pass', task.name, false);
    },
  });
};
