// The as-received sample with the drawing beside its text, in each theme and in two sizes: pictures to be looked at.
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { testIn } from './window';
import { failedScreenshot, goToLine, openFile, runCommand, short, textInView, tried } from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../../../samples'));

const looks = [
  { name: 'dark', media: { colorScheme: 'dark', forcedColors: null }, theme: '.vs-dark' },
  { name: 'light', media: { colorScheme: 'light', forcedColors: null }, theme: '.vs' },
  {
    name: 'high-contrast',
    media: { colorScheme: 'dark', forcedColors: 'active' },
    theme: '.hc-black',
  },
] as const;
const sizes = [
  { width: 1440, height: 900 },
  { width: 900, height: 700 },
] as const;

const openDrawing = async (page: Page): Promise<void> => {
  const drawing = page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await tried(async () => {
    await page.getByRole('button', { name: 'Show Chassis Drawing' }).first().click({ timeout: short });
    await drawing.locator('svg[data-view=plan] [data-point]').first().waitFor({ timeout: short });
  });
};

test('the text beside the drawing, in three themes and two sizes', async ({ ownPage: page }) => {
  await openFile(page, 'jobs/w-1187-as-received.readings.yaml');
  // as whoever needs the room would
  await runCommand(page, 'View: Toggle Primary Side Bar Visibility');
  for (const size of sizes) {
    await page.setViewportSize(size);
    await openDrawing(page);
    await page.keyboard.press('Control+1');
    for (const { name, media, theme } of looks) {
      await page.emulateMedia(media);
      await page.locator(`.monaco-workbench${theme}`).waitFor();
      await goToLine(page, 40);
      await expect.poll(() => textInView(page)).toMatch(/\d \w+ward|board|up|down/);
      await page.mouse.move(0, 0);
      // colours fade in, and lenses come a moment after the text
      await page.waitForTimeout(3000);
      await failedScreenshot(page, `beside-drawing-${name}-${size.width}x${size.height}`);
    }
    // it finds its place by the room that there is when it is opened
    await runCommand(page, 'View: Close Editors in Other Groups');
  }
});
