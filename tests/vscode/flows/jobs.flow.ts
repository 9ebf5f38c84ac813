// A person looks through the jobs of a shop: the list, the status of the open one, and what is still outside in it.
import { expect } from 'vitest';
import { shopFolder } from './shop-folder';
import { testIn } from './window';
import {
  cursorAt,
  focusText,
  goToLine,
  jobStatus,
  openFile,
  patience,
  screenshot,
  short,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(await shopFolder());

test('the list of jobs tells each state, and a click goes to the point', async ({ page }) => {
  await page.getByRole('tab', { name: 'Framewright' }).click({ timeout: patience });
  // what a screen reader is told
  const row = page.locator('.monaco-list-row[aria-label^="W-1192, open, newest measure after second pull"]');
  await row.waitFor({ timeout: patience });
  await expect
    .poll(() => row.getAttribute('aria-label'))
    .toMatch(/2 outside.*worst rail-tip-upper\.L 10\.7 mm/);
  await page.locator('.monaco-list-row[aria-label^="W-1174, signed off"]').waitFor();
  await page.locator('.monaco-list-row[aria-label*="chassis file"]').first().waitFor();
  const place = page.locator('.monaco-list-row[aria-label^="outside tolerance: rail-tip-upper.L"]');
  await tried(async () => {
    await row.click({ timeout: short });
    await page.keyboard.press('ArrowRight');
    await place.waitFor({ timeout: short });
  });
  await page.mouse.move(900, 600);
  await screenshot(page, 'jobs');
  await tried(async () => {
    await place.dblclick({ timeout: short });
    await cursorAt(page, 150).waitFor({ timeout: short });
  });
});

test('the open job is told in the status bar and beside its text; keys go from point to point', async ({
  page,
}) => {
  await openFile(page, 'jobs/w-1192-twisted-rail.readings.yaml');
  const status = jobStatus(page);
  await status.filter({ hasText: 'open · rail-tip-upper.L 10.7 mm too far right (inboard)' }).waitFor();
  await tried(async () => {
    await status.click({ timeout: short });
    await cursorAt(page, 150).waitFor({ timeout: short });
  });
  await page.locator('.codelens-decoration', { hasText: 'front-rail' }).first().waitFor();
  await expect.poll(() => textInView(page)).toContain('10.7 inboard');
  await screenshot(page, 'status-lens-hints');

  await tried(async () => {
    await page.mouse.move(700, 300);
    await page.locator('[id="status.languageStatus"]').hover({ timeout: short });
    const told = page.locator('.hover-language-status', { hasText: 'rail-tip-upper.L 10.7 mm' });
    await told.first().waitFor({ timeout: short });
  });
  await screenshot(page, 'language-status');

  await page.keyboard.press('Escape');
  await goToLine(page, 121);
  await focusText(page);
  for (const [key, line] of [
    ['Control+F8', 149],
    ['Control+F8', 150],
    ['Control+F8', 149],
    ['Control+Shift+F8', 150],
  ] as const) {
    await page.keyboard.press(key);
    await cursorAt(page, line).waitFor();
  }
  await page.locator('.statusbar-item', { hasText: '2 of 2 (from the end again)' }).waitFor();
  await screenshot(page, 'next-point');

  await openFile(page, 'jobs/w-1174-finished.readings.yaml');
  await jobStatus(page).filter({ hasText: 'signed off' }).waitFor();
  await focusText(page);
  await page.keyboard.press('Control+F8');
  await page.locator('.notification-list-item', { hasText: 'No point is outside its tolerance' }).waitFor();
  await screenshot(page, 'no-next-point');
});
