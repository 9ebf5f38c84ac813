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
  const check = (folders: number) => {
    const files = bodies + folders * jobsInEach;
    const paths = [shop.specs, ...shop.jobs.slice(0, folders)];
    return wholeProcessMs([commandLine, 'check', ...paths], output, new RegExp(`^${files} files`, 'm'));
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
    for (const [folders, times] of checked) times.push(await check(folders));
    shapeMs.push(await shape(8));
  }
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
    exponent: growthExponent(growth.map(({ jobs, medianMs }) => [jobs, medianMs])),
    exponentOfJobs: growthExponent(growth.map(({ jobs, medianMs }) => [jobs, medianMs - withoutJobsMs])),
  };
}
