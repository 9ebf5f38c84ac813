// A person opens the twisted rail of the sample shop, reads the newest measure, asks for summaries and a plan.
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { openWindow, startServer, workbenchUrl } from '../workbench.mjs';
import { actionsAt, choose, goToLine, hoverOver, openFile, screenshot, textInView } from './workbench-page';

const root = path.join(import.meta.dirname, '../../..');
const job = 'w-1192-twisted-rail.readings.yaml';
let folder: string;
let server: Awaited<ReturnType<typeof startServer>>;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'framewright-sample-'));
  cpSync(path.join(root, 'samples'), folder, { recursive: true });
  server = await startServer({});
  ({ browser, page } = await openWindow());
  await page.goto(workbenchUrl(server.origin, { open: folder, development: [path.join(root, 'client')] }));
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

test('hover over the twisted tip tells which way, how far, how certain and what was before', async () => {
  await goToLine(page, 150);
  const text = await hoverOver(page, '729.6', 'Through the stages');
  expect(text).toContain('10.7 right (inboard)');
  expect(text).toContain('after first pull');
  await screenshot(page, 'sample-hover');
  await page.keyboard.press('Escape');
});

test('the sweep summary is inserted on the newest measure', async () => {
  await goToLine(page, 121);
  await actionsAt(page, 'after second pull', 'Insert sweep summary');
  await choose(page, 'Insert sweep summary');
  await goToLine(page, 154);
  await expect.poll(() => textInView(page)).toMatch(/front-rail\.L sweep:/);
  await screenshot(page, 'sample-sweep');
});

test('the pull plan is inserted at the end of the timeline', async () => {
  await goToLine(page, 121);
  await actionsAt(page, 'after second pull', 'Insert pull plan for front-rail.L');
  await choose(page, 'Insert pull plan for front-rail.L');
  await goToLine(page, 160);
  await expect.poll(() => textInView(page)).toMatch(/hook: rail-tip-upper\.L/);
  expect(await textInView(page)).toMatch(/hooks: At rail-tip-upper\.L pull left \(outboard\)/);
  await screenshot(page, 'sample-plan');
});
