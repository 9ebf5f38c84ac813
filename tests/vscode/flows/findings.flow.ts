// A person opens a job with a mistyped point, reads what is said about it and mends it with the keyboard.
import path from 'node:path';
import { expect } from 'vitest';
import { testIn } from './window';
import {
  hoverOver,
  insertSummary,
  openFile,
  placeOf,
  problems,
  screenshot,
  squiggle,
  takeAction,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));
const job = 'jobs/w-2001.readings.yaml';

test('a mistyped point is underlined, listed and mended; a reading explains itself', async ({ page }) => {
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  const rows = await problems(page);
  await expect
    .poll(() => rows.filter({ hasText: 'name/unknown-point' }).allTextContents())
    .toContainEqual(expect.stringContaining('raill-tip-upper.R'));
  await screenshot(page, 'problems');

  await hoverOver(page, 'rail-tip-upper.L', 'outside', 'left');
  await screenshot(page, 'hover');
  await page.keyboard.press('Escape');

  await takeAction(page, 'raill-tip-upper.R', 'rail-tip-upper.R', 'quick-fix');
  await expect.poll(() => textInView(page)).not.toContain('raill-tip-upper.R');
  await expect.poll(() => textInView(page)).toContain('rail-tip-upper.R: [3012.1');
});

test("the twist summary is inserted from the list of actions, and the rule's name opens its page", async ({
  page,
}) => {
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  await insertSummary(page, 'measure', 'twist');
  await expect.poll(() => textInView(page)).toMatch(/front-rail\.L twist:/);
  await tried(async () => expect((await placeOf(page, 'front-rail.L twist')).y).toBeGreaterThan(0));
  await screenshot(page, 'summary');

  await problems(page);
  const link = page.locator('.markers-panel .monaco-list-row a', { hasText: 'reading/outside' }).first();
  await link.click({ modifiers: ['Control'] });
  await page.locator('.tab.active', { hasText: 'outside' }).waitFor();
  const preview = page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await preview.locator('h1', { hasText: 'reading/outside' }).waitFor();
  await screenshot(page, 'rule-page');
});
