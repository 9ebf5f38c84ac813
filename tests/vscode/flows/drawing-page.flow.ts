// The page of the drawing by itself: its looks in three themes, its policy, what a screen reader finds, and how fast it is patched.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../../server/src/text/edits';
import { memoryFiles } from '../../../server/src/workspace/testing/memory-files';
import { type Analysis, Workspace } from '../../../server/src/workspace/workspace';
import { editsOf, inNewestStage } from '../../bench/edits';
import { jobOf, outsideShare } from '../../bench/generate';
import { yamlText } from '../../bench/job';
import { median } from '../../bench/statistics';
import { type StandaloneView, standaloneView, themes } from './standalone-view';
import { sharedBrowser } from './window';
import { screenshot } from './workbench-page';

const samples = path.join(import.meta.dirname, '../../../samples');
const folder = 'file:///shop/';
const read = (name: string): string => readFileSync(path.join(samples, name), 'utf8');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const analysed = async (texts: Record<string, string>, name: string): Promise<Analysis> => {
  const files = Object.fromEntries(Object.entries(texts).map(([each, text]) => [folder + each, text]));
  const analysis = await new Workspace(memoryFiles(files, folder)).analysis(folder + name);
  if (!('findings' in analysis)) throw new Error(analysis.message);
  return analysis;
};
const sample = (name: string): Promise<Analysis> =>
  analysed(
    { 'specs/marten-hatch.chassis.yaml': read('specs/marten-hatch.chassis.yaml'), [name]: read(name) },
    name,
  );

const opened = async (
  theme: keyof typeof themes,
  work: (view: StandaloneView, page: Page) => Promise<void>,
  viewport = { width: 1300, height: 1240 },
): Promise<void> => {
  const context = await (await sharedBrowser()).newContext({ viewport });
  try {
    const page = await context.newPage();
    const view = await standaloneView(page, theme);
    await expect.poll(() => view.said.length).toBeGreaterThan(0);
    const [ready] = view.said;
    if (ready.kind === 'ready') view.wanted.width = ready.width;
    await work(view, page);
    expect(view.complaints).toEqual([]);
  } finally {
    await context.close();
  }
};

