// A person opens the twisted rail of the sample shop, reads the newest measure, asks for summaries and a plan.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { shopFolder } from './shop-folder';
import { testIn } from './window';
import {
  choose,
  focusText,
  goToLine,
  hoverOver,
  insertSummary,
  openFile,
  placeOf,
  runCommand,
  screenshot,
  short,
  squiggle,
  takeAction,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(await shopFolder());

/** What was inserted comes to front with the cursor in it, behind the rows: a step before that would be undone by it. */
const broughtToFront = async (page: Page, text: RegExp): Promise<void> => {
  await page.locator('[id="status.editor.selection"]', { hasText: /Ln 1[56]\d,/ }).waitFor();
  await expect.poll(() => textInView(page)).toMatch(text);
};

test('the twisted tip is read, its sweep summed up and its pull planned', async ({ page }) => {
  await openFile(page, 'jobs/w-1192-twisted-rail.readings.yaml');
  await goToLine(page, 150);
  // which way, how far, how certain, and what was before
  await hoverOver(page, '729.6', '10.7 right (inboard)', 'Through the stages', 'after first pull');
  await screenshot(page, 'sample-hover');
  await page.keyboard.press('Escape');

  await goToLine(page, 121);
  await insertSummary(page, 'after second pull', 'sweep');
  await broughtToFront(page, /front-rail\.L sweep:/);
  await screenshot(page, 'sample-sweep');

  // a figure that somebody changed in it is written anew with all others
  await tried(async () => {
    const { x, y } = await placeOf(page, 'front-rail.L sweep');
    await page.mouse.click(x, y);
    await page.keyboard.press('End');
    await page.keyboard.type(' and more');
    // a long line: its beginning is out of sight
    await page.keyboard.press('Home');
    await expect.poll(() => textInView(page), { timeout: short }).toContain('and more');
  });
  const all = page.locator('.action-widget .monaco-list-row', { hasText: 'Refresh all summaries' });
  await tried(async () => {
    await runCommand(page, 'Source Action...');
    await all.waitFor({ timeout: short });
    await choose(page, 'Refresh all summaries');
  });
  await expect.poll(() => textInView(page)).not.toContain('and more');
  await expect.poll(() => textInView(page)).toMatch(/front-rail\.L sweep:/);

  await goToLine(page, 121);
  await takeAction(page, 'after second pull', 'Insert pull plan for front-rail.L');
  await broughtToFront(page, /hook: rail-tip-upper\.L/);
  await expect.poll(() => textInView(page)).toMatch(/hooks: "rail-tip-upper\.L: left \(outboard\)/);
  await screenshot(page, 'sample-plan');
});

test('what was mistyped and changes no figure is mended in one go', async ({ page }) => {
  await openFile(page, 'jobs/w-1210-typing-mistakes.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  await focusText(page);
  await runCommand(page, 'Fix All');
  await expect.poll(() => textInView(page)).toContain('technician: ab');
  await goToLine(page, 78);
  await expect.poll(() => textInView(page)).toContain('- release: all');
  expect(await textInView(page)).not.toContain('releese');
  // what it would bring in are readings: that is for a person to take
  expect(await textInView(page)).toContain('readngs:');
  await screenshot(page, 'all-mended');
});
