// The record on paper, A4 and Letter: heads on every sheet, no row on two, nothing off the sheet. The sheets of the signed sample
// are kept as pictures where FRAMEWRIGHT_SCREENSHOTS=1 asks for some.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launched, linesOf, opened, type Piece, type Sheet, sheetsOf } from './browser';
import { crowdedJob, hostileJob, recordOf, samplePath, workshop } from './records';

/** ISO 216 and ANSI/ASME Y14.1, in points. */
const papers = { a4: { width: 595, height: 842 }, letter: { width: 612, height: 792 } } as const;
type Paper = keyof typeof papers;

/** The margins of the page's style sheet, in points. */
const millimetre = 72 / 25.4;
const margin = {
  top: 14 * millimetre,
  right: 11 * millimetre,
  bottom: 16 * millimetre,
  left: 15 * millimetre,
};

const jobs: Record<string, () => string> = {
  signed: () => samplePath('w-1174-finished'),
  'as received': () => samplePath('w-1187-as-received'),
  'with faults of procedure': () => samplePath('w-1212-procedure-mistakes'),
  hostile: () => hostileJob(shop.folder),
  crowded: () => crowdedJob(shop.folder),
};

const isLookedAt = Boolean(process.env.FRAMEWRIGHT_SCREENSHOTS);
const shop = workshop();
let browser: Browser;
beforeAll(async () => {
  browser = await launched();
});
afterAll(async () => {
  await browser?.close();
  shop.gone();
});

const textOf = (line: readonly Piece[]): string => line.map(({ text }) => text).join(' ');

/** What the tables of points say in the page, read from it and not from the program. */
async function tablesIn(file: string) {
  const context = await browser.newContext();
  const { page } = await opened(context, file);
  const tables = await page.evaluate(() =>
    [...document.querySelectorAll('table.points')].map((table) => ({
      single: table.classList.contains('one-stage'),
      points: [...table.querySelectorAll('[data-point]')].map((each) => each.getAttribute('data-point')!),
    })),
  );
  await context.close();
  return tables;
}

const axisRow = /(^| )(length|width|height) (±|\d)/;

describe.each(Object.keys(papers) as Paper[])('%s', (paper) => {
  describe.each(paper === 'a4' ? Object.keys(jobs) : ['signed', 'as received', 'hostile'])('%s', (name) => {
    let sheets: Sheet[];
    let page: string;

    beforeAll(async () => {
      page = recordOf(
        jobs[name](),
        path.join(shop.folder, `${paper}-${name}.html`),
        '--pdf',
        '--paper',
        paper,
      );
      const pdf = readFileSync(page.replace(/html$/, 'pdf'));
      sheets = await sheetsOf(browser, pdf, name === 'signed' && isLookedAt ? `record-${paper}` : null);
    });

    test('every sheet is of that paper, and nothing stands in its margins but the line at the foot', () => {
      expect(sheets.length).toBeGreaterThan(4);
      const { width, height } = papers[paper];
      sheets.forEach((sheet, i) => {
        expect(Math.abs(sheet.width - width)).toBeLessThan(1);
        expect(Math.abs(sheet.height - height)).toBeLessThan(1);
        const lines = linesOf(sheet);
        const foot = lines[lines.length - 1];
        expect(textOf(foot)).toMatch(/^Dimensional record/);
        expect(textOf(foot)).toContain(`${i + 1} / ${sheets.length}`);
        const body = lines.slice(0, -1).flat();
        const off = body.filter(
          ({ x, y, width: wide, height: high }) =>
            x < margin.left - 1 ||
            x + wide > width - margin.right + 1 ||
            y < margin.bottom ||
            y + high > height - margin.top + 3,
        );
        expect(off).toEqual([]);
      });
    });

    test('no row of a point is on two sheets, and the head of its table is on each', async () => {
      const tables = await tablesIn(page);
      expect(tables.length).toBeGreaterThan(0);
      const rowsWanted = tables.reduce(
        (sum, { points, single }) => sum + (single ? 0 : 3 * points.length),
        0,
      );
      const namesWanted = tables.flatMap(({ single, points }) => (single ? points : [])).sort();
      const names = new Set(namesWanted);
      let rows = 0;
      const namesFound: string[] = [];
      for (const sheet of sheets) {
        const lines = linesOf(sheet);
        const axes: string[] = [];
        // the head of the table that a row stands in
        let headed: 'stages' | 'one stage' | null = null;
        let name = '';
        for (const line of lines) {
          const words = textOf(line);
          if (/^Point\b/.test(words)) {
            headed = /^Point Limit Verdict Length Width Height$/.test(words)
              ? 'one stage'
              : /^Point Limit\b(?! Verdict)/.test(words)
                ? 'stages'
                : null;
            name = '';
            continue;
          }
          const axis = axisRow.exec(words)?.[2];
          if (axis !== undefined && headed !== 'one stage' && line[0].height < 7.8) {
            expect(headed, `${words} stands under no head`).toBe('stages');
            axes.push(axis);
          }
          if (headed !== 'one stage') continue;
          // a long name goes on in the next line
          name = line[0].x < margin.left + 6 ? name + line[0].text : '';
          if (!names.has(name)) continue;
          namesFound.push(name);
          name = '';
        }
        expect(axes.length % 3).toBe(0);
        expect(axes).toEqual(axes.map((_, i) => ['length', 'width', 'height'][i % 3]));
        rows += axes.length;
      }
      expect(rows).toBe(rowsWanted);
      expect(namesFound.sort()).toEqual(namesWanted);
    });
  });
});