/** What axe-core finds that is serious or worse. The engine is put in past the page's policy, as a debugger would. */
const serious = async (page: Page): Promise<string[]> => {
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: axe });
  return page.evaluate(async () => {
    const engine = (
      globalThis as unknown as {
        axe: {
          run: (
            context: Document,
          ) => Promise<{ violations: { id: string; impact?: string; nodes: { html: string }[] }[] }>;
        };
      }
    ).axe;
    const { violations } = await engine.run(document);
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 300)}`);
  });
};

describe.each(Object.keys(themes) as (keyof typeof themes)[])('in a %s theme', (theme) => {
  test('every part is drawn under the policy, and nothing serious stands in a screen reader’s way', () =>
    opened(theme, async (view, page) => {
      const analysis = await sample('jobs/w-1187-as-received.readings.yaml');
      await view.show(analysis);
      expect(await page.locator('svg[data-view] .fw-outside').count()).toBeGreaterThan(10);
      await screenshot(page, `page-drawing-${theme.replaceAll(' ', '-')}`);
      expect(await serious(page)).toEqual([]);

      view.wanted = { ...view.wanted, section: 'history' };
      await page.getByRole('tab', { name: 'Through the stages' }).click();
      await view.show(analysis);
      await page.locator('svg.fw-history').first().waitFor();
      await screenshot(page, `page-history-${theme.replaceAll(' ', '-')}`);
      expect(await serious(page)).toEqual([]);

      view.wanted = { ...view.wanted, section: 'solid', selected: 'rail-tip-upper.L' };
      await page.getByRole('tab', { name: 'In space' }).click();
      await view.show(analysis);
      await page.locator('#solid [data-point][transform]').first().waitFor({ state: 'attached' });
      await screenshot(page, `page-in-space-${theme.replaceAll(' ', '-')}`);
      expect(await serious(page)).toEqual([]);
    }));
});

test('in a narrow view no figure of the list is cut', () =>
  opened(
    'light',
    async (view, page) => {
      await view.show(await sample('jobs/w-1187-as-received.readings.yaml'));
      const list = page.locator('aside');
      const room = await list.evaluate(({ clientWidth, scrollWidth }) => ({ clientWidth, scrollWidth }));
      expect(room.scrollWidth).toBe(room.clientWidth);
      const figures = list.locator('td span');
      expect(await figures.count()).toBeGreaterThan(100);
      const heights = await figures.evaluateAll((all) => all.map((each) => each.getClientRects().length));
      expect(new Set(heights)).toEqual(new Set([1]));
    },
    { width: 383, height: 620 },
  ));

test('what is chosen is said to the editor: a stage, a stage beneath, a point by mouse and by keyboard', () =>
  opened('light', async (view, page) => {
    await view.show(await sample('jobs/w-1192-twisted-rail.readings.yaml'));
    await page.locator('#stage').focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.locator('#over').selectOption('0');
    await page.locator('svg[data-view=left] [data-point="rail-tip-upper.L"] .fw-symbol').click();
    await page.locator('[data-go="latch"]').focus();
    await page.keyboard.press('Enter');
    await expect
      .poll(() => view.said.slice(1))
      .toEqual([
        { kind: 'stage', stage: 3, turn: 1 },
        { kind: 'stage', stage: 2, turn: 2 },
        { kind: 'over', over: 0, turn: 3 },
        { kind: 'go', point: 'rail-tip-upper.L', to: null },
        { kind: 'go', point: 'latch', to: null },
      ]);
  }));

test('distances are drawn where a gauge lay, listed beside, and lead to their readings', () =>
  opened('light', async (view, page) => {
    await view.show(await sample('jobs/w-1213-tram-only.readings.yaml'));
    const cross = '[data-go="rail-tip-lower.L"][data-to="strut-top.R"]';
    await page.locator(`svg[data-view=plan] ${cross}`).hover({ force: true });
    await expect.poll(() => page.locator('#tip').textContent()).toContain('rail-tip-lower.L to strut-top.R');
    await screenshot(page, 'page-distances');
    expect(await serious(page)).toEqual([]);
    await page.locator(`svg[data-view=plan] ${cross}`).click({ force: true });
    await page.locator(`.fw-distances ${cross}`).focus();
    await page.keyboard.press('Enter');
    const went = { kind: 'go', point: 'rail-tip-lower.L', to: 'strut-top.R' };
    await expect.poll(() => view.said.filter(({ kind }) => kind === 'go')).toEqual([went, went]);
  }));

test('the picture in space is turned by keys and saved as SVG and PNG as it is seen', () =>
  opened('light', async (view, page) => {
    view.wanted.section = 'solid';
    await view.show(await sample('jobs/w-1192-twisted-rail.readings.yaml'));
    const mark = page.locator('#solid [data-point="rail-tip-upper.L"]');
    await page.locator('#solid [data-point][transform]').first().waitFor({ state: 'attached' });
    const place = async () => (await mark.getAttribute('transform'))?.match(/[\d.]+/g)?.map(Number) ?? [];
    const before = await place();
    await page.locator('#solid').focus();
    for (const key of ['ArrowLeft', 'ArrowUp', '+']) await page.keyboard.press(key);
    await expect.poll(place).not.toEqual(before);
    const [x, y] = await place();
    await page.locator('[data-save=svg]').click();
    await page.locator('[data-save=png]').click();
    await expect.poll(() => view.said.filter(({ kind }) => kind === 'save').length).toBe(2);
    const saved = view.said.flatMap((message) => (message.kind === 'save' ? [message] : []));
    const [, savedX, savedY] =
      /translate\(([\d.]+) ([\d.]+)\)"><title>rail-tip-upper\.L/.exec(saved[0].content) ?? [];
    expect(Math.abs(Number(savedX) - x)).toBeLessThan(0.1);
    expect(Math.abs(Number(savedY) - y)).toBeLessThan(0.1);
    const png = Buffer.from(saved[1].content, 'base64');
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    expect(png.length).toBeGreaterThan(5000);
    await page.locator('#solid').focus();
    await page.keyboard.press('0');
    await expect.poll(place).toEqual(before);
  }));

test('without WebGL the words say so, and the lines are drawn all the same', () =>
  opened('dark', async (view, page) => {
    await page.evaluate(() => {
      const original = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (
        this: HTMLCanvasElement,
        kind: string,
        ...rest: never[]
      ) {
        return kind.startsWith('webgl') ? null : original.call(this, kind as never, ...rest);
      } as typeof original;
    });
    view.wanted.section = 'solid';
    await view.show(await sample('jobs/w-1192-twisted-rail.readings.yaml'));
    await expect.poll(() => page.locator('#solid-words').textContent()).toContain('WebGL');
    await expect
      .poll(() => page.locator('#solid svg > g').first().locator('path').count())
      .toBeGreaterThan(3);
    // three.js says in the console what it missed
    expect(view.complaints.every((each) => each.includes('WebGL'))).toBe(true);
    view.complaints.length = 0;
  }));

test('text of a file stays text: no element, no handler, nothing out of its place', () =>
  opened('light', async (view, page) => {
    const hostile = '<img src=x onerror=alert(1)><script>alert(2)</script>';
    const job = read('jobs/w-1192-twisted-rail.readings.yaml')
      .replace('order: W-1192', `order: "${hostile}\u202e"`)
      .replace('measure: as received', `measure: "${hostile}"`)
      .replace('measure: after second pull', `measure: "${'a long name '.repeat(900)}"`);
    const name = 'jobs/w-1.readings.yaml';
    const chassis = read('specs/marten-hatch.chassis.yaml');
    view.wanted.over = 0;
    await view.show(await analysed({ 'specs/marten-hatch.chassis.yaml': chassis, [name]: job }, name));
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('script').count()).toBe(1);
    expect(await page.locator('h1').textContent()).toContain('<img src=x');
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    await screenshot(page, 'page-hostile');
  }));

test('a body of 200 points in 20 stages is patched where an edit changed it', () =>
  opened('light', async (view, page) => {
    const { body, job, chassisName } = jobOf(4000, outsideShare);
    const ids = body.points
      .filter(({ isControl }) => !isControl)
      .flatMap(({ name }) => [`${name}.L`, `${name}.R`]);
    const edit = editsOf('a digit of a judged point', 'yaml', { judged: ids, control: [] }, 11);
    const uri = `${folder}w-3000.readings.yaml`;
    const workspace = new Workspace(memoryFiles({ [folder + chassisName]: body.chassis }, folder));
    let text = yamlText(job);
    const analysisOf = async () => {
      workspace.setOpen(uri, text, 'readings');
      const analysis = await workspace.analysis(uri);
      if (!('findings' in analysis)) throw new Error(analysis.message);
      return analysis;
    };
    const opening = Date.now();
    await view.show(await analysisOf());
    console.log(`first drawn in ${Date.now() - opening} ms`);
    const shown: Awaited<ReturnType<StandaloneView['show']>>[] = [];
    for (let turn = 0; turn < 30; turn++) {
      text = applyEdits(text, [inNewestStage(edit, text)]);
      shown.push(await view.show(await analysisOf()));
    }
    const characters = median(shown.map((each) => each.characters));
    const handled = shown.map(({ handledMs }) => handledMs);
    const framed = shown.map(({ framedMs }) => framedMs);
    console.log(
      `patched in ${median(handled).toFixed(1)} ms, at most ${Math.max(...handled).toFixed(1)}; on the screen after ${median(framed).toFixed(1)} ms; ${characters.toFixed(0)} characters`,
    );
    // what is patched is what would be drawn anew
    const patched = await page.locator('#pictures').evaluate((each) => each.innerHTML);
    const last = await analysisOf();
    await opened('light', async (fresh, other) => {
      await fresh.show(last);
      expect(patched).toBe(await other.locator('#pictures').evaluate((each) => each.innerHTML));
    });
    expect(characters).toBeLessThan(60_000);
  }));
