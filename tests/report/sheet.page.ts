// The sheet for the car on paper: 40 points on one page of A4 or Letter, each name on one line, room for a hand with a glove.
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { framewright } from '../cli/framewright';
import { launched, sheetsOf } from './browser';
import { samplePath, workshop } from './records';

const shop = workshop();
let browser: Browser;
beforeAll(async () => {
  browser = await launched();
});
afterAll(async () => {
  await browser?.close();
  shop.gone();
});

/** A body with so many pairs of points, whose names are as long as people make them; one is longer. */
function body(pairs: number): string {
  const names = Array.from({ length: pairs }, (_, i) =>
    i === 3 ? 'front-rail-lower-mounting-flange-hole-outboard' : `rail-flange-hole-lower-${i + 1}`,
  );
  const points = names.map((name, i) => {
    const base = i < 4 ? ', base: true' : ', part: front-rail, fixing: threaded hole';
    return `  ${name}: { both: [${3000 - i * 190}, ${420 + ((i * 53) % 160)}, ${90 + ((i * 71) % 500)}]${base} }`;
  });
  return `framewright: chassis/1
vehicle: Marten with a name as long as a shop may give to one, hatchback
units: mm
source: { kind: published, reference: invented, date: 2026-01-12 }
parts:
  front-rail: { sided: true, along: length }
points:
${points.join('\n')}
`;
}

/** What the sheet of a body measures in print, mm. */
async function printed(pairs: number, format: 'A4' | 'Letter') {
  const file = path.join(shop.folder, `body-${pairs}.chassis.yaml`);
  const sheet = path.join(shop.folder, `sheet-${pairs}-${format}.html`);
  writeFileSync(file, body(pairs));
  expect(framewright(['sheet', file, '-o', sheet, '--force'])).toMatchObject({ code: 0, err: '' });
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`file://${sheet}`);
  await page.emulateMedia({ media: 'print' });
  const rows = await page.evaluate(() =>
    [...document.querySelectorAll('tr[data-point]')].map((row) => {
      const name = row.querySelector('.name')!;
      const range = document.createRange();
      range.selectNodeContents(name);
      const boxes = [...row.querySelectorAll('td')].slice(2).map((cell) => cell.getBoundingClientRect());
      return {
        number: Number(row.querySelector('.no')!.textContent),
        lines: new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size,
        isCut: name.scrollWidth > name.clientWidth,
        boxes: boxes.map(({ width, height }) => ({ width, height })),
      };
    }),
  );
  const sheets = await sheetsOf(browser, await page.pdf({ format }), `sheet-${format}-${pairs}`);
  await context.close();
  return { rows, sheets };
}

/** CSS Values 3: an inch is 96 px. */
const pxPerMm = 96 / 25.4;

describe.each(['A4', 'Letter'] as const)('%s', (format) => {
  test('40 points are on one page, each in a row of one line with three boxes of 9 mm', async () => {
    const { rows, sheets } = await printed(20, format);
    expect(sheets).toHaveLength(1);
    expect(rows.map(({ number }) => number)).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
    for (const { lines, isCut, boxes } of rows) {
      expect({ lines, isCut, boxes: boxes.length }).toEqual({ lines: 1, isCut: false, boxes: 3 });
      for (const { width, height } of boxes) {
        expect(height / pxPerMm).toBeGreaterThanOrEqual(8.99);
        expect(width / pxPerMm).toBeGreaterThanOrEqual(12);
      }
    }
    // what is last on the page is there
    expect(sheets[0].pieces.map(({ text }) => text).join(' ')).toContain('Dimensions only.');
  });

  test('one pair more begins a second page', async () => {
    expect((await printed(21, format)).sheets).toHaveLength(2);
  });
});

test('a drawing comes as a picture of its own size twice over, with ink on it', async () => {
  const job = samplePath('w-1187-as-received');
  const [picture, drawing] = ['plan.png', 'plan.svg'].map((name) => path.join(shop.folder, name));
  for (const file of [picture, drawing])
    expect(framewright(['draw', job, '-o', file])).toEqual({ code: 0, out: '', err: '' });
  const [, width, height] = /width="(\d+)" height="(\d+)"/.exec(readFileSync(drawing, 'utf8')) ?? [];
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`file://${picture}`);
  const seen = await page.evaluate(() => {
    const image = document.querySelector('img')!;
    return { width: image.naturalWidth, height: image.naturalHeight };
  });
  expect(seen).toEqual({ width: 2 * Number(width), height: 2 * Number(height) });
  // the page of a picture alone takes no other content
  await page.goto('about:blank');
  await page.setContent(`<img src="data:image/png;base64,${readFileSync(picture).toString('base64')}">`);
  const dark = await page.evaluate(async () => {
    const image = document.querySelector('img')!;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.naturalWidth;
    canvas.height = image.naturalHeight;
    const ink = canvas.getContext('2d')!;
    ink.drawImage(image, 0, 0);
    const { data } = ink.getImageData(0, 0, canvas.width, canvas.height);
    let count = 0;
    for (let at = 0; at < data.length; at += 4) if (data[at] < 128) count++;
    return count / (data.length / 4);
  });
  await context.close();
  expect(dark).toBeGreaterThan(0.005);
  expect(dark).toBeLessThan(0.3);
});
