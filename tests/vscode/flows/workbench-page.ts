/** What a person does in the workbench's window: open a file, read what is shown, press keys. */
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Locator, Page } from 'playwright-core';

const screenshots = path.join(import.meta.dirname, '../../output/screenshots');
/** Of a person at a machine that does much else; whoever need not wait does not. */
export const patience = 60_000;

/** A picture of a window that a flow failed in. */
export const failedScreenshot = async (page: Page, name: string): Promise<void> => {
  const folder = path.join(screenshots, process.env.WORKBENCH ?? '');
  await page.screenshot({ animations: 'disabled', path: path.join(folder, `${name}.png`) });
};

/** A picture for whoever asked for some by FRAMEWRIGHT_SCREENSHOTS=1: a run that nobody looks at takes none. */
export const screenshot = async (page: Page, name: string): Promise<void> => {
  if (process.env.FRAMEWRIGHT_SCREENSHOTS) await failedScreenshot(page, name);
};

/** A person tries again where a window that was still scrolling or loading gave nothing at first. */
export const tried = async <T>(attempt: () => Promise<T>): Promise<T> => {
  for (let left = 8; ; left -= 1) {
    try {
      return await attempt();
    } catch (reason) {
      if (left === 0) throw reason;
      // what fails at once is asked for again when the window has had time to draw
      await pause(250);
    }
  }
};

/** How long one attempt of `tried` waits. */
export const short = patience / 8;

/** Types into the box at the top of the window, which `keys` opens, and presses Enter once a row shows `row`. */
const enterInBox = async (
  page: Page,
  keys: string,
  text: string,
  row?: string,
  asks = false,
): Promise<void> => {
  const box = page.locator('.quick-input-widget');
  // a box that a key before this one left open would take the keys
  await page.keyboard.press('Escape');
  await box.waitFor({ state: 'hidden', timeout: short });
  await page.keyboard.press(keys);
  const input = box.locator('input[type="text"], input:not([type])').first();
  await input.waitFor({ timeout: short });
  await input.fill(text);
  if (row) await box.locator('.monaco-list-row', { hasText: row }).first().waitFor({ timeout: short });
  await page.keyboard.press('Enter');
  if (!asks) await box.waitFor({ state: 'hidden', timeout: short });
};

/** Opens a file by its path through the folders of the Explorer, and waits for its text. */
export const openFile = async (page: Page, file: string): Promise<void> => {
  await page.locator('.monaco-workbench').waitFor({ timeout: patience });
  const rows = page.locator('.explorer-folders-view .monaco-list-row');
  await rows.first().waitFor({ timeout: patience });
  const parts = file.split('/');
  await tried(async () => {
    for (const [depth, part] of parts.entries()) {
      const row = rows.filter({ has: page.getByText(part, { exact: true }) }).first();
      await row.waitFor({ timeout: short });
      if (depth === parts.length - 1) await row.dblclick({ timeout: short });
      else if ((await row.getAttribute('aria-expanded')) !== 'true') await row.click({ timeout: short });
    }
    await page.locator('.tab.active', { hasText: parts.at(-1) }).waitFor({ timeout: short });
    await page.locator('.monaco-editor .view-line').first().waitFor({ timeout: short });
  });
};

/** Puts the cursor on a line, counted from 1, which brings it into view. */
export const goToLine = (page: Page, line: number): Promise<void> =>
  tried(async () => {
    await enterInBox(page, 'Control+G', `:${line}`);
    await cursorAt(page, line).waitFor({ timeout: short });
  });

/** Runs a command of the palette by its title; `asks`: it goes on in the same box. */
export const runCommand = (page: Page, title: string, asks = false): Promise<void> =>
  tried(() => enterInBox(page, 'F1', `>${title}`, title, asks));

/** The item of the status bar that tells of the open job. */
export const jobStatus = (page: Page): Locator =>
  page.locator('[id="pinefield-body-works.framewright-vscode.framewright.job"]');

/** The cursor's place, as the status bar tells it. */
export const cursorAt = (page: Page, line: number): Locator =>
  page.locator('[id="status.editor.selection"]', { hasText: `Ln ${line},` });

