import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Reporting } from '../commands/check';
import type { Target } from '../commands/collect';
import { type CheckOptions, type FileReport, fileReport } from '../commands/file-report';
import { sharedReads } from '../workspace/shared-reads';
import { Workspace } from '../workspace/workspace';
import { nodeFiles } from './files';

/** Below this many files starting threads costs more than it saves. */
export const fewestForThreads = 64;
/** So many files are handed out at a time, towards the end fewer, so that all end together. */
const portion = 8;
/** A thread has so many portions at hand: it need not wait for the next until this one has heard that it is done. */
const portionsAtHand = 2;

/** A job's objects live as long as the job: with room for several, most are gone before anyone has to look for them. */
const resourceLimits = { maxYoungGenerationSizeMb: 96 };

interface Share {
  readonly first: number;
  readonly targets: readonly Target[];
}

/** Reports made by all cores, this thread among them. A thread that dies takes the run with it: half a check is none. */
export function reportingByThreads(script: string): Reporting {
  return async function* (targets, options) {
    const count = Math.min(availableParallelism(), Math.ceil(targets.length / portion)) - 1;
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
      const size = Math.min(portion, Math.ceil((targets.length - next) / (4 * workers.length)));
      worker.postMessage({ first: next, targets: targets.slice(next, next + size) } satisfies Share);
      next += size;
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
      for (let i = 0; i < portionsAtHand; i++) hand(worker);
    }
    const workspace = workspaceOfDisk();
    try {
      for (let i = 0; i < targets.length; i++) {
        while (reports[i] === undefined) {
          if (failure) throw failure;
          if (next < targets.length) {
            const own = next++;
            reports[own] = await fileReport(workspace, targets[own], options);
            // what the others have to say is heard between two files
            await new Promise<void>((resolve) => setImmediate(resolve));
          } else
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

/** What many files have in common is read once: a check looks at the files as they stand when it begins. */
function workspaceOfDisk(): Workspace {
  const files = nodeFiles();
  return new Workspace(sharedReads(files, files.read));
}

/** The thread's own side: makes the reports of each share that it is handed. */
function work({ options }: { options: CheckOptions }): void {
  const workspace = workspaceOfDisk();
  // a share may come while another is being worked on
  let done: Promise<void> = Promise.resolve();
  parentPort?.on('message', ({ first, targets }: Share) => {
    done = done.then(async () => {
      const made: FileReport[] = [];
      for (const target of targets) made.push(await fileReport(workspace, target, options));
      parentPort?.postMessage({ first, made });
    });
  });
}

if (!isMainThread && (workerData as { checks?: boolean } | null)?.checks)
  work(workerData as { options: CheckOptions });
