// A newcomer with an empty folder does what the walkthrough says, and nothing else.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, expect } from 'vitest';
import { testIn } from './window';
import { jobStatus, patience, screenshot, short, textInView, tried } from './workbench-page';

const empty = mkdtempSync(path.join(tmpdir(), 'framewright-empty-'));
const test = testIn(empty);
afterAll(() => rmSync(empty, { recursive: true, force: true }));

const step = (page: Page, title: string) => page.locator('.getting-started-step', { hasText: title });

/** Opens a step and presses its button. */
const doStep = (page: Page, title: string, button: string, done: () => Promise<unknown>): Promise<void> =>
  tried(async () => {
    const here = step(page, title);
    if (!(await here.getAttribute('class'))?.includes('expanded')) await here.click({ timeout: short });
    await here.getByRole('button', { name: button }).click({ timeout: short });
    await done();
  });

const tab = (page: Page, name: string): Promise<void> =>
  page.locator('.tab.active', { hasText: name }).waitFor({ timeout: short });

test('from an empty folder to a judged job by the walkthrough alone', async ({ ownPage: page }) => {
  await page.locator('.monaco-workbench').waitFor({ timeout: patience });
  await page.getByRole('tab', { name: 'Framewright' }).click({ timeout: patience });
  const welcome = page.locator('.welcome-view-content', { hasText: 'There is no job in this folder yet' });
  await welcome.waitFor({ timeout: patience });
  await screenshot(page, 'walkthrough-0');
  await tried(async () => {
    await welcome.getByText('First Job in Five Steps').click({ timeout: short });
    await step(page, 'Begin a job').waitFor({ timeout: short });
  });
  await screenshot(page, 'walkthrough-1');
  await doStep(page, 'Write down where the points belong', 'New Example Chassis', () =>
    tab(page, 'marten-example.chassis.yaml'),
  );
  await screenshot(page, 'walkthrough-2');
  await doStep(page, 'Begin a job', 'New Job from Chassis', async () => {
    const input = page.locator('.quick-input-widget input').first();
    await input.waitFor({ timeout: short });
    await input.fill('W-2041');
    await page.keyboard.press('Enter');
    await tab(page, 'w-2041.readings.yaml');
  });
  await screenshot(page, 'walkthrough-3');
  await doStep(page, 'Type what the instrument shows', 'Enter Example Readings', () =>
    expect.poll(() => textInView(page), { timeout: short }).toContain('1385.7'),
  );
  await screenshot(page, 'walkthrough-4');
  await doStep(page, 'See what is out', 'Go to Next Point Outside Tolerance', () =>
    page.locator('.statusbar-item', { hasText: '1 of 3' }).waitFor({ timeout: short }),
  );
  await jobStatus(page).filter({ hasText: 'rail-tip-upper.L 15.3 mm too far right (inboard)' }).waitFor();
  await doStep(page, 'Keep all jobs in view', 'Show Jobs', () =>
    page
      .locator('.monaco-list-row[aria-label^="W-2041, open"][aria-label*="3 outside"]')
      .waitFor({ timeout: short }),
  );
  await expect.poll(() => textInView(page)).not.toContain('[ , , ]');
  await expect.poll(() => page.locator('.getting-started-step .complete').count()).toBeGreaterThanOrEqual(5);
  await screenshot(page, 'walkthrough-5');
});