/** Gives the keys to the text of the open file, without moving the cursor. */
export const focusText = (page: Page): Promise<void> =>
  tried(async () => {
    await page.keyboard.press('Control+1');
    await page.locator('.editor-instance .monaco-editor.focused').waitFor({ timeout: short });
  });

export const squiggle = (page: Page): Locator => page.locator('.editor-instance .squiggly-error');

/** The rows of the Problems panel, which it opens. */
export const problems = async (page: Page): Promise<Locator> => {
  const panel = page.locator('.markers-panel');
  await tried(async () => {
    // the same keys close it again
    if (!(await panel.isVisible())) await page.keyboard.press('Control+Shift+M');
    await panel.waitFor({ timeout: short });
  });
  return panel.locator('.monaco-list-row');
};

/** Middle of a word on the screen; the word must be in view. */
export const placeOf = async (page: Page, word: string): Promise<{ x: number; y: number }> => {
  const place = await page.evaluate((wanted) => {
    const lines = [...document.querySelectorAll('.editor-instance .view-line')];
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

/** Rests the pointer on a word until each of the texts is shown there; the first tells it from what a neighbour shows. */
export const hoverOver = async (page: Page, word: string, ...texts: string[]): Promise<void> =>
  tried(async () => {
    // what is shown of a row that the pointer passed would stand in the way
    await page.keyboard.press('Escape');
    const { x, y } = await placeOf(page, word);
    await page.mouse.move(x + 500, y);
    await page.mouse.move(x, y, { steps: 5 });
    let hover = page.locator('.monaco-hover:not(.hidden)');
    for (const text of texts) hover = hover.filter({ hasText: text });
    await hover.first().waitFor({ timeout: short });
  });

/** Puts the cursor on a word and opens the list of actions there; the keyboard chooses from it. */
export const actionsAt = async (page: Page, word: string, title: string): Promise<Locator> =>
  tried(async () => {
    await page.keyboard.press('Escape');
    const { x, y } = await placeOf(page, word);
    await page.mouse.click(x, y);
    await page.keyboard.press('Control+.');
    const rows = page.locator('.action-widget .monaco-list-row');
    await rows.filter({ hasText: title }).first().waitFor({ timeout: short });
    return rows;
  });

/** Chooses an action from the open list by arrow keys, as the pointer is not let through to it. */
export const choose = async (page: Page, title: string): Promise<void> => {
  const rows = page.locator('.action-widget .monaco-list-row');
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  for (let step = 0; step < 25; step += 1) {
    if ((await focused.count()) > 0 && (await focused.first().textContent())?.includes(title)) {
      await page.keyboard.press('Enter');
      await rows.first().waitFor({ state: 'hidden', timeout: short });
      return;
    }
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`the action "${title}" could not be reached by the keyboard`);
};

/** Chooses an action on a word from its list, which may close while the window is still loading. */
export const takeAction = async (page: Page, word: string, title: string, shown?: string): Promise<void> =>
  tried(async () => {
    await actionsAt(page, word, title);
    if (shown) await screenshot(page, shown);
    await choose(page, title);
  });

/** Inserts a summary of a kind from the list of actions on a word. */
export const insertSummary = async (page: Page, word: string, kind: string): Promise<void> => {
  await takeAction(page, word, 'Insert summary…');
  const row = page.locator('.quick-input-widget .monaco-list-row', { hasText: kind });
  await row.first().waitFor();
  await page.keyboard.type(kind);
  await page.locator('.quick-input-widget .monaco-list-row.focused', { hasText: kind }).waitFor();
  await page.keyboard.press('Enter');
};

/** The text in view with what is drawn behind its rows, as the editor draws it; its blanks are non-breaking ones. */
export const textInView = async (page: Page): Promise<string> =>
  (
    await page
      .locator('.editor-instance .view-lines')
      .first()
      .evaluate((lines) => {
        const shown = (element: Element): string => {
          const { content } = getComputedStyle(element, '::after');
          const after = /^"([\s\S]*)"$/.exec(content)?.[1].replaceAll('\\"', '"') ?? '';
          const inside = [...element.childNodes].map((node) =>
            node instanceof Element ? shown(node) : (node.textContent ?? ''),
          );
          return inside.join('') + after;
        };
        return shown(lines);
      })
  ).replaceAll('\u00a0', ' ');
