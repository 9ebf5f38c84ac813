// Starts the workbench: its server as a process, and Chromium as its window.
import { spawn } from 'node:child_process';
import { closeSync, mkdirSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import net from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { installedChromium } from './chromium.mjs';
import { installHost, installWebHost } from './install-host.mjs';

/** A workbench that shows nothing but what a test is about and asks nobody anything. */
const quietSettings = {
  'security.workspace.trust.enabled': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'extensions.ignoreRecommendations': true,
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'chat.disableAIFeatures': true,
  'chat.commandCenter.enabled': false,
  'git.enabled': false,
  'workbench.reduceMotion': 'on',
  'workbench.enableExperiments': false,
};

const browserArguments = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--disable-sync',
  '--disable-background-networking',
  '--disable-component-update',
  '--no-first-run',
  // a page whose text a test has changed counts as one from outside, which may not reach this machine
  '--disable-features=LocalNetworkAccessChecks',
];

const freePort = () =>
  new Promise((resolve, reject) => {
    const probe = net.createServer().once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });

/** How long a server may take to start, on a machine that does much else. */
const startingLimit = 120_000;

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

/** How the workbench's page names a file of this machine. */
const remoteUri = (file) => `vscode-remote://remote${pathToFileURL(file).pathname}`;

/**
 * Starts the server and waits until it answers.
 *
 * @param {{ settings?: object, keybindings?: object[], extensions?: string, userData?: string, env?: object }} what
 *
 * `settings`: user settings over the quiet ones. `keybindings`: of the user. `extensions`: folder of installed extensions, an empty one
 * where absent. `userData`: a desktop's user data folder whose settings are taken. `env`: for the extension host.
 */
export const startServer = async ({ settings = {}, keybindings, extensions, userData, env = {} } = {}) => {
  const main = installHost();
  const scratch = mkdtempSync(path.join(tmpdir(), 'framewright-workbench-'));
  const data = path.join(scratch, 'data');
  const user = path.join(data, 'data/User');
  mkdirSync(user, { recursive: true });
  const own = { ...quietSettings, ...(userData ? settingsIn(userData) : {}), ...settings };
  writeFileSync(path.join(user, 'settings.json'), JSON.stringify(own, null, 2));
  if (keybindings) writeFileSync(path.join(user, 'keybindings.json'), JSON.stringify(keybindings));
  const extensionsFolder = extensions ?? path.join(scratch, 'extensions');
  mkdirSync(extensionsFolder, { recursive: true });

  const port = await freePort();
  const log = path.join(scratch, 'server.log');
  const descriptor = openSync(log, 'w');
  const server = spawn(
    process.execPath,
    [
      main,
      ...['--host', '127.0.0.1', '--port', String(port), '--without-connection-token'],
      ...['--accept-server-license-terms', '--telemetry-level', 'off', '--enable-smoke-test-driver'],
      ...['--server-data-dir', data, '--extensions-dir', extensionsFolder],
    ],
    // A group of its own, so that the extension host ends with it.
    {
      stdio: ['ignore', descriptor, descriptor],
      detached: true,
      // No extension from outside is needed, so none is asked for.
      env: { ...process.env, EXTENSIONS_GALLERY: '{ "serviceUrl": "" }', ...env },
    },
  );
  closeSync(descriptor);

  const kill = () => {
    if (server.exitCode === null && server.signalCode === null) process.kill(-server.pid, 'SIGTERM');
  };
  // also where the run is broken off
  process.once('exit', kill);
  const stop = async () => {
    process.off('exit', kill);
    if (server.exitCode === null && server.signalCode === null) {
      const gone = new Promise((resolve) => server.once('exit', resolve));
      kill();
      await gone;
    }
    rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  };
  const origin = `http://127.0.0.1:${port}`;
  const lastLines = () => readFileSync(log, 'utf8').split('\n').slice(-15).join('\n');
  for (const end = Date.now() + startingLimit; !(await answers(`${origin}/version`)); await pause(50)) {
    if (server.exitCode !== null || Date.now() > end) {
      const words = lastLines();
      await stop();
      throw new Error(`the workbench's server did not start:\n${words}`);
    }
  }
  return { origin, lastLines, stop };
};

