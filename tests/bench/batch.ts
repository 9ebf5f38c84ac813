import { execFileSync } from 'node:child_process';
import { appendFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { benchFolder, commandLine, schemaFolder } from './folders';
import { writeShop } from './generate';
import { yamlText } from './job';
import { growthExponent, median } from './statistics';
import { wholeProcessMs } from './whole-process';

export interface BatchTimes {
  readonly jobs: number;
  readonly readings: number;
  readonly chassis: number;
  readonly checkMs: readonly number[];
  readonly shapeMs: readonly number[];
  /** Of `check`, by number of jobs. */
  readonly growth: readonly { readonly jobs: number; readonly medianMs: number }[];
  /** The chassis files alone: what stands before the first job. */
  readonly withoutJobsMs: number;
  /** All of it again with nothing changed. */
  readonly againMs: readonly number[];
  readonly staged: { readonly jobs: number; readonly changed: number; readonly checkMs: readonly number[] };
  /** Node doing nothing, in between: what the machine has left for anybody. */
  readonly nodeMs: readonly number[];
  readonly exponent: number | null;
  /** Of what the jobs add to the time without any: a fixed cost cannot hide growth here. */
  readonly exponentOfJobs: number | null;
}

const bodies = 50;
const readings = 600;
/** Folders of jobs that are checked together. */
const together = [1, 2, 4, 8];

/** `check` and the checker of shapes, turn by turn, each as a process of its own. */
export async function batchTimes(folder: string, quick: boolean): Promise<BatchTimes> {
  const jobsInEach = quick ? 25 : 125;
  const shop = writeShop(folder, { bodies, folders: 8, jobsInEach, readings }, yamlText);
  const output = path.join(folder, 'printed.txt');
  process.env.XDG_CACHE_HOME = process.env.LOCALAPPDATA = path.join(folder, 'cache');
  const check = (folders: number, ...options: string[]) => {
    const files = bodies + folders * jobsInEach;
    const paths = [shop.specs, ...shop.jobs.slice(0, folders)];
    return wholeProcessMs(
      [commandLine, 'check', ...options, ...paths],
      output,
      new RegExp(`^${files} files`, 'm'),
    );
  };
  const shape = (folders: number) =>
    wholeProcessMs(
      [path.join(benchFolder, 'shape-check.mjs'), schemaFolder, shop.specs, ...shop.jobs.slice(0, folders)],
      output,
      new RegExp(`^${bodies + folders * jobsInEach} files, 0 faulty`, 'm'),
    );

  const checked = new Map<number, number[]>([0, ...together].map((folders) => [folders, []]));
  const shapeMs: number[] = [];
  for (let round = 0; round < (quick ? 2 : 3); round++) {
    for (const [folders, times] of checked) times.push(await check(folders, '--no-cache'));
    shapeMs.push(await shape(8));
  }
  // the first of these keeps what the others find
  await check(8);
  const againMs: number[] = [];
  const nodeMs: number[] = [];
  for (let round = 0; round < (quick ? 3 : 9); round++) {
    againMs.push(await check(8));
    nodeMs.push(await wholeProcessMs(['-e', '0'], output, /^$/));
  }
  const staged = await stagedTimes(path.join(folder, 'staged'), output, quick);
  const growth = together.map((folders) => ({
    jobs: folders * jobsInEach,
    medianMs: median(checked.get(folders)!),
  }));
  const withoutJobsMs = median(checked.get(0)!);
  return {
    jobs: 8 * jobsInEach,
    readings,
    chassis: bodies,
    checkMs: checked.get(8)!,
    shapeMs,
    growth,
    withoutJobsMs,
    againMs,
    staged,
    nodeMs,
    exponent: growthExponent(growth.map(({ jobs, medianMs }) => [jobs, medianMs])),
    exponentOfJobs: growthExponent(growth.map(({ jobs, medianMs }) => [jobs, medianMs - withoutJobsMs])),
  };
}

/** `check --staged` of a few jobs in a repository of many, none of them judged before. */
async function stagedTimes(folder: string, output: string, quick: boolean): Promise<BatchTimes['staged']> {
  const [folders, jobsInEach, changed] = [8, quick ? 50 : 250, 5];
  const shop = writeShop(folder, { bodies, folders, jobsInEach, readings }, yamlText);
  const git = (...args: string[]) => execFileSync('git', args, { cwd: folder, stdio: 'ignore' });
  git('init', '-q');
  git('add', '-A');
  git('-c', 'user.name=rk', '-c', 'user.email=rk@invalid', 'commit', '-q', '-m', 'first');
  const checkMs: number[] = [];
  for (let round = 0; round < (quick ? 3 : 9); round++) {
    for (const each of shop.jobs.slice(0, changed))
      appendFileSync(path.join(each, readdirSync(each)[0]), `# seen ${round}\n`);
    git('add', '-A');
    const args = [commandLine, 'check', '--staged', folder];
    checkMs.push(await wholeProcessMs(args, output, new RegExp(`^${changed} files`, 'm'), folder));
  }
  return { jobs: folders * jobsInEach, changed, checkMs };
}
