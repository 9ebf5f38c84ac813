import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { leftBehindSwept, signedName } from './leftovers';
import { fileWritten } from './write';

/** A page as PDF and a drawing as PNG, made by a browser of this machine without a window. For the door that has a command line. */

/** First the one that has no windows: it prints the same in half the time. */
const names = [
  'chromium-headless-shell',
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
];
/** Where installers put it on machines that do not keep programs in the path. */
const elsewhere = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ...[process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA].flatMap(
    (folder) =>
      folder === undefined
        ? []
        : [
            join(folder, 'Google/Chrome/Application/chrome.exe'),
            join(folder, 'Microsoft/Edge/Application/msedge.exe'),
          ],
  ),
];

/** Path of a Chromium, or null. `CHROMIUM` in the environment goes before all others. */
export function foundChromium(environment: NodeJS.ProcessEnv = process.env): string | null {
  const folders = (environment.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const places = [
    ...(environment.CHROMIUM ? [environment.CHROMIUM] : []),
    ...folders.flatMap((folder) => names.map((name) => join(folder, name))),
    ...elsewhere,
  ];
  return places.find((place) => existsSync(place) && statSync(place).isFile()) ?? null;
}

const patienceMs = 120_000;
const profilePrefix = 'framewright-print-';

/**
 * Prints a page; the browser keeps nothing and reaches no network. What it adds of its own, the time of printing, is taken out again:
 * the same page by the same browser gives the same bytes.
 * @param title how the page's title begins, letters and blanks only: to see that no other page was printed, such as one of an error
 * @param over.force writes over a PDF that is read-only or not of ours
 * @returns null when the PDF was written, else what went wrong
 */
export const printedAsPdf = (
  chromium: string,
  page: string,
  title: string,
  over: { readonly pdfPath: string; readonly force: boolean },
): string | null =>
  fileWritten(over.pdfPath, { ...over, isOurs: (start) => isTitled(start, title) }, (temporary) => {
    const pagePath = `${temporary}.html`;
    writeFileSync(pagePath, page);
    const made = browserRun(chromium, pagePath, temporary, [
      `--print-to-pdf=${temporary}`,
      '--no-pdf-header-footer',
    ]);
    if (made !== 'written') return `${chromium} ${made === 'failed' ? 'could not print' : 'wrote no PDF'}`;
    const pdf = readFileSync(temporary);
    if (!isTitled(pdf, title)) return `${chromium} printed something other than the page`;
    writeFileSync(temporary, withoutTimes(pdf));
    return null;
  });

/** Points of a picture to one unit of a drawing: it is read on paper and on fine screens. */
const pointsPerUnit = 2;

/**
 * A drawing in points. Whether a picture is one of ours nothing in it tells.
 * @param svg begins with its width and height
 * @returns null when the picture was written, else what went wrong
 */
export const picturedAsPng = (
  chromium: string,
  svg: string,
  over: { readonly pngPath: string; readonly force: boolean },
): string | null =>
  fileWritten(over.pngPath, { ...over, isOurs: () => false }, (temporary) => {
    const [, width, height] = /^<svg [^>]*\bwidth="(\d+)" height="(\d+)"/.exec(svg) ?? [];
    if (height === undefined) throw new Error('A drawing states its width and height.');
    const pagePath = `${temporary}.html`;
    writeFileSync(pagePath, `<!doctype html><meta charset="utf-8"><style>body{margin:0}</style>${svg}`);
    const asked = [
      `--screenshot=${temporary}`,
      `--window-size=${width},${height}`,
      `--force-device-scale-factor=${pointsPerUnit}`,
      '--hide-scrollbars',
    ];
    const made = browserRun(chromium, pagePath, temporary, asked);
    if (made !== 'written')
      return `${chromium} ${made === 'failed' ? 'could not make the picture' : 'wrote no picture'}`;
    const isWhole = isPng(
      readFileSync(temporary),
      pointsPerUnit * Number(width),
      pointsPerUnit * Number(height),
    );
    return isWhole ? null : `${chromium} made something other than the picture`;
  });

/** Signature and size of a picture (W3C Portable Network Graphics, 5.2 and 11.2.2). */
const isPng = (file: Buffer, width: number, height: number): boolean =>
  file.length > 24 &&
  file.subarray(0, 8).equals(Buffer.from('89504e470d0a1a0a', 'hex')) &&
  file.readUInt32BE(16) === width &&
  file.readUInt32BE(20) === height;

/** Has the browser make a file of a page. */
function browserRun(
  chromium: string,
  pagePath: string,
  made: string,
  asked: readonly string[],
): 'written' | 'nothing' | 'failed' {
  leftBehindSwept(tmpdir(), profilePrefix);
  const profile = mkdtempSync(join(tmpdir(), signedName(profilePrefix)));
  const args = [
    '--headless',
    '--disable-gpu',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--host-resolver-rules=MAP * ~NOTFOUND',
    `--user-data-dir=${profile}`,
    // there is no sandbox for the superuser; the page runs no script
    ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ...asked,
    pathToFileURL(pagePath).href,
  ];
  try {
    execFileSync(chromium, args, { stdio: 'ignore', timeout: patienceMs });
    return existsSync(made) ? 'written' : 'nothing';
  } catch {
    return 'failed';
  } finally {
    // the browser may still be putting its things away
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}

/** A text string of PDF (ISO 32000-1, 7.9.2.2): letters as they are, or UTF-16 in hexadecimal digits. */
function isTitled(pdf: Buffer, title: string): boolean {
  const utf16 = Buffer.from(title, 'utf16le').swap16().toString('hex').toUpperCase();
  return [`/Title (${title}`, `/Title <FEFF${utf16}`].some((entry) => pdf.includes(entry, 0, 'latin1'));
}

/** Blanks for the entries that tell when it was printed (ISO 32000-1, 14.3.3): places in the file are counted, so it stays as long. */
const withoutTimes = (pdf: Buffer): Buffer =>
  Buffer.from(
    pdf
      .toString('latin1')
      .replace(/\/(CreationDate|ModDate) \(D:[^)]{1,40}\)/g, (entry) => ' '.repeat(entry.length)),
    'latin1',
  );
