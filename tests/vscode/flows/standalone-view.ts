/** The page of the drawing without an editor around it: its own markup, scripts and policy, with the server's answers. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { DrawingSection } from '@framewright/schemas/wire';
import type { Page } from 'playwright-core';
import type { FromPage } from '../../../client/src/drawing/messages';
import { drawingPage } from '../../../client/src/drawing/page';
import { type DrawingAnswer, drawingAnswer } from '../../../server/src/editor/show/drawing';
import { drawingStyles } from '../../../server/src/report/drawing/drawing-styles';
import { type Sheet, sheetPatch } from '../../../server/src/report/sheet';
import type { Analysis } from '../../../server/src/workspace/workspace';

const dist = path.join(import.meta.dirname, '../../../client/dist');
const origin = 'https://view.test';

/** What an editor's themes set, as far as the page uses it: from the editor's own default themes. */
export const themes = {
  light: {
    '--vscode-foreground': '#3b3b3b',
    '--vscode-descriptionForeground': '#3b3b3b',
    '--vscode-editor-background': '#ffffff',
    '--vscode-textLink-foreground': '#005fb8',
    '--vscode-focusBorder': '#005fb8',
    '--vscode-panel-border': '#e5e5e5',
  },
  dark: {
    '--vscode-foreground': '#cccccc',
    '--vscode-descriptionForeground': '#9d9d9d',
    '--vscode-editor-background': '#1f1f1f',
    '--vscode-textLink-foreground': '#4daafc',
    '--vscode-focusBorder': '#0078d4',
    '--vscode-panel-border': '#2b2b2b',
  },
  'high contrast': {
    '--vscode-foreground': '#ffffff',
    '--vscode-descriptionForeground': 'rgba(255,255,255,0.7)',
    '--vscode-editor-background': '#000000',
    '--vscode-textLink-foreground': '#21a6ff',
    '--vscode-focusBorder': '#f38518',
    '--vscode-contrastBorder': '#6fc3df',
    '--vscode-panel-border': '#6fc3df',
  },
} as const;

export interface StandaloneView {
  readonly page: Page;
  /** What the page has said, oldest first. */
  readonly said: FromPage[];
  /** What the browser complained of. */
  readonly complaints: string[];
  /** Shows a file as it stands now; resolves when it is on the screen, with the size of what was sent and how long that took. */
  show(analysis: Analysis): Promise<{ characters: number; handledMs: number; framedMs: number }>;
  /** What is to be shown next. */
  wanted: {
    section: DrawingSection;
    stage: number | null;
    over: number | null;
    selected: string | null;
    width: number;
  };
}

export async function standaloneView(page: Page, theme: keyof typeof themes): Promise<StandaloneView> {
  const said: FromPage[] = [];
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(origin) && !request.url().startsWith('data:'))
      complaints.push(`asked for ${request.url()}`);
  });
  const html = drawingPage('bm9uY2U', {
    drawing: `${origin}/drawing-view.js`,
    solid: `${origin}/solid-view.js`,
  });
  await page.route(`${origin}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    return name === ''
      ? route.fulfill({ contentType: 'text/html', body: html })
      : route.fulfill({ contentType: 'text/javascript', body: readFileSync(path.join(dist, name)) });
  });
  await page.exposeFunction('hear', (message: FromPage) => void said.push(message));
  await page.addInitScript((colours) => {
    const global = globalThis as unknown as { acquireVsCodeApi: unknown; hear: (message: unknown) => void };
    global.acquireVsCodeApi = () => ({
      postMessage: (message: unknown) => global.hear(message),
      setState: () => {},
    });
    const dress = () => {
      for (const [name, value] of Object.entries(colours))
        document.documentElement.style.setProperty(name, value);
    };
    if (document.documentElement) dress();
    else document.addEventListener('readystatechange', dress, { once: true });
  }, themes[theme]);
  await page.goto(`${origin}/`);

  let sheets = new Map<string, Sheet>();
  let revision = 0;
  let before: DrawingAnswer | null = null;
  const view: StandaloneView = {
    page,
    said,
    complaints,
    wanted: { section: 'drawing', stage: null, over: null, selected: null, width: 640 },
    async show(analysis) {
      const answer: DrawingAnswer | null = drawingAnswer(analysis, {
        ...view.wanted,
        cursor: null,
        cursorStage: null,
        before,
      });
      if (answer === null) throw new Error('no drawing');
      const patches = answer.sheets.flatMap((each) => sheetPatch(sheets.get(each.name) ?? null, each) ?? []);
      const message = {
        kind: 'shown',
        section: view.wanted.section,
        heard: Number.MAX_SAFE_INTEGER,
        kept: null,
        answer: {
          ...answer,
          drawing: null,
          revision: ++revision,
          sheets: patches,
          names: answer.sheets.map(({ name }) => name),
          styles: sheets.size === 0 ? drawingStyles : null,
        },
      };
      before = answer;
      sheets = new Map(answer.sheets.map((each) => [each.name, each]));
      const { handledMs, framedMs } = await page.evaluate(async (sent) => {
        const start = performance.now();
        window.dispatchEvent(new MessageEvent('message', { data: sent }));
        const handled = performance.now();
        // the browser lays out and paints after the callbacks of a frame
        await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
        return { handledMs: handled - start, framedMs: performance.now() - start };
      }, message as never);
      await page.locator(`body[data-revision="${revision}"]`).waitFor();
      return { characters: JSON.stringify(message).length, handledMs, framedMs };
    },
  };
  return view;
}
