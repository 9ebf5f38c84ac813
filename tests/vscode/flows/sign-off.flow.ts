// A person asks to sign a job that is not finished, from wherever they look for it, sees what stands against it and goes to the first
// of it; the plan is a click away.
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { shopFolder } from './shop-folder';
import { testIn } from './window';
import {
  goToLine,
  jobStatus,
  openFile,
  patience,
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
const testSmall = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));
const job = 'jobs/w-1192-twisted-rail.readings.yaml';
const command = 'Sign Off the Dimensions';

const box = (page: Page) => page.locator('.quick-input-widget');
const listed = (page: Page) => box(page).locator('.monaco-list-row', { hasText: ': outside' });

/** What stands against the sign-off is listed; leaves without choosing. */
const seeList = async (page: Page): Promise<void> => {
  await listed(page).first().waitFor({ timeout: short });
  await box(page).getByText('stand against the sign-off').waitFor({ timeout: short });
  await page.keyboard.press('Escape');
  await box(page).waitFor({ state: 'hidden', timeout: short });
};

const fromStatusItem = (page: Page): Promise<void> =>
  tried(async () => {
    await page.mouse.move(700, 300);
    await jobStatus(page).hover({ timeout: short });
    const link = page.locator('.workbench-hover-container a, .monaco-hover a', { hasText: 'Sign off…' });
    await link.first().click({ timeout: short });
    await seeList(page);
  });

const fromJobs = async (page: Page): Promise<void> => {
  await page.getByRole('tab', { name: 'Framewright' }).click({ timeout: patience });
  const row = page.locator('.monaco-list-row[aria-label^="W-1192, open"]');
  await tried(async () => {
    await page.keyboard.press('Escape');
    await row.click({ button: 'right', timeout: short });
    await page.getByRole('menuitem', { name: command }).click({ timeout: short });
    await seeList(page);
  });
};

test('what stands against a sign-off is listed wherever it is asked for, each with the way to its row', async ({
  page,
}) => {
  await openFile(page, job);
  await jobStatus(page).filter({ hasText: 'open' }).waitFor();
  await fromStatusItem(page);
  await takeAction(page, 'order: W-1192', 'against the sign-off');
  await seeList(page);
  await goToLine(page, 153);
  await takeAction(page, 'top still leans in', 'against the sign-off');
  await seeList(page);
  await fromJobs(page);

  await runCommand(page, command, true);
  await listed(page).first().waitFor();
  const [, id] = /([\w.-]+): outside/.exec((await listed(page).first().textContent()) ?? '') ?? [];
  await screenshot(page, 'sign-off-list');
  await page.keyboard.type(`${id}: outside`);
  await box(page).locator('.monaco-list-row.focused', { hasText: id }).waitFor();
  await page.keyboard.press('Enter');
  await box(page).waitFor({ state: 'hidden' });
  await expect.poll(() => page.locator('.breadcrumbs-control').first().textContent()).toContain(id);
});

testSmall('a job against which nothing stands is signed from the status item', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  // its two faults are put right: a name and a figure
  await takeAction(page, 'raill-tip-upper.R', 'rail-tip-upper.R');
  await tried(async () => {
    const { x, y } = await placeOf(page, '462');
    await page.mouse.dblclick(x, y);
    await page
      .locator('[id="status.editor.selection"]', { hasText: '3 selected' })
      .waitFor({ timeout: short });
  });
  await page.keyboard.type('452');
  await page.keyboard.press('ArrowUp');
  await jobStatus(page).filter({ hasText: 'ready for sign-off' }).click();
  await box(page).getByText('Who signs?').waitFor();
  await page.keyboard.type('jm');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toMatch(/sign-off:\s*by: "?jm/);
  await jobStatus(page).filter({ hasText: 'signed off' }).waitFor();
  await screenshot(page, 'signed-off');
});

test('the pull plan of the job stands beside it', async ({ page }) => {
  await openFile(page, job);
  await jobStatus(page).filter({ hasText: 'open' }).waitFor();
  await runCommand(page, 'Show Pull Plan', true);
  await page.locator('.tab', { hasText: 'Pull plan w-1192-twisted-rail' }).first().waitFor();
  const plan = page.locator('.editor-instance .view-lines').last();
  await expect
    .poll(async () => (await plan.textContent())?.replaceAll('\u00a0', ' '))
    .toContain('front-rail.L');
  await screenshot(page, 'pull-plan');
  expect(await textInView(page)).toContain('readings/1');
});
