// A person has the readings in a table: pastes them, undoes that, picks a file, follows one that grows, makes a body of one.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { shopFolder, tableOf } from './shop-folder';
import { testIn } from './window';
import {
  focusText,
  goToLine,
  openFile,
  patience,
  runCommand,
  screenshot,
  short,
  textInView,
  tried,
} from './workbench-page';

const folder = await shopFolder();
const test = testIn(folder);

const job = 'jobs/w-3001.readings.yaml';
const rows = ['floor-front.L: [1593.4,  370.1, 716.5]', 'floor-front.R: [1627.4, -468.5, 708.7]'];

/** Pastes a text as the clipboard gives it. */
const paste = async (page: Page, text: string): Promise<void> => {
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.evaluate((copied) => navigator.clipboard.writeText(copied), text);
  await page.keyboard.press('Control+V');
};

const inEmptyRow = async (page: Page): Promise<void> => {
  await openFile(page, job);
  await page.locator('.codelens-decoration').first().waitFor();
  await goToLine(page, 11);
  await focusText(page);
  await page.keyboard.press('End');
};

const picks = (page: Page, text: string) =>
  page.locator('.quick-input-widget .monaco-list-row', { hasText: text }).first();

/** Chooses a row of the box that is open. */
const pick = async (page: Page, text: string): Promise<void> => {
  await picks(page, text).waitFor();
  await page.locator('.quick-input-widget input:not([type="checkbox"])').first().fill(text);
  await page.locator('.quick-input-widget .monaco-list-row.focused', { hasText: text }).waitFor();
  await page.keyboard.press('Enter');
};

test('what a spreadsheet copied becomes rows, is undone by one key, and pastes as text by one more', async ({
  page,
}) => {
  await inEmptyRow(page);
  const table = tableOf(2, '\t', false);
  await paste(page, table);
  for (const row of rows) await expect.poll(() => textInView(page)).toContain(row);
  await page.locator('.post-edit-widget').waitFor();
  await screenshot(page, 'paste-widget');
  await page.keyboard.press('Control+.');
  const plain = page.locator('.action-widget .monaco-list-row', { hasText: 'Plain Text' });
  await plain.waitFor();
  await screenshot(page, 'paste-choices');
  await tried(async () => {
    await page.keyboard.press('ArrowDown');
    await page
      .locator('.action-widget .monaco-list-row.focused', { hasText: 'Plain Text' })
      .waitFor({ timeout: short });
  });
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toMatch(/floor front L\s+1593\.4\s+370\.1/);
  expect(await textInView(page)).not.toContain(rows[0]);
});

test('a paste is undone in one step', async ({ page }) => {
  await inEmptyRow(page);
  const before = await textInView(page);
  await paste(page, tableOf(2, '\t', false));
  for (const row of rows) await expect.poll(() => textInView(page)).toContain(row);
  await focusText(page);
  await page.keyboard.press('Control+Z');
  await expect.poll(() => textInView(page)).not.toContain('floor-front.L: [1593.4');
  expect((await textInView(page)).replaceAll(/\s+/g, ' ')).toBe(before.replaceAll(/\s+/g, ' '));
});

test('semicolons and decimal commas become rows; a row that is not understood stays as a comment', async ({
  page,
}) => {
  await inEmptyRow(page);
  await paste(page, `${tableOf(2, ';', true)}\nno such point;1,5;2,5;3,5\n`);
  for (const row of rows) await expect.poll(() => textInView(page)).toContain(row);
  await expect.poll(() => textInView(page)).toContain('# row 4: no such point | 1,5 | 2,5 | 3,5');
});

test('what was pasted as text is made rows by a fix', async ({ page }) => {
  await inEmptyRow(page);
  // typed as it stands there: no paste that could be helped
  await page.keyboard.insertText(tableOf(2, ';', true));
  await expect.poll(() => textInView(page)).toContain('floor front R;1627,4');
  const list = page.locator('.action-widget .monaco-list-row');
  await tried(async () => {
    await page.keyboard.press('Escape');
    await focusText(page);
    await page.keyboard.press('Control+.');
    await list.filter({ hasText: 'Make rows of this table (2 points)' }).waitFor({ timeout: short });
  });
  await page.keyboard.press('Enter');
  for (const row of rows) await expect.poll(() => textInView(page)).toContain(row);
});