/**
 * Starts VS Code for the Web on the folders of a folder, with an extension from its source folder. What it writes stays in
 * the page. `others`: a folder of extensions beside it.
 */
export const startWebServer = async ({ extension, folder, settings = {}, others }) => {
  installWebHost();
  const port = await freePort();
  // by this name, as the page gives each of its frames a host of its own beneath it
  const origin = `http://localhost:${port}`;
  const script = path.join(import.meta.dirname, 'web-server.mjs');
  const server = spawn(
    process.execPath,
    [script, String(port), extension, folder, ...(others ? [others] : [])],
    {
      stdio: 'ignore',
    },
  );
  const kill = () => server.kill();
  process.once('exit', kill);
  const stop = async () => {
    process.off('exit', kill);
    if (server.exitCode !== null || server.signalCode !== null) return;
    const gone = new Promise((resolve) => server.once('exit', resolve));
    kill();
    await gone;
  };
  for (const end = Date.now() + startingLimit; !(await answers(`${origin}/callback`)); await pause(50)) {
    if (server.exitCode !== null || Date.now() > end) {
      await stop();
      throw new Error('the server of VS Code for the Web did not start');
    }
  }
  return { origin, settings: { ...quietSettings, ...settings }, stop };
};

/**
 * Shows one of the folders of a web server's folder, by its name, in a page.
 * @param {import('playwright-core').Page} page
 * @param {{ origin: string, settings: object }} server
 * @param {string} name
 */
export const openInWeb = async (page, { origin, settings }, name) => {
  await page.route(`${origin}/`, async (route) => {
    const response = await route.fetch();
    const body = (await response.text()).replace(webConfiguration, (_, before, text, after) => {
      const options = JSON.parse(text.replaceAll('&quot;', '"'));
      options.configurationDefaults = settings;
      options.folderUri.path = `/${name}`;
      return before + JSON.stringify(options).replaceAll('"', '&quot;') + after;
    });
    await route.fulfill({ response, body });
  });
  await page.goto(`${origin}/`);
};

/** The page's own configuration, in the attribute of an element. */
const webConfiguration = /(id="vscode-workbench-web-configuration" data-settings=")([^"]*)(")/;

const settingsIn = (userData) => {
  try {
    return JSON.parse(readFileSync(path.join(userData, 'User/settings.json'), 'utf8'));
  } catch {
    return {};
  }
};

const answers = async (url) => {
  try {
    return (await fetch(url)).ok;
  } catch {
    return false;
  }
};

/**
 * Address of the workbench on a folder (or `.code-workspace` file), with extensions from their source folders.
 * @param {string} origin
 * @param {{ open?: string, development?: string[], tests?: string }} what
 */
export const workbenchUrl = (origin, { open, development = [], tests } = {}) => {
  const payload = [
    ...development.map((folder) => ['extensionDevelopmentPath', remoteUri(folder)]),
    ...(tests ? [['extensionTestsPath', remoteUri(tests)]] : []),
    ['skipWelcome', 'true'],
    ['skipReleaseNotes', 'true'],
  ];
  const query = new URLSearchParams({ payload: JSON.stringify(payload) });
  if (!open) query.set('ew', 'true');
  else query.set(open.endsWith('.code-workspace') ? 'workspace' : 'folder', open);
  return `${origin}/?${query}`;
};

export const windowSize = { width: 1400, height: 1000 };

export const openBrowser = () =>
  chromium.launch({ executablePath: installedChromium(), args: browserArguments });

/** A browser that other processes connect to. */
export const serveBrowser = () =>
  chromium.launchServer({ executablePath: installedChromium(), args: browserArguments });

/** A browser window of a steady size, so that screenshots compare. */
export const openWindow = async (viewport = windowSize) => {
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport });
  return { browser, page };
};
