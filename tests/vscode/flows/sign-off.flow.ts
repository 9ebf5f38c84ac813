// A person asks to sign a job that is not finished, sees what stands against it and goes to the first of it; the plan is a click away.
import path from 'node:path';
import { expect } from 'vitest';
import { testIn } from './window';
import { jobStatus, openFile, runCommand, screenshot, textInView } from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../../../samples'));

test('what stands against a sign-off is listed, each with the way to its row', async ({ page }) => {
  await openFile(page, 'jobs/w-1192-twisted-rail.readings.yaml');
  await jobStatus(page).filter({ hasText: 'open' }).waitFor();
  await runCommand(page, 'Sign Off the Dimensions', true);
  const rows = page.locator('.quick-input-widget .monaco-list-row', { hasText: ': outside' });
  await rows.first().waitFor();
  const [, id] = /([\w.-]+): outside/.exec((await rows.first().textContent()) ?? '') ?? [];
  await screenshot(page, 'sign-off-list');
  await page.keyboard.type(`${id}: outside`);
  await page.locator('.quick-input-widget .monaco-list-row.focused', { hasText: id }).waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  await expect.poll(() => page.locator('.breadcrumbs-control').first().textContent()).toContain(id);
});

test('the pull plan of the job stands beside it', async ({ page }) => {
  await openFile(page, 'jobs/w-1192-twisted-rail.readings.yaml');
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
