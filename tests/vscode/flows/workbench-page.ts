/** What a person does in the workbench's window: open a file, read what is shown, press keys. */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import type { Locator, Page } from 'playwright-core';

const screenshots = path.join(import.meta.dirname, '../../output/screenshots');
const patience = 30_000;

export const screenshot = async (page: Page, name: string): Promise<void> => {
  mkdirSync(screenshots, { recursive: true });
  await page.screenshot({ animations: 'disabled', path: path.join(screenshots, `${name}.png`) });
};

/** Opens a file by its name with the quick-open list, and waits for its text. */
export const openFile = async (page: Page, name: string): Promise<void> => {
  await page.locator('.monaco-workbench').waitFor({ timeout: 60_000 });
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
  await page.keyboard.press('Control+P');
  await page.locator('.quick-input-widget input').waitFor({ timeout: patience });
  await page.keyboard.type(name);
  await page
    .locator('.quick-input-list .monaco-list-row', { hasText: name })
    .first()
    .waitFor({ timeout: patience });
  await page.keyboard.press('Enter');
  await page.locator('.tab.active', { hasText: name }).waitFor({ timeout: patience });
  await page.locator('.monaco-editor .view-line').first().waitFor({ timeout: patience });
};

/** Brings a line into view, counted from 1. */
export const goToLine = async (page: Page, line: number): Promise<void> => {
  await page.keyboard.press('Control+G');
  await page.locator('.quick-input-widget input').waitFor({ timeout: patience });
  await page.keyboard.type(String(line));
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden', timeout: patience });
};

export const squiggle = (page: Page): Locator => page.locator('.monaco-editor .squiggly-error');

/** The rows of the Problems panel, which it opens. */
export const problems = async (page: Page): Promise<Locator> => {
  await page.keyboard.press('Control+Shift+M');
  await page.locator('.markers-panel').waitFor({ timeout: patience });
  return page.locator('.markers-panel .monaco-list-row');
};

/** Middle of a word on the screen; the word must be in view. */
export const placeOf = async (page: Page, word: string): Promise<{ x: number; y: number }> => {
  const place = await page.evaluate((wanted) => {
    const lines = [...document.querySelectorAll('.monaco-editor .view-line')];
    // the editor draws some spaces as no-break spaces
    const textOf = (node: Element): string => (node.textContent ?? '').replaceAll('\u00a0', ' ');
    const line = lines.find((candidate) => textOf(candidate).includes(wanted));
    if (!line) return null;
    // A word may be cut into several pieces by its colours: find the pieces at both ends.
    const walk = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
    const first = textOf(line).indexOf(wanted);
    const range = document.createRange();
    let passed = 0;
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const length = node.textContent?.length ?? 0;
      const contains = (offset: number): boolean => offset >= passed && offset < passed + length;
      if (contains(first)) range.setStart(node, first - passed);
      if (contains(first + wanted.length - 1)) range.setEnd(node, first + wanted.length - passed);
      passed += length;
    }
    const box = range.getBoundingClientRect();
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  }, word);
  if (!place) throw new Error(`"${word}" is not on the screen`);
  return place;
};

/** A person tries again where a window that was still scrolling or loading gave nothing at first. */
const tried = async <T>(attempt: () => Promise<T>): Promise<T> => {
  for (let left = 8; ; left -= 1) {
    try {
      return await attempt();
    } catch (reason) {
      if (left === 0) throw reason;
    }
  }
};

/** Rests the pointer on a word and returns what is shown there. */
export const hoverOver = async (page: Page, word: string, text: string): Promise<string> =>
  tried(async () => {
    const { x, y } = await placeOf(page, word);
    await page.mouse.move(x + 60, y + 80);
    await page.mouse.move(x, y, { steps: 5 });
    const hover = page.locator('.monaco-hover:not(.hidden)', { hasText: text }).first();
    await hover.waitFor({ timeout: patience / 8 });
    return (await hover.textContent()) ?? '';
  });

/** Puts the cursor on a word and opens the list of actions there; the keyboard chooses from it. */
export const actionsAt = async (page: Page, word: string, title: string): Promise<Locator> =>
  tried(async () => {
    await page.keyboard.press('Escape');
    const { x, y } = await placeOf(page, word);
    await page.mouse.click(x, y);
    await page.keyboard.press('Control+.');
    const rows = page.locator('.action-widget .monaco-list-row');
    await rows
      .filter({ hasText: title })
      .first()
      .waitFor({ timeout: patience / 8 });
    return rows;
  });

/** Chooses an action from the open list by arrow keys, as the pointer is not let through to it. */
export const choose = async (page: Page, title: string): Promise<void> => {
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  for (let step = 0; step < 20; step += 1) {
    if ((await focused.count()) > 0 && (await focused.textContent())?.includes(title)) {
      await page.keyboard.press('Enter');
      await page.locator('.action-widget').waitFor({ state: 'hidden', timeout: patience });
      return;
    }
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`the action "${title}" could not be reached by the keyboard`);
};

/** The text in view, as the editor draws it; its blanks are non-breaking ones. */
export const textInView = async (page: Page): Promise<string> =>
  ((await page.locator('.monaco-editor .view-lines').first().textContent()) ?? '').replaceAll('\u00a0', ' ');
