// A person measures a used front, makes reference points of it, and judges the next job by them.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { shopFolder } from './shop-folder';
import { testIn } from './window';
import {
  focusText,
  goToLine,
  openFile,
  runCommand,
  screenshot,
  squiggle,
  textInView,
} from './workbench-page';

const test = testIn(await shopFolder());

/** Types rows behind the last line of a job, as far in as that is, and leaves them. */
const typeRows = async (page: Page, lastLine: number, ...rows: string[]): Promise<void> => {
  await goToLine(page, lastLine);
  await focusText(page);
  await page.keyboard.press('End');
  for (const row of rows) {
    // as it stands, without the name of the next point, which Enter would begin
    await page.keyboard.insertText(`\n${row}`);
    await expect.poll(() => textInView(page)).toContain(row);
  }
  await page.keyboard.press('ArrowUp');
};

test('what is new on a used front becomes reference points, by which the next job is judged', async ({
  page,
}) => {
  await openFile(page, 'jobs/w-1218-used-front.readings.yaml');
  await page.locator('.codelens-decoration').first().waitFor();
  await typeRows(
    page,
    53,
    'front-rail-lug.L: [1829.8, 523.6, 734.6]',
    'front-rail-lug.R: [1790.2, -351.5, 745.3]',
  );
  await squiggle(page).first().waitFor({ state: 'attached' });
  await runCommand(page, 'Make Reference Points from This Job', true);
  const list = page.locator('.quick-input-widget .monaco-list-row');
  await list.filter({ hasText: 'Write 4 new points into teal-estate.chassis.yaml' }).waitFor();
  await list.filter({ hasText: 'apron-ledge.R of W-1218 is left out: the metal there has moved' }).waitFor();
  await screenshot(page, 'reference-points');
  await page.keyboard.press('Enter');
  await page.locator('.tab.active.dirty', { hasText: 'teal-estate.chassis.yaml' }).waitFor();
  await expect.poll(() => textInView(page)).toMatch(/front-rail-lug: +\{ both: \[2\d{3}\.\d, 43\d\.\d, /);

  await openFile(page, 'jobs/w-1216-undeclared-rear.readings.yaml');
  await page.locator('.codelens-decoration').first().waitFor();
  await typeRows(page, 56, 'front-rail-lug.L: [2561.8, 210.1, 651.8]');
  await expect.poll(() => textInView(page)).toMatch(/front-rail-lug\.L: \[2561\.8.*! .*1[0-4]\.\d up/);
  await screenshot(page, 'reference-points-used');
});
