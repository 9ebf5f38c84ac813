import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Reporting } from './commands/check';
import type { Target } from './commands/collect';
import { type CheckOptions, type FileReport, fileReport } from './commands/file-report';
import { nodeFiles } from './node-files';
import { Workspace } from './workspace/workspace';

/** Below this many files starting threads costs more than it saves. */
export const fewestForThreads = 64;
/** So many files are handed out at a time: enough to keep a thread busy, few enough that all end together. */
const portion = 16;

/** A job's objects live as long as the job: with room for several, most are gone before anyone has to look for them. */
const resourceLimits = { maxYoungGenerationSizeMb: 96 };

interface Share {
  readonly first: number;
  readonly targets: readonly Target[];
}

/** Reports made by all cores. A thread that dies takes the run with it: half a check is none. */
export function reportingByThreads(script: string): Reporting {
  return async function* (targets, options) {
    const count = Math.min(availableParallelism(), Math.ceil(targets.length / portion));
    const reports = new Array<FileReport | undefined>(targets.length);
    let next = 0;
    let failure: Error | null = null;
    let wake = (): void => {};
    const workers = Array.from(
      { length: count },
      () => new Worker(script, { workerData: { options, checks: true }, resourceLimits }),
    );
    const hand = (worker: Worker): void => {
      if (next >= targets.length) return;
      worker.postMessage({ first: next, targets: targets.slice(next, next + portion) } satisfies Share);
      next += portion;
    };
    for (const worker of workers) {
      worker.on('message', ({ first, made }: { first: number; made: FileReport[] }) => {
        made.forEach((report, i) => {
          reports[first + i] = report;
        });
        hand(worker);
        wake();
      });
      worker.on('error', (error) => {
        failure = error as Error;
        wake();
      });
      hand(worker);
    }
    try {
      for (let i = 0; i < targets.length; i++) {
        while (reports[i] === undefined) {
          if (failure) throw failure;
          await new Promise<void>((resolve) => {
            wake = resolve;
          });
        }
        yield reports[i]!;
        reports[i] = undefined;
      }
    } finally {
      await Promise.all(workers.map((worker) => worker.terminate()));
    }
  };
}

/** The thread's own side: makes the reports of each share that it is handed. */
function work({ options }: { options: CheckOptions }): void {
  const workspace = new Workspace(nodeFiles());
  parentPort?.on('message', async ({ first, targets }: Share) => {
    const made: FileReport[] = [];
    for (const target of targets) made.push(await fileReport(workspace, target, options));
    parentPort?.postMessage({ first, made });
  });
}

if (!isMainThread && (workerData as { checks?: boolean } | null)?.checks)
  work(workerData as { options: CheckOptions });
