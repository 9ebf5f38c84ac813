// A person types readings: Enter begins the next row, figures stand beside the rows and above the measure.
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { testIn } from './window';
import {
  focusText,
  goToLine,
  jobStatus,
  openFile,
  screenshot,
  squiggle,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));

/** Takes the mistyped last row out, which would hold everything back; its line stays, with the cursor on it. */
const clearLastRow = (page: Page): Promise<void> =>
  tried(async () => {
    await goToLine(page, 26);
    await focusText(page);
    await page.keyboard.press('Home');
    await page.keyboard.press('Shift+End');
    await page.keyboard.press('Delete');
    await expect.poll(() => textInView(page)).not.toContain('raill-');
  });

test('Enter behind a row begins the next one, ready for its figures', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  // its point is then the one that is still to be read
  await clearLastRow(page);
  await goToLine(page, 25);
  await focusText(page);
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toContain('rail-tip-upper.R:');
  await page.keyboard.type('[3012.1, -452.2, 352.3]');
  await expect.poll(() => textInView(page)).toContain('rail-tip-upper.R: [3012.1, -452.2, 352.3]');
  await screenshot(page, 'next-row');
});

test('Enter takes the row that waits right below, and typing goes on behind its name', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  await clearLastRow(page);
  await page.keyboard.type('# rail-tip-upper.R: [ , , ]');
  await expect.poll(() => textInView(page)).toContain('# rail-tip-upper.R: [ , , ]');
  await goToLine(page, 25);
  await focusText(page);
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).not.toContain('# rail-tip-upper.R');
  await page.keyboard.type('3012.1 -452.2 352.3');
  await expect.poll(() => textInView(page)).toContain('rail-tip-upper.R: 3012.1 -452.2 352.3');
});

test('figures stand beside the rows, and what they come to above the measure', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  await expect.poll(() => textInView(page)).toMatch(/351\.6\]\s*! (\d\.\d \w+, )?10\.\d outboard/);
  const lens = page.locator('.codelens-decoration', { hasText: 'base of 8 points' });
  await expect.poll(() => lens.first().textContent()).toContain('worst rail-tip-upper.L: 10.');
  await page.locator('.codelens-decoration', { hasText: 'front-rail.L: twist' }).first().waitFor();
  await screenshot(page, 'figures');
});

test('a row is left in peace while it is typed, and judged when the cursor leaves it', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  await expect.poll(() => textInView(page)).toMatch(/351\.6\]\s*! (\d\.\d \w+, )?10\.\d outboard/);
  await clearLastRow(page);
  await goToLine(page, 24);
  await focusText(page);
  const others = async (): Promise<string> => (await textInView(page)).split('rail-tip-upper.L')[0];
  // the deviation of the row itself is all that is left
  await expect.poll(() => squiggle(page).count()).toBe(1);
  const status = await jobStatus(page).textContent();
  await expect.poll(others).toMatch(/forward|inboard|outboard|0\.0/);
  const before = await others();
  await page.keyboard.press('End');
  await page.keyboard.press('Backspace');
  await expect.poll(() => textInView(page)).toMatch(/351\.6(?!\])/);
  await squiggle(page).first().waitFor({ state: 'detached' });
  // longer than it takes to judge a text
  await page.waitForTimeout(2000);
  expect(await squiggle(page).count()).toBe(0);
  expect(await others()).toBe(before);
  expect(await jobStatus(page).textContent()).toBe(status);
  await screenshot(page, 'row-being-typed');
  await page.keyboard.press('ArrowUp');
  await squiggle(page).first().waitFor({ state: 'attached' });
  await expect.poll(() => jobStatus(page).textContent()).not.toBe(status);
});
