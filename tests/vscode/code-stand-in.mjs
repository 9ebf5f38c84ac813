#!/usr/bin/env node
// Stands in for the `code` executable: takes the arguments that @vscode/test-electron passes, runs the suite in the
// workbench's extension host, and exits with the suite's code. With a desktop editor at hand the same suite runs
// there: point CODE_EXECUTABLE at it.
import path from 'node:path';
import { format, parseArgs } from 'node:util';
import { openWindow, startServer, workbenchUrl } from './workbench.mjs';

const limitSeconds = 600;

const { values, positionals } = parseArgs({
  args: process.argv.slice(2),
  strict: false,
  allowPositionals: true,
  options: {
    extensionDevelopmentPath: { type: 'string', multiple: true },
    extensionTestsPath: { type: 'string' },
    'extensions-dir': { type: 'string' },
    'user-data-dir': { type: 'string' },
  },
});

const development = (values.extensionDevelopmentPath ?? []).map((folder) => path.resolve(folder));
const tests = values.extensionTestsPath && path.resolve(values.extensionTestsPath);

/** Lines that the workbench writes of itself in every run. */
const chatter =
  /^(Resolv|Creating a socket|\[(remote-connection|Service Worker)|Updating additional builtin|Ignoring fetching|ChatSessionStore|Creation of workbench contribution)/;

const server = await startServer({ extensions: values['extensions-dir'], userData: values['user-data-dir'] });
const { browser, page } = await openWindow();
const end = async (code, words) => {
  if (words) console.error(`${words}; the server's last lines:\n${server.lastLines()}`);
  await browser.close();
  await server.stop();
  process.exit(code);
};
const timer = setTimeout(() => {
  void end(124, `no result after ${limitSeconds} s`);
}, limitSeconds * 1000);
timer.unref();
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => void end(130));

await page.exposeFunction('codeAutomationLog', (type, words) => {
  const line = format(...[words].flat());
  if (!chatter.test(line)) (type === 'error' ? console.error : console.log)(line);
});
await page.exposeFunction('codeAutomationExit', (code) => void end(code));
page.on('crash', () => {
  void end(70, 'the page crashed');
});
await page.goto(
  workbenchUrl(server.origin, { open: positionals[0] && path.resolve(positionals[0]), development, tests }),
);
