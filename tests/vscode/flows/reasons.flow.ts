// A person silences a finding with a reason: points at it with the mouse, types why, and finds the words in the file.
import path from 'node:path';
import { expect } from 'vitest';
import { testIn } from './window';
import {
  actionsAt,
  openFile,
  screenshot,
  short,
  squiggle,
  takeAction,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));
const job = 'jobs/w-2001.readings.yaml';
const reason = 'slotted hole: adjusts "5 mm" $& more';

test('the light bulb mends with what helps first, and silences last', async ({ page }) => {
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  const rows = await actionsAt(page, 'rail-tip-upper.L', 'Silence reading/outside');
  const titles = (await rows.allTextContents()).map((each) => each.trim());
  await screenshot(page, 'light-bulb');
  await page.keyboard.press('Escape');
  // the editor puts a group of rewriting below, in an order of its own kinds
  const quick = titles.slice(titles.indexOf('Quick Fix') + 1, titles.indexOf('Rewrite'));
  const wanted = [/^Show .* in the drawing$/, /^Pull plan/, /^Go to the reference/, /^Silence reading/];
  expect(quick).toEqual(wanted.map((each) => expect.stringMatching(each)));
});

test('the reason that is typed stands in the file, and the finding is silenced for it', async ({ page }) => {
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  const box = page.locator('.quick-input-widget');
  await tried(async () => {
    await takeAction(page, 'rail-tip-upper.L', 'Silence reading/outside');
    await box.getByText('Why may reading/outside be silenced here?').waitFor({ timeout: short });
  });
  // a dash is no reason: the box stays
  await page.keyboard.type('-');
  await page.keyboard.press('Enter');
  await box.getByText('A reason has words').waitFor();
  await screenshot(page, 'reason-refused');
  await page.keyboard.press('Backspace');
  await page.keyboard.type(reason);
  await page.keyboard.press('Enter');
  await box.waitFor({ state: 'hidden' });
  await expect.poll(() => textInView(page)).toContain(`# framewright-ignore reading/outside: ${reason}`);
  // it was the reading's only finding
  await expect.poll(() => page.locator('.editor-instance .squiggly-error').count()).toBe(1);
  await screenshot(page, 'reason');
  await page.keyboard.press('Control+z');
  await expect.poll(() => textInView(page)).not.toContain('framewright-ignore');
});
