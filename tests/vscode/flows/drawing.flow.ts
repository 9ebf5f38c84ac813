// A person opens the drawing beside a job, goes through its stages, from mark to reading and back, and types.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { FrameLocator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { shopFolder } from './shop-folder';
import { testIn } from './window';
import { goToLine, openFile, patience, runCommand, screenshot, short, tried } from './workbench-page';

const samples = path.join(import.meta.dirname, '../../../samples');
const job = 'jobs/w-1192-twisted-rail.readings.yaml';
const lines = readFileSync(path.join(samples, job), 'utf8').split('\n');
const test = testIn(await shopFolder());

/** Lines of the readings of a point, from 1, one for each stage that read it. */
const readingsOf = (id: string): number[] =>
  lines.flatMap((line, i) => (line.trimStart().startsWith(`${id}:`) ? [i + 1] : []));

/** The page within the editor's own frames for it. */
const view = (page: Page): FrameLocator =>
  page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');

/** Opens the drawing at its first section, whichever one a flow before this one left it at. */
const openDrawing = async (page: Page): Promise<void> => {
  const tab = view(page).getByRole('tab', { name: 'Drawing' });
  await tried(async () => {
    if (!(await tab.isVisible()))
      await page.getByRole('button', { name: 'Show Chassis Drawing' }).first().click({ timeout: short });
    await tab.waitFor({ timeout: short });
  });
  await view(page).locator('body[data-revision]').waitFor();
  if ((await tab.getAttribute('aria-selected')) !== 'true') await tab.click();
  await view(page).locator('svg[data-view=plan] [data-point]').first().waitFor({ state: 'attached' });
};

const cursor = (page: Page): Promise<string | null> =>
  page.locator('#status\\.editor\\.selection').textContent();
const rowOf = (page: Page, id: string) => view(page).locator(`tbody[data-point="${id}"]`);

test('the drawing stands beside the file, leads to a reading, and follows the cursor and what is typed', async ({
  page,
}) => {
  await openFile(page, job);
  const start = Date.now();
  await openDrawing(page);
  const there = Date.now();
  const { origin, drawnMs } = await view(page)
    .locator('body')
    .evaluate(() => ({
      origin: performance.timeOrigin,
      drawnMs: performance.getEntriesByName('drawn')[0].startTime,
    }));
  console.log(
    `the drawing was seen after ${there - start} ms: the editor's frame came after ${Math.round(origin - start)}, and was filled in ${Math.round(drawnMs)} more`,
  );
  const drawn = view(page);
  await expect.poll(() => drawn.locator('#stage-name').textContent()).toBe('5 of 5 · after second pull');
  await screenshot(page, 'drawing');

  // through the stages by the slider, over the first
  await drawn.locator('#stage').focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => drawn.locator('#stage-name').textContent()).toBe('3 of 5 · after first pull');
  await drawn.locator('#over').selectOption('0');
  await drawn.locator('.fw-earlier').first().waitFor({ state: 'attached' });

  // the figures under the pointer, and a click to the reading of that stage
  const mark = drawn.locator('svg[data-view=left] [data-point="rail-tip-lower.L"]');
  await tried(async () => {
    await mark.locator('.fw-symbol').hover({ timeout: short });
    await drawn.locator('#tip', { hasText: 'rail-tip-lower.L: outside' }).waitFor({ timeout: short });
  });
  await screenshot(page, 'drawing-over');
  await mark.locator('.fw-symbol').click();
  // the second reading is the peak
  await expect.poll(() => cursor(page)).toContain(`Ln ${readingsOf('rail-tip-lower.L')[2]},`);
  await expect.poll(() => rowOf(page, 'rail-tip-lower.L').getAttribute('class')).toContain('fw-row-selected');

  // the cursor in the text selects, and the drawing goes to its stage
  await goToLine(page, readingsOf('rail-tip-upper.L').at(-1) ?? 0);
  await expect.poll(() => rowOf(page, 'rail-tip-upper.L').getAttribute('class')).toContain('fw-row-selected');
  await expect.poll(() => drawn.locator('#stage-name').textContent()).toBe('5 of 5 · after second pull');

  // what is typed is seen
  const height = rowOf(page, 'rail-tip-upper.L').locator('td').nth(2);
  const before = await height.textContent();
  await page.keyboard.press('End');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.type('9.0');
  await expect.poll(() => height.textContent()).not.toBe(before);
});

