// The record in a browser: under its own policy, by the rules of accessibility, with nothing cut and nothing on top of another.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../cli/framewright';
import { launched, opened } from './browser';
import { crowdedJob, hostileJob, recordOf, samplePath, workshop } from './records';

const axe = readFileSync(path.join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');
const shop = workshop();
let browser: Browser;

const jobs: Record<string, () => string> = {
  signed: () => samplePath('w-1174-finished'),
  'as received': () => samplePath('w-1187-as-received'),
  'in inches, misread': () => samplePath('w-1211-measuring-mistakes'),
  'with faults of procedure': () => samplePath('w-1212-procedure-mistakes'),
  'by tram': () => samplePath('w-1213-tram-only'),
  hostile: () => hostileJob(shop.folder),
  crowded: () => crowdedJob(shop.folder),
};
const pages = new Map<string, string>();

beforeAll(async () => {
  browser = await launched();
  for (const [name, job] of Object.entries(jobs))
    pages.set(name, recordOf(job(), path.join(shop.folder, `${name}.html`)));
});

afterAll(async () => {
  await browser?.close();
  shop.gone();
});

interface Found {
  readonly rule: string;
  readonly impact: string;
  readonly where: readonly string[];
}

describe.each(Object.keys(jobs))('%s', (name) => {
  test('loads nothing, runs nothing, and its style sheet passes its own policy', async () => {
    const context = await browser.newContext();
    const { page, complaints, requests } = await opened(context, pages.get(name)!);
    expect(complaints).toEqual([]);
    expect(requests).toHaveLength(1);
    const seen = await page.evaluate(() => ({
      scripts: document.querySelectorAll('script, iframe, object, embed, link, img, [style]').length,
      handlers: [...document.querySelectorAll('*')].filter((each) =>
        [...each.attributes].some(({ name }) => /^on|^(href|src|xlink:href)$/.test(name)),
      ).length,
      heading: document.querySelector('h1')?.textContent,
      bordered: getComputedStyle(document.querySelector('.standing')!).borderTopStyle,
      wide: document.documentElement.scrollWidth <= innerWidth,
    }));
    expect(seen).toEqual({
      scripts: 0,
      handlers: 0,
      heading: 'Dimensional record',
      bordered: 'solid',
      wide: true,
    });
    await context.close();
  });

  test('axe finds nothing', async () => {
    // the policy would keep the checker out as well
    const context = await browser.newContext({ bypassCSP: true });
    const { page } = await opened(context, pages.get(name)!);
    await page.evaluate(axe);
    const found = await page.evaluate(async (): Promise<{ passes: number; violations: Found[] }> => {
      const checker = (
        window as unknown as {
          axe: {
            run(options: object): Promise<{
              passes: unknown[];
              violations: { id: string; impact: string; nodes: { html: string }[] }[];
            }>;
          };
        }
      ).axe;
      // where it found something, not where it did not: to name those takes most of its time
      const { passes, violations } = await checker.run({ resultTypes: ['violations'] });
      return {
        passes: passes.length,
        violations: violations.map(({ id, impact, nodes }) => ({
          rule: id,
          impact,
          where: nodes.slice(0, 3).map(({ html }) => html.slice(0, 200)),
        })),
      };
    });
    expect(found.passes).toBeGreaterThan(10);
    expect(found.violations).toEqual([]);
    await context.close();
  });

  test('in drawings and charts no text is cut and none lies on another', async () => {
    const context = await browser.newContext({ viewport: { width: 760, height: 1000 } });
    const { page } = await opened(context, pages.get(name)!);
    const { texts, faults } = await page.evaluate(() => {
      const faults: string[] = [];
      let texts = 0;
      for (const svg of document.querySelectorAll('svg.fw-drawing:not(.fw-inline)')) {
        const sheet = svg.getBoundingClientRect();
        const own = `${svg.getAttribute('data-view') ?? svg.getAttribute('data-point') ?? svg.getAttribute('data-part')}`;
        const boxes = [...svg.querySelectorAll('text')].map((text) => {
          const box = text.getBoundingClientRect();
          // a box counts the room above and below letters
          return {
            words: text.textContent ?? '',
            label: text.classList.contains('fw-label'),
            left: box.left + 0.5,
            right: box.right - 0.5,
            top: box.top + 0.15 * box.height,
            bottom: box.bottom - 0.15 * box.height,
          };
        });
        texts += boxes.length;
        boxes.forEach((a, i) => {
          if (a.left < sheet.left || a.right > sheet.right || a.top < sheet.top || a.bottom > sheet.bottom)
            faults.push(`${own}: “${a.words}” is cut`);
          for (const b of boxes.slice(i + 1))
            if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
              faults.push(`${own}: “${a.words}” and “${b.words}”`);
        });
      }
      return { texts, faults };
    });
    expect(texts).toBeGreaterThan(20);
    expect(faults).toEqual([]);
    await context.close();
  });

  test('the bar of the key is as long as a square of the grid', async () => {
    const context = await browser.newContext({ viewport: { width: 695, height: 1000 } });
    const { page } = await opened(context, pages.get(name)!);
    await page.emulateMedia({ media: 'print' });
    const { bar, square } = await page.evaluate(() => {
      const bar = [...document.querySelectorAll('.fw-key li')].at(-1)!.querySelector('path')!;
      const lines = [
        ...document
          .querySelector('svg[data-view="plan"]')!
          .querySelectorAll('.fw-grid, .fw-zero, .fw-centreline'),
      ].map((line) => line.getBoundingClientRect());
      const across = lines
        .filter(({ width, height }) => height > width)
        .map(({ left, width }) => left + width / 2)
        .sort((a, b) => a - b);
      return { bar: bar.getBoundingClientRect().width, square: across[1] - across[0] };
    });
    // the bar's own stroke has a width
    expect(Math.abs(bar - square), `${bar} px, ${square} px`).toBeLessThan(2);
    await context.close();
  });

  test('no word of a verdict is broken, and no cell is wider than its column', async () => {
    const context = await browser.newContext({ viewport: { width: 695, height: 1000 } });
    const { page } = await opened(context, pages.get(name)!);
    await page.emulateMedia({ media: 'print' });
    const { cells, faults } = await page.evaluate(() => {
      const faults: string[] = [];
      const cells = document.querySelectorAll('td, th');
      const words = /within|outside|undecided|unjudged|out of reach/;
      for (const cell of cells) {
        if (cell.scrollWidth > cell.clientWidth + 1) faults.push(`wide: ${cell.textContent?.slice(0, 60)}`);
        if (!cell.matches('.points td')) continue;
        const walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
        for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
          const word = node.textContent?.match(words);
          if (!word) continue;
          const range = document.createRange();
          range.setStart(node, word.index!);
          range.setEnd(node, word.index! + word[0].length);
          if (range.getClientRects().length > 1) faults.push(`broken: ${word[0]}`);
        }
      }
      return { cells: cells.length, faults };
    });
    expect(cells).toBeGreaterThan(20);
    expect(faults).toEqual([]);
    await context.close();
  });
});
