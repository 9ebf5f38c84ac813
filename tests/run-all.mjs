#!/usr/bin/env node
// Every test of the project: what `npm test` runs. Each check without tests of its own (types,
// format, rooms, …) counts as one. The last line sums up; the exit code is 1 when anything failed.
import { execFile, spawn } from 'node:child_process';
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { promisify } from 'node:util';
import { installedNeovim, neovimPath } from './neovim/installed-neovim.mjs';
import { failuresIn, retriedIn } from './vitest-report.mjs';
import { chromiumPath, installedChromium } from './vscode/chromium.mjs';
import { installHost, installWebHost } from './vscode/install-host.mjs';
import { runSuites } from './vscode/run-suites.mjs';

const root = path.join(import.meta.dirname, '..');
const output = path.join(root, 'tests/output');
mkdirSync(output, { recursive: true });

const total = { passed: 0, failed: 0 };
const failures = [];
/** The failed tests by name, each with the first lines of why: told again at the end, where they are found. */
const named = [];
/** Those that passed at a second try only. */
const retried = [];

/** Runs one part, prints how it went and adds its counts. A part that throws failed as one test. */
const part = async (title, work) => {
  const start = Date.now();
  let counts;
  try {
    counts = await work();
  } catch (reason) {
    console.error(reason instanceof Error ? reason.message : reason);
    counts = { passed: 0, failed: 1 };
  }
  total.passed += counts.passed;
  total.failed += counts.failed;
  if (counts.failed > 0) failures.push(title);
  named.push(...(counts.named ?? []));
  retried.push(...(counts.retried ?? []));
  const seconds = ((Date.now() - start) / 1000).toFixed(1);
  console.log(`== ${title}: ${counts.passed} ok, ${counts.failed} not ok (${seconds} s)`);
  return counts.failed === 0;
};

/** A program that says by its exit code whether all is well; its words are shown only when it is not. */
const check = (title, program, ...args) =>
  part(title, async () => {
    try {
      await promisify(execFile)(program, args, { cwd: root, maxBuffer: 1e8 });
      return { passed: 1, failed: 0 };
    } catch ({ stdout = '', stderr = '', message }) {
      console.log(stdout || stderr ? `${stdout}${stderr}` : message);
      return { passed: 0, failed: 1 };
    }
  });

/** The exit code of a program; null where a signal ended it. */
const ended = (program, args, stdio, env) =>
  new Promise((resolve, reject) =>
    spawn(program, args, { cwd: root, stdio, env: { ...process.env, ...env } })
      .on('error', reject)
      .on('close', resolve),
  );

/**
 * Tests run by vitest; counted from its report, so that a run that broke off is not taken for a good one. What runs beside other tests
 * prints at its end.
 */
const vitest = (title, name, { args = [], env = {}, beside = false } = {}) =>
  part(title, async () => {
    const report = path.join(output, `${name}.json`);
    rmSync(report, { force: true });
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
    // a file takes all at once, also while this process is busy
    const printed = path.join(output, `${name}.txt`);
    const file = beside ? openSync(printed, 'w') : null;
    const status = await ended(
      'npx',
      ['vitest', 'run', ...reporters, ...args],
      file === null ? 'inherit' : ['ignore', file, file],
      env,
    );
    if (file !== null) {
      closeSync(file);
      console.log(readFileSync(printed, 'utf8'));
    }
    if (!existsSync(report)) return { passed: 0, failed: 1 };
    const told = JSON.parse(readFileSync(report, 'utf8'));
    const { numPassedTests: passed, numTotalTests, numFailedTestSuites } = told;
    // Also a test that was skipped, a file that holds none and an error outside any test is a failure.
    const failed = Math.max(numTotalTests - passed, numFailedTestSuites);
    const broke = failed === 0 && (status !== 0 || passed === 0);
    return {
      passed,
      failed: broke ? 1 : failed,
      named: failuresIn(told, root),
      retried: retriedIn(told, root),
    };
  });

// Each of them keeps one core busy, and none reads what another writes.
const [built] = await Promise.all([
  check('build and package', 'npm', 'run', '--silent', 'package'),
  check('types', 'npm', 'run', '--silent', 'check:types'),
  check('format and lint', 'npm', 'run', '--silent', 'check:format'),
  check('rooms', 'npm', 'run', '--silent', 'check:rooms'),
]);
await vitest('unit and protocol tests', 'unit');

if (!chromiumPath()) {
  await part('Chromium', () => {
    installedChromium();
    return { passed: 1, failed: 0 };
  });
}
if (!neovimPath()) {
  await part('Neovim', () => {
    installedNeovim();
    return { passed: 1, failed: 0 };
  });
}
if (built) {
  const alone = (folder) => ({ args: ['--config', `tests/${folder}/vitest.config.ts`], beside: true });
  // one core each
  await Promise.all([
    vitest('the language server in Neovim', 'neovim', alone('neovim')).then(() =>
      vitest('the report in a browser and on paper', 'report', alone('report')),
    ),
    part('suites in the editor', () => runSuites()),
  ]);
  // a person types slowly: while one window waits for that, the other works
  await part('what flows need', () => {
    installHost();
    installWebHost();
    return { passed: 1, failed: 0 };
  });
  await Promise.all(
    ['server', 'web'].map((workbench) =>
      vitest(`flows in the window, ${workbench}`, `flows-${workbench}`, {
        args: ['--config', 'tests/vscode/flows/vitest.config.ts', '--project', workbench],
        env: { FLOWS_IN: workbench },
        beside: true,
      }),
    ),
  );
} else {
  await part('the editor', () => {
    throw new Error('not tried, as the build failed');
  });
}

for (const test of retried) console.log(`passed at a second try only: ${test}`);
for (const failure of named) console.log(`failed: ${failure}`);
if (failures.length > 0) console.log(`not ok: ${failures.join(', ')}`);
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed > 0 ? 1 : 0;
