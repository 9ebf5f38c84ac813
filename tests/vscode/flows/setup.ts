/** Made ready once for all flows, before the clock of a test runs: what is downloaded, a browser, a server for each workbench. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { installHost, installWebHost } from '../install-host.mjs';
import { serveBrowser, startServer, startWebServer } from '../workbench.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** `shops`: folder of the folders that windows show. */
    readonly shared: {
      readonly shops: string;
      readonly browser: string;
      readonly server: { readonly origin: string };
      readonly web: { readonly origin: string; readonly settings: object };
    };
  }
}

const client = path.join(import.meta.dirname, '../../../client');
/** So that a flow chooses the theme. */
const settings = { 'window.autoDetectColorScheme': true, 'window.autoDetectHighContrast': true };

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
    const server = await startServer({ settings });
    ends.push(server.stop);
    const others = path.join(import.meta.dirname, 'tidying');
    const web = await startWebServer({ extension: client, folder: shops, settings, others });
    ends.push(web.stop);
    const browser = await serveBrowser();
    ends.push(() => browser.close());
    provide('shared', {
      shops,
      browser: browser.wsEndpoint(),
      server: { origin: server.origin },
      web: { origin: web.origin, settings: web.settings },
    });
  } catch (reason) {
    await end();
    throw reason;
  }
  return end;
};