test('points through the stages, and the body in space', async ({ page }) => {
  await openFile(page, job);
  await openDrawing(page);
  const drawn = view(page);
  await drawn.getByRole('tab', { name: 'Through the stages' }).click();
  await drawn.locator('svg.fw-history').first().waitFor();
  await drawn.locator('svg.fw-profile').first().waitFor();
  await screenshot(page, 'history');
  await page.keyboard.press('ArrowRight');
  await drawn.locator('#solid [data-point]').first().waitFor({ state: 'attached' });
  await expect.poll(() => drawn.locator('#solid-words').textContent()).toContain('deviations × 10');
  const mark = drawn.locator('#solid [data-point="rail-tip-upper.L"][transform]');
  const before = await mark.getAttribute('transform');
  await drawn.locator('#solid').focus();
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => mark.getAttribute('transform')).not.toBe(before);
  await screenshot(page, 'in-space');
});

/** What the window has written down of how it stands, to be shown so again: in the browser, when it has been at rest for a while. */
const writtenDown = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const words: string[] = [];
    for (const { name = '' } of await indexedDB.databases()) {
      if (!name.startsWith('vscode-web-state-db-')) continue;
      const database = await done(indexedDB.open(name));
      for (const store of database.objectStoreNames)
        words.push(...(await done(database.transaction(store).objectStore(store).getAll())).map(String));
      database.close();
    }
    return words.join('\n');
  });

test('the drawing stands where it stood when the window is loaded anew', async ({ page }) => {
  await openFile(page, job);
  await openDrawing(page);
  const drawn = view(page);
  const stage = drawn.locator('#stage-name');
  await tried(async () => {
    await drawn.locator('#stage').fill('2', { timeout: short });
    await expect.poll(() => stage.textContent(), { timeout: short }).toBe('3 of 5 · after first pull');
  });
  await drawn.getByRole('tab', { name: 'Through the stages' }).click();
  await drawn.locator('svg.fw-history').first().waitFor();
  // a window that is not yet written down asks to stay
  page.on('dialog', (dialog) => void dialog.accept());
  await expect.poll(() => writtenDown(page)).toMatch(/section\W+history\W+stage\W+2\W/);
  await page.reload();
  await page.locator('.monaco-workbench').waitFor({ timeout: patience });
  await drawn.locator('svg.fw-history').first().waitFor({ timeout: patience });
  await expect.poll(() => stage.textContent()).toBe('3 of 5 · after first pull');
  await expect.poll(() => drawn.locator('h1').textContent()).toContain('W-1192');
});

test('the body of a chassis file is drawn, in a dark and in a high-contrast theme', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await openFile(page, 'specs/marten-hatch.chassis.yaml');
  await openDrawing(page);
  await expect.poll(() => view(page).locator('h1').textContent()).toContain('Marten');
  await screenshot(page, 'drawing-body-dark');
  // a file opens where the focus is: beside the drawing, not over it
  await page.keyboard.press('Control+1');
  await openFile(page, job);
  await expect.poll(() => view(page).locator('h1').textContent()).toContain('W-1192');
  await screenshot(page, 'drawing-dark');
  await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
  await page.locator('.monaco-workbench.hc-black').waitFor();
  await screenshot(page, 'drawing-high-contrast');
});

test('the record of a job is written where a person says, and offered to be opened', async ({ page }) => {
  await openFile(page, job);
  const input = page.locator('.quick-input-widget').locator('input[type="text"], input:not([type])').first();
  await tried(async () => {
    await runCommand(page, 'Write Dimensional Record', true);
    // the same box asks for the file
    await expect.poll(() => input.inputValue(), { timeout: short }).toMatch(/w-1192-twisted-rail\.html$/);
  });
  await page.keyboard.press('Enter');
  const told = page.locator('.notification-toast', { hasText: 'w-1192-twisted-rail.html is written' });
  await told.waitFor();
  await screenshot(page, 'record-written');
  await told.getByRole('button', { name: 'Show Text' }).click();
  await page.locator('.tab.active', { hasText: 'w-1192-twisted-rail.html' }).waitFor();
  await expect
    .poll(() => page.locator('.editor-instance .view-lines').first().textContent())
    .toContain('doctype');
});
