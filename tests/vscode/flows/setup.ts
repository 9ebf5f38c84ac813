/**
 * Made ready once for all flows, before the clock of a test runs: what is downloaded, a browser, a server for each workbench, or for the one
 * that `FLOWS_IN` names.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { installHost, installWebHost } from '../install-host.mjs';
import { serveBrowser, startServer, startWebServer } from '../workbench.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** `scratch`: a folder that goes with the run. `shops`: folder of the folders that windows show. */
    readonly shared: {
      readonly scratch: string;
      readonly shops: string;
      readonly browser: string;
      readonly server: { readonly origin: string };
      readonly web: { readonly origin: string; readonly settings: object };
    };
  }
}

const client = path.join(import.meta.dirname, '../../../client');
const settings = {
  // so that a flow chooses the theme
  'window.autoDetectColorScheme': true,
  'window.autoDetectHighContrast': true,
  // so that nothing typed reaches a file unasked: in a browser, not on a desktop, that is the default
  'files.autoSave': 'off',
  // so that a file is seen from its first line, wherever a flow before left it
  'workbench.editor.restoreViewState': false,
};

export default async ({ provide }: TestProject): Promise<() => Promise<void>> => {
  const ends: (() => unknown)[] = [];
  const end = async (): Promise<void> => {
    for (const each of ends.reverse()) await each();
  };
  try {
    installHost();
    installWebHost();
    const scratch = mkdtempSync(path.join(tmpdir(), 'framewright-flows-'));
    ends.push(() => rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }));
    const shops = path.join(scratch, 'shops');
    mkdirSync(shops);
    // an extension that only the web's workbench can have beside the one under test
    const others = path.join(import.meta.dirname, 'tidying');
    const { contributes } = JSON.parse(readFileSync(path.join(others, 'package.json'), 'utf8'));
    const isWanted = (workbench: string) => (process.env.FLOWS_IN ?? workbench) === workbench;
    const server = isWanted('server')
      ? await startServer({ settings, keybindings: contributes.keybindings })
      : null;
    if (server !== null) ends.push(server.stop);
    const web = isWanted('web')
      ? await startWebServer({ extension: client, folder: shops, settings, others })
      : null;
    if (web !== null) ends.push(web.stop);
    const browser = await serveBrowser();
    ends.push(() => browser.close());
    provide('shared', {
      scratch,
      shops,
      browser: browser.wsEndpoint(),
      server: { origin: server?.origin ?? '' },
      web: { origin: web?.origin ?? '', settings: web?.settings ?? {} },
    });
  } catch (reason) {
    await end();
    throw reason;
  }
  return end;
};
