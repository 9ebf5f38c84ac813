// A person opens a job with a mistyped point, reads what is said about it and mends it with the keyboard.
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openWindow, startServer, workbenchUrl } from '../workbench.mjs';
import {
  actionsAt,
  choose,
  hoverOver,
  openFile,
  placeOf,
  problems,
  screenshot,
  squiggle,
  textInView,
} from './workbench-page';

const client = path.join(import.meta.dirname, '../../../client');
const job = 'w-2001.readings.yaml';
let folder: string;
let server: Awaited<ReturnType<typeof startServer>>;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'framewright-flow-'));
  cpSync(path.join(import.meta.dirname, '../fixtures/workspace'), folder, { recursive: true });
  server = await startServer({});
  ({ browser, page } = await openWindow());
  await page.goto(workbenchUrl(server.origin, { open: folder, development: [client] }));
  await openFile(page, job);
});

afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await screenshot(page, `failed-${task.name.replaceAll(/\W+/g, '-')}`);
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

test('the mistyped point is underlined and listed', async () => {
  await squiggle(page).first().waitFor({ state: 'attached' });
  const rows = await problems(page);
  const row = rows.filter({ hasText: 'name/unknown-point' }).first();
  await row.waitFor();
  expect(await row.textContent()).toContain('raill-tip-upper.R');
  await screenshot(page, 'problems');
});

test('hover over a reading explains it', async () => {
  const text = await hoverOver(page, 'rail-tip-upper.L', 'outside');
  expect(text).toMatch(/left/);
  await screenshot(page, 'hover');
  await page.keyboard.press('Escape');
});

test('the fix is chosen with the keyboard and mends the word', async () => {
  await actionsAt(page, 'raill-tip-upper.R', 'rail-tip-upper.R');
  await screenshot(page, 'quick-fix');
  await choose(page, 'rail-tip-upper.R');
  await expect.poll(() => textInView(page)).not.toContain('raill-tip-upper.R');
  expect(await textInView(page)).toContain('rail-tip-upper.R: [3012.1');
});

test('the twist summary is inserted from the list of actions', async () => {
  await actionsAt(page, 'measure', 'Insert twist summary');
  await choose(page, 'Insert twist summary');
  await expect.poll(() => textInView(page)).toMatch(/front-rail\.L twist:/);
  expect((await placeOf(page, 'front-rail.L twist')).y).toBeGreaterThan(0);
  await screenshot(page, 'summary');
});

test("the rule's name opens its page as formatted text", async () => {
  const link = page.locator('.markers-panel .monaco-list-row a', { hasText: 'reading/outside' }).first();
  await link.click({ modifiers: ['Control'] });
  await page.locator('.tab.active', { hasText: 'outside' }).waitFor();
  const preview = page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  await preview.locator('h1', { hasText: 'reading/outside' }).waitFor();
  await screenshot(page, 'rule-page');
});
