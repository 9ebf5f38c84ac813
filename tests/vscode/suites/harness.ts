/**
 * The runner inside the extension host. A suite is a module that calls `test`; the editor calls `run`. Results go to
 * the file named by FRAMEWRIGHT_RESULTS, from which the whole test run takes its counts.
 */
import { writeFileSync } from 'node:fs';
import { workspace } from 'vscode';

type Body = () => Promise<void> | void;

const tests: { name: string; body: Body }[] = [];
const limitMs = 120_000;

export const test = (name: string, body: Body): void => {
  tests.push({ name, body });
};

/** Runs all tests in the order written; throws when one failed, so that the editor's exit code tells. */
export const run = async (): Promise<void> => {
  const failures: string[] = [];
  // A workbench that reads a workspace file from its server calls us before it knows the folders that the file names.
  await eventually('the folders of the window', () => workspace.workspaceFolders?.length || undefined);
  const retried: string[] = [];
  for (const { name, body } of tests) {
    if (await passes(name, body)) continue;
    // as a person would, whose machine was busy; the run names it
    if (await passes(name, body)) retried.push(name);
    else failures.push(name);
  }
  const results = {
    passed: tests.length - failures.length,
    failed: failures.length,
    named: failures,
    retried,
  };
  if (process.env.FRAMEWRIGHT_RESULTS)
    writeFileSync(process.env.FRAMEWRIGHT_RESULTS, JSON.stringify(results));
  if (tests.length === 0) throw new Error('the suite holds no test');
  if (failures.length > 0) throw new Error(`${failures.length} of ${tests.length} tests failed`);
};

const passes = async (name: string, body: Body): Promise<boolean> => {
  try {
    await within(limitMs, body());
    console.log(`  passed  ${name}`);
    return true;
  } catch (reason) {
    console.error(`  FAILED  ${name}\n${reason instanceof Error ? reason.stack : reason}`);
    return false;
  }
};

const within = async (ms: number, work: Promise<void> | void): Promise<void> => {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no end after ${ms / 1000} s`)), ms);
  });
  await Promise.race([work, late]).finally(() => clearTimeout(timer));
};

/** Asks again until there is an answer that is not undefined; throws with `what` when there is none in 60 s. */
export const eventually = async <T>(
  what: string,
  ask: () => T | undefined | Promise<T | undefined>,
): Promise<T> => {
  for (const end = Date.now() + 60_000; Date.now() < end; await pause(50)) {
    const answer = await ask();
    if (answer !== undefined) return answer;
  }
  throw new Error(`in vain: ${what}`);
};

export const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