test('a table is picked, shown as it is understood, and inserted; one that is not understood says where', async ({
  page,
}) => {
  await openFile(page, job);
  await page.locator('.codelens-decoration').first().waitFor();
  await runCommand(page, 'Framewright: Insert Measure from Table…', true);
  await pick(page, 'broken.csv');
  await picks(page, 'row 3, column 3: x is not a number').waitFor();
  await picks(page, '1 row left as a comment').waitFor();
  await screenshot(page, 'insert-measure-broken');
  await page.keyboard.press('Escape');
  await runCommand(page, 'Framewright: Insert Measure from Table…', true);
  await pick(page, 'arm.xlsx');
  await picks(page, '30 points in 30 rows').waitFor();
  await picks(page, 'keep this layout').waitFor();
  await screenshot(page, 'insert-measure');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toMatch(/floor-front\.L: +\[1593\.4, +370\.1, +716\.5\]/);
});

test('a table that grows is followed into the job until that is stopped', async ({ page }) => {
  await openFile(page, 'arm.csv');
  await openFile(page, job);
  await page.locator('.codelens-decoration').first().waitFor();
  await runCommand(page, 'Framewright: Follow Table…', true);
  await pick(page, 'arm.csv');
  await pick(page, 'From its beginning');
  const status = page.locator('.statusbar-item', { hasText: 'arm.csv: 4 rows' });
  await status.waitFor({ timeout: patience });
  await expect.poll(() => textInView(page)).toContain('floor-front.R: [1627.4');
  const grow = async (text: string): Promise<void> => {
    await openFile(page, 'arm.csv');
    await focusText(page);
    await page.keyboard.press('Control+End');
    await page.keyboard.insertText(text);
    await page.keyboard.press('Control+S');
    await page.locator('.tab.active.dirty').waitFor({ state: 'hidden' });
  };
  // half a line is not taken, a whole one is
  await grow('latch;3439,3;15');
  await grow(',4;1420,9\nlatch;3439,5;15,2;1420,8\nrail tip');
  await page.locator('.statusbar-item', { hasText: 'arm.csv: 6 rows' }).waitFor({ timeout: patience });
  await openFile(page, job);
  await expect
    .poll(() => textInView(page))
    .toMatch(/latch: +\[\[3439\.3, +15\.4, +1420\.9\], \[3439\.5, +15\.2, +1420\.8\]\]/);
  await screenshot(page, 'follow-table');
  await page.locator('.statusbar-item', { hasText: 'arm.csv: 6 rows' }).click();
  await page.locator('.statusbar-item', { hasText: 'arm.csv' }).waitFor({ state: 'hidden' });
});

test('a body is made of a table', async ({ page }) => {
  await openFile(page, 'README.md');
  await runCommand(page, 'Framewright: New Chassis…', true);
  await picks(page, 'From a skeleton').waitFor();
  await screenshot(page, 'new-chassis');
  await pick(page, 'From a table');
  await pick(page, 'body.csv');
  const input = page.locator('.quick-input-widget input').first();
  await page.locator('.quick-input-widget', { hasText: 'as the shop calls it' }).waitFor();
  await input.fill('Marten own');
  await page.keyboard.press('Enter');
  await picks(page, 'Insert 3 points').waitFor();
  await screenshot(page, 'new-chassis-table');
  await page.keyboard.press('Enter');
  await page.locator('.tab.active', { hasText: 'marten-own.chassis.yaml' }).waitFor();
  await expect.poll(() => textInView(page)).toContain('rail-tip: { both: [3012, 448, 210] }');
});

test('a layout that is kept stands in the settings', async ({ ownPage: page }) => {
  await openFile(page, job);
  await page.locator('.codelens-decoration').first().waitFor();
  await runCommand(page, 'Framewright: Insert Measure from Table…', true);
  await pick(page, 'arm.csv');
  await pick(page, 'keep this layout');
  const input = page.locator('.quick-input-widget input').first();
  await expect.poll(() => input.inputValue()).toBe('arm');
  await page.keyboard.press('Enter');
  await openFile(page, '.framewright.yaml');
  await page.keyboard.press('Control+End');
  await expect
    .poll(() => textInView(page))
    .toMatch(/tables:\s*arm:\s*columns: \{ point: Name, length: X, width: Y, height: Z \}\s*decimal: comma/);
});
