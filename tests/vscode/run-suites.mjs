#!/usr/bin/env node
// Runs the suites inside the extension host: run-suites.mjs [NAME…]. Prints each test and, last, the counts.
// CODE_EXECUTABLE: a desktop editor's executable, to run them there instead of in the stand-in.
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';
import { build } from 'esbuild';
import { installedChromium } from './chromium.mjs';
import { installHost } from './install-host.mjs';

const here = import.meta.dirname;
const client = path.join(here, '../../client');
const suiteFile = (name) => path.join(here, `../output/suites/${name}.cjs`);

/**
 * Each suite with the folder (or workspace file) that the editor shows; `modules`: what it is made of, one after the other in the same
 * window, which takes long to open; `packed`: on the installed package; `settings`: of the user. Whether a folder is trusted is not
 * asked by a desktop editor under test: there that suite is left out.
 */
const suites = [
  { name: 'foreign', folder: 'foreign' },
  { name: 'associated', folder: 'associated' },
  { name: 'editor', folder: 'workspace', modules: ['editor', 'views'] },
  { name: 'tasks', folder: 'workspace' },
  { name: 'folders', folder: 'two.code-workspace' },
  ...(process.env.CODE_EXECUTABLE
    ? []
    : [
        {
          name: 'untrusted',
          folder: 'workspace',
          settings: {
            'security.workspace.trust.enabled': true,
            'security.workspace.trust.startupPrompt': 'never',
          },
        },
      ]),
  { name: 'packed', folder: 'workspace', packed: true },
];

/** Runs the named suites, all where none is named; returns how many tests passed and failed, which ones failed, which passed at a second try. */
export const runSuites = async (names = []) => {
  if (!process.env.CODE_EXECUTABLE) {
    installHost();
    installedChromium();
  }
  const wanted = suites.filter(({ name }) => names.length === 0 || names.includes(name));
  for (const suite of wanted) await bundle(suite);
  let passed = 0;
  let failed = 0;
  const named = [];
  const retried = [];
  for (const suite of wanted) {
    console.log(`suite ${suite.name}`);
    const results = await resultsOf(suite);
    passed += results.passed;
    failed += results.failed;
    named.push(...results.named.map((test) => `suite ${suite.name}: ${test}`));
    retried.push(...results.retried.map((test) => `suite ${suite.name}: ${test}`));
  }
  return { passed, failed, named, retried };
};

/** A suite with the runner that the editor calls, as one file. */
const bundle = ({ name, modules = [name] }) =>
  build({
    stdin: {
      contents: `${modules.map((each) => `import './${each}.suite';`).join('')} export { run } from './harness';`,
      resolveDir: path.join(here, 'suites'),
    },
    outfile: suiteFile(name),
    bundle: true,
    platform: 'node',
    format: 'cjs',
    external: ['vscode'],
    sourcemap: 'inline',
    logLevel: 'warning',
  });

const resultsOf = async ({ name, folder, packed, settings }) => {
  const scratch = mkdtempSync(path.join(tmpdir(), 'framewright-suite-'));
  const results = path.join(scratch, 'results.json');
  const extensions = path.join(scratch, 'extensions');
  // Copies, so that a test that saves a file spoils nothing.
  cpSync(path.join(here, 'fixtures'), path.join(scratch, 'fixtures'), { recursive: true });
  try {
    if (settings) {
      mkdirSync(path.join(scratch, 'user/User'), { recursive: true });
      writeFileSync(path.join(scratch, 'user/User/settings.json'), JSON.stringify(settings));
    }
    if (packed) installPackage(extensions, path.join(scratch, 'data'));
    await runTests({
      vscodeExecutablePath: process.env.CODE_EXECUTABLE ?? path.join(here, 'code-stand-in.mjs'),
      extensionDevelopmentPath: packed ? path.join(here, 'fixtures/bare-extension') : client,
      extensionTestsPath: suiteFile(name),
      extensionTestsEnv: { FRAMEWRIGHT_RESULTS: results },
      launchArgs: [
        path.join(scratch, 'fixtures', folder),
        `--extensions-dir=${extensions}`,
        `--user-data-dir=${path.join(scratch, 'user')}`,
      ],
    });
  } catch (reason) {
    console.error(`suite ${name}: ${reason.message}`);
  }
  // A run that ended before its results were written failed as a whole, whatever its exit code.
  const counts = existsSync(results)
    ? JSON.parse(readFileSync(results, 'utf8'))
    : { passed: 0, failed: 1, named: ['no result'], retried: [] };
  rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  return counts;
};

const installPackage = (extensions, data) => {
  const file = path.join(client, 'framewright.vsix');
  const where = ['--extensions-dir', extensions, '--install-extension', file];
  const [program, own] = process.env.CODE_EXECUTABLE
    ? [process.env.CODE_EXECUTABLE, ['--user-data-dir', data]]
    : [process.execPath, [installHost(), '--accept-server-license-terms', '--server-data-dir', data]];
  execFileSync(program, [...own, ...where], { stdio: ['ignore', 'ignore', 'inherit'] });
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { passed, failed } = await runSuites(process.argv.slice(2));
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed > 0 ? 1 : 0;
}
