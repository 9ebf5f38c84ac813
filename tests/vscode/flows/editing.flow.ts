// A person types a job: is offered the next point, has the columns set straight, renames a point, looks at the outline.
import path from 'node:path';
import { expect } from 'vitest';
import { testIn } from './window';
import {
  focusText,
  goToLine,
  openFile,
  placeOf,
  runCommand,
  screenshot,
  short,
  squiggle,
  textInView,
  tried,
} from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));
const job = 'jobs/w-2001.readings.yaml';

test('the point that is still missing is offered, and the row set straight', async ({ page }) => {
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  await goToLine(page, 26);
  await focusText(page);
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.press('Delete');
  const suggestion = page.locator('.suggest-widget.visible .monaco-list-row', {
    hasText: 'rail-tip-upper.R',
  });
  await tried(async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+Space');
    await suggestion.first().waitFor({ timeout: short });
  });
  await screenshot(page, 'completion');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toMatch(/rail-tip-upper\.R: \[forward, left, up\]/);
  for (const figure of ['3012.1', '-452.2', '352.3']) {
    await page.keyboard.type(figure);
    await page.keyboard.press('Tab');
  }
  await expect.poll(() => textInView(page)).toContain('rail-tip-upper.R: [3012.1, -452.2, 352.3]');
  await expect
    .poll(() => textInView(page))
    .toMatch(/rail-tip-upper\.R: \[3012\.1, -452\.2, 352\.3\].*forward/);
  await page.keyboard.press('Escape');
  await runCommand(page, 'Format Document');
  await expect.poll(() => textInView(page)).toMatch(/floor-front\.L: +\[1200\.2, +420\.1, +95\.1\]/);
  await screenshot(page, 'formatted');
});

test('a point is renamed everywhere, and the outline tells the measures', async ({ ownPage: page }) => {
  await openFile(page, 'specs/marten.chassis.yaml');
  await openFile(page, job);
  await squiggle(page).first().waitFor({ state: 'attached' });
  const box = page.locator('.rename-box input');
  await tried(async () => {
    await page.keyboard.press('Escape');
    const { x, y } = await placeOf(page, 'tunnel-front.L');
    await page.mouse.click(x, y);
    await page.keyboard.press('F2');
    await box.waitFor({ timeout: short });
  });
  await screenshot(page, 'rename');
  await box.fill('tunnel-fore');
  await page.keyboard.press('Enter');
  await expect.poll(() => textInView(page)).toContain('tunnel-fore.R');
  // lenses and hints follow the text a moment later
  await expect.poll(() => textInView(page)).not.toContain('tunnel-front');
  await page.locator('.tab', { hasText: 'marten.chassis.yaml' }).waitFor();

  const outline = page.getByRole('button', { name: 'Outline Section' });
  if ((await outline.getAttribute('aria-expanded')) !== 'true') await outline.click();
  await page.locator('.outline-tree .monaco-list-row', { hasText: 'as received' }).first().waitFor();
  await screenshot(page, 'outline');
});
