/** The browser that shows and prints the report. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { installedChromium } from '../vscode/chromium.mjs';

const root = path.join(import.meta.dirname, '../..');
const screenshots = path.join(root, 'tests/output/screenshots');
const pdfjs = path.join(root, 'node_modules/pdfjs-dist/build');

/** Nothing is served there: what is asked of it comes out of the package. */
const pdfjsOrigin = 'http://pdfjs.invalid/';

export const launched = (): Promise<Browser> =>
  chromium.launch({
    executablePath: installedChromium(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });

/** Everything that a page complained of or asked for besides itself. */
export interface Watched {
  readonly page: Page;
  readonly complaints: string[];
  readonly requests: string[];
}

export async function opened(context: BrowserContext, file: string): Promise<Watched> {
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (said) => complaints.push(said.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => requests.push(request.url()));
  await page.goto(pathToFileURL(file).href);
  return { page, complaints, requests };
}

/** As much of the package as is used here. */
type Pdfjs = typeof import('pdfjs-dist');

/** A piece of text on a sheet of paper, in points from its lower left corner. */
export interface Piece {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly pieces: readonly Piece[];
}

/**
 * The sheets of a PDF with the text on each.
 * @param pictures name of the screenshots that are kept of them, null: none
 */
export async function sheetsOf(
  browser: Browser,
  pdf: Uint8Array,
  pictures: string | null = null,
): Promise<Sheet[]> {
  const context = await browser.newContext();
  try {
    await context.route('**/*', (route) => {
      const url = route.request().url();
      return url.endsWith('.mjs')
        ? route.fulfill({
            contentType: 'text/javascript',
            body: readFileSync(path.join(pdfjs, path.basename(url)), 'utf8'),
          })
        : route.fulfill({
            contentType: 'text/html',
            body: `<!doctype html><canvas></canvas><script type="module">import * as library from './pdf.min.mjs'; globalThis.pdfjs = library;</script>`,
          });
    });
    const page = await context.newPage();
    await page.goto(pdfjsOrigin);
    await page.waitForFunction(() => 'pdfjs' in globalThis);
    const { sheets, images } = await page.evaluate(
      async ({ origin, base64, drawn }) => {
        const library = (window as unknown as { pdfjs: Pdfjs }).pdfjs;
        library.GlobalWorkerOptions.workerSrc = `${origin}pdf.worker.min.mjs`;
        const data = Uint8Array.from(atob(base64), (each) => each.charCodeAt(0));
        const document = await library.getDocument({ data }).promise;
        const sheets = [];
        const images: string[] = [];
        for (let number = 1; number <= document.numPages; number++) {
          const sheet = await document.getPage(number);
          const { items } = await sheet.getTextContent();
          const { width, height } = sheet.getViewport({ scale: 1 });
          sheets.push({
            width,
            height,
            pieces: items
              .flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item] : []))
              .map((item) => ({
                // two letters drawn as one are two
                text: item.str.normalize('NFKC'),
                x: item.transform[4],
                y: item.transform[5],
                width: item.width,
                height: item.height,
              })),
          });
          if (!drawn) continue;
          const viewport = sheet.getViewport({ scale: 1.5 });
          const canvas = globalThis.document.querySelector('canvas')!;
          [canvas.width, canvas.height] = [viewport.width, viewport.height];
          await sheet.render({ canvas, viewport }).promise;
          images.push(canvas.toDataURL('image/png').split(',')[1]);
        }
        return { sheets, images };
      },
      { origin: pdfjsOrigin, base64: Buffer.from(pdf).toString('base64'), drawn: pictures !== null },
    );
    mkdirSync(screenshots, { recursive: true });
    images.forEach((image, i) => {
      const name = `${pictures}-${String(i + 1).padStart(2, '0')}.png`;
      writeFileSync(path.join(screenshots, name), image, 'base64');
    });
    return sheets;
  } finally {
    await context.close();
  }
}

/** The lines of a sheet from its top, each piece of a line from its left. */
export function linesOf({ pieces }: Sheet): Piece[][] {
  const lines: Piece[][] = [];
  for (const piece of [...pieces].sort((a, b) => b.y - a.y || a.x - b.x)) {
    const last = lines[lines.length - 1];
    if (last !== undefined && Math.abs(last[0].y - piece.y) < 1.5) last.push(piece);
    else lines.push([piece]);
  }
  return lines.map((line) => joined(line.sort((a, b) => a.x - b.x)));
}

/** Letters that were drawn one at a time, as one piece. */
function joined(line: readonly Piece[]): Piece[] {
  const pieces: Piece[] = [];
  for (const piece of line) {
    const last = pieces[pieces.length - 1];
    if (last === undefined || piece.x - last.x - last.width > 0.5) pieces.push(piece);
    else
      pieces[pieces.length - 1] = {
        ...last,
        text: last.text + piece.text,
        width: piece.x + piece.width - last.x,
      };
  }
  return pieces;
}
