// What a job of thirty points costs a hand: from a table, and typed with what the editor helps with. Every key counts, each of a chord, too.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { readings, shopFolder, tableOf } from './shop-folder';
import { testIn } from './window';
import { focusText, openFile } from './workbench-page';

const folder = await shopFolder();
const test = testIn(folder);

const points = 30;

/** The points of the body as they are read: control points first, both sides of a name together, else as on the sheet. */
const sheetOrder = (): string[] => {
  const sheet = readFileSync(path.join(folder, 'specs/marten-hatch.chassis.yaml'), 'utf8');
  const rows = [...sheet.matchAll(/^ {2}([\w-]+): +\{ (both|left|centre): (.*)$/gm)];
  const ids = (isControl: boolean) =>
    rows
      .filter(([, , , rest]) => rest.includes('base: true') === isControl)
      .flatMap(([, name, kind]) => (kind === 'centre' ? [name] : [`${name}.L`, `${name}.R`]));
  return [...ids(true), ...ids(false)];
};

/** A hand that counts. */
const handAt = (page: Page) => {
  let count = 0;
  return {
    count: () => count,
    press: async (key: string): Promise<void> => {
      count += key.split('+').length;
      await page.keyboard.press(key);
    },
    type: async (text: string): Promise<void> => {
      count += text.length;
      await page.keyboard.type(text);
    },
  };
};

const lines = async (page: Page): Promise<string[]> =>
  (await page.locator('.editor-instance .view-line').allTextContents()).map((line) =>
    line.replaceAll('\u00a0', ' '),
  );

/** Rows with their numbers, in whatever way they are drawn. */
const rowsRead = async (page: Page): Promise<number> =>
  (await lines(page)).filter((line) => /^\s+[\w-]+(\.[LR])?: +(\[ *-?\d|unreachable)/.test(line)).length;

/** Begins the job and leaves the cursor behind `readings:`. */
const newJob = async (page: Page, hand: ReturnType<typeof handAt>, order: string): Promise<void> => {
  await openFile(page, 'README.md');
  const box = page.locator('.quick-input-widget');
  const row = (text: string) => box.locator('.monaco-list-row.focused', { hasText: text }).waitFor();
  await hand.press('F1');
  await box.waitFor();
  await hand.type('new job');
  await row('New Job from Chassis');
  await hand.press('Enter');
  await box.locator('.monaco-list-row', { hasText: 'marten-hatch' }).first().waitFor();
  await hand.type('hatch');
  await row('marten-hatch');
  await hand.press('Enter');
  await page.locator('.quick-input-widget', { hasText: 'Number of the work order' }).waitFor();
  await hand.type(order);
  await hand.press('Enter');
  await page.locator('.tab.active', { hasText: `${order.toLowerCase()}.readings.yaml` }).waitFor();
  await page.locator('.codelens-decoration').first().waitFor();
  await focusText(page);
  await hand.press('ArrowUp');
  await hand.press('End');
};

test('thirty points from a table are at most 40 keystrokes', async ({ page }) => {
  const hand = handAt(page);
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await newJob(page, hand, 'W-3002');
  await page.evaluate((text) => navigator.clipboard.writeText(text), tableOf(points, '\t', false));
  await hand.press('Control+V');
  await expect.poll(() => rowsRead(page)).toBe(points);
  await hand.press('Control+S');
  await page.locator('.tab.active.dirty').waitFor({ state: 'hidden' });
  expect(hand.count()).toBeLessThanOrEqual(40);
});

test('thirty points typed as bare numbers are at most 1,200 keystrokes', async ({ page }) => {
  const hand = handAt(page);
  const numbers = new Map(readings);
  await newJob(page, hand, 'W-3003');
  /** The point of the row that waits for its numbers. */
  const begun = async (): Promise<string | undefined> =>
    (await lines(page))
      .flatMap((line) => /^\s+([\w-]+(?:\.[LR])?): *$/.exec(line)?.[1] ?? [])
      .find((id) => id !== 'readings');
  const typed = new Map<string, string>();
  await hand.press('Enter');
  while (typed.size < points) {
    let id: string | undefined;
    await expect
      .poll(async () => {
        id = await begun();
        return id !== undefined && !typed.has(id);
      })
      .toBe(true);
    const row = numbers.get(id!)?.join(' ') ?? 'unreachable';
    typed.set(id!, row);
    await hand.type(row);
    await hand.press('Enter');
  }
  expect([...typed.keys()]).toEqual(sheetOrder().slice(0, points));
  // as rows of the language, each point with the numbers that were typed for it
  await expect
    .poll(async () =>
      (await lines(page)).flatMap((line) => {
        const [, id, value] = /^\s+([\w-]+(?:\.[LR])?): +(\[ *-?\d[^\]]*\]|unreachable)/.exec(line) ?? [];
        return id ? [[id, value.replace(/^\[ *|\]$/g, '').replace(/, */g, ' ')]] : [];
      }),
    )
    .toEqual([...typed]);
  await hand.press('Control+S');
  await page.locator('.tab.active.dirty').waitFor({ state: 'hidden' });
  expect(hand.count()).toBeLessThanOrEqual(1200);
});
