// A person reads rows with the drawing beside the text: each row is one line, and nothing is printed over another.
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { testIn } from './window';
import { goToLine, openFile, screenshot, short, squiggle, textInView, tried } from './workbench-page';

const test = testIn(path.join(import.meta.dirname, '../fixtures/workspace'));

interface Box {
  readonly text: string;
  readonly top: number;
  readonly bottom: number;
}

const boxes = (page: Page, selector: string): Promise<Box[]> =>
  page.locator(`.editor-instance ${selector}`).evaluateAll((all) =>
    all.map((each) => {
      const { top, bottom } = each.getBoundingClientRect();
      return { text: (each.textContent ?? '').replaceAll('\u00a0', ' '), top, bottom };
    }),
  );

/** Lines that are none of the file's, and lenses over a line, in words. */
const wrongIn = (lines: readonly Box[], lenses: readonly Box[]): string[] => [
  // no line but that of a row, a key or nothing: the rest of a row would begin with a figure or a word
  ...lines
    .filter(({ text }) => !/^\s*(- )?[\w.-]+:|^$/.test(text))
    .map(({ text }) => `a line of its own: ${text}`),
  ...lenses.flatMap(({ text, top, bottom }) =>
    lines
      .filter((line) => line.bottom > top + 1 && line.top < bottom - 1)
      .map((line) => `${text} over ${line.text}`),
  ),
];

test('rows stay on their lines beside the drawing, and lenses between them', async ({ page }) => {
  await openFile(page, 'jobs/w-2001.readings.yaml');
  await squiggle(page).first().waitFor({ state: 'attached' });
  const drawing = page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await tried(async () => {
    await page.getByRole('button', { name: 'Show Chassis Drawing' }).first().click({ timeout: short });
    await drawing.locator('svg[data-view=plan] [data-point]').first().waitFor({ timeout: short });
  });
  await goToLine(page, 20);
  const lens = page.locator('.codelens-decoration', { hasText: 'front-rail.L: twist' });
  await lens.first().waitFor();
  await expect.poll(() => textInView(page)).toMatch(/outboard/);
  await screenshot(page, 'rows-beside-drawing');
  const rows = (lines: readonly Box[]) => lines.filter(({ text }) => /^\s+[\w-]+\.[LR]:/.test(text));
  await expect
    .poll(async () => {
      const lines = await boxes(page, '.view-line');
      const lenses = await boxes(page, '.codelens-decoration');
      return { many: rows(lines).length > 10 && lenses.length > 0, wrong: wrongIn(lines, lenses) };
    })
    .toEqual({ many: true, wrong: [] });
});
