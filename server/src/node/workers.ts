import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Target } from '../commands/collect';
import { type CheckOptions, type FileReport, faultReport, fileReport } from '../commands/file-report';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { sharedReads } from '../workspace/shared-reads';
import { faultOf, Workspace } from '../workspace/workspace';
import { nodeFiles } from './files';
import { type Made, type Making, withSources, witnessed } from './witness';
import { keptYoung } from './young-objects';

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

/** What a thread says: that it has begun, or the reports of a share. */
type Said = { readonly ready: true } | { readonly first: number; readonly made: Made[] };

interface Thread {
  readonly worker: Worker;
  /** Handed to it and not yet reported. */
  readonly shares: Map<number, Share>;
  isReady: boolean;
  error: unknown;
}

/**
 * Reports made by all cores, this thread among them. Of a thread that dies every file is looked at again, by a thread that gets one at a
 * time: which dies as well has died of its file, and that file says so.
 */
export function madeByThreads(script: string, cores = availableParallelism()): Making {
  return async function* (targets, options) {
    const asBefore = keptYoung();
    const crew = new Crew(script, targets, options, cores);
    try {
      for (let i = 0; i < targets.length; i++) yield await crew.reportOf(i);
    } finally {
      await crew.dismiss();
      asBefore();
    }
  };
}

class Crew {
  private readonly reports: (Made | undefined)[];
  private next = 0;
  /** By number, files of threads that died. */
  private readonly again: number[] = [];
  /** Files of threads that could not even begin: no fault of theirs. */
  private readonly ours: number[] = [];
  private readonly threads = new Set<Thread>();
  private readonly count: number;
  private careful: Thread | null = null;
  private isDismissed = false;
  private wake = (): void => {};
  private readonly judging = judgingOfDisk();

  constructor(
    private readonly script: string,
    private readonly targets: readonly Target[],
    private readonly options: CheckOptions,
    cores: number,
  ) {
    this.reports = new Array(targets.length);
    this.count = Math.min(cores, Math.ceil(targets.length / portion)) - 1;
    for (let i = 0; i < this.count; i++) {
      const thread = this.begun();
      for (let portions = 0; portions < portionsAtHand; portions++) this.handNext(thread);
    }
  }

  /** Works itself while there is something to do. */
  async reportOf(i: number): Promise<Made> {
    for (let report = this.reports[i]; ; report = this.reports[i]) {
      this.reports[i] = undefined;
      if (report !== undefined) return report;
      const own = this.ours.shift() ?? (this.next < this.targets.length ? this.next++ : null);
      if (own !== null) {
        this.reports[own] = await this.judging(this.targets[own], this.options);
        // what the others have to say is heard between two files
        await new Promise<void>((resolve) => setImmediate(resolve));
      } else
        await new Promise<void>((resolve) => {
          this.wake = resolve;
        });
    }
  }

  async dismiss(): Promise<void> {
    this.isDismissed = true;
    await Promise.all([...this.threads].map(({ worker }) => worker.terminate()));
  }

  private begun(): Thread {
    const workerData = { options: this.options, checks: true };
    const worker = new Worker(this.script, { workerData, resourceLimits });
    const thread: Thread = { worker, shares: new Map(), isReady: false, error: null };
    this.threads.add(thread);
    worker.on('message', (said: Said) => this.heard(thread, said));
    worker.on('error', (error) => {
      thread.error = error;
    });
    worker.on('exit', (code) => this.lost(thread, thread.error ?? `the thread ended with code ${code}`));
    return thread;
  }

  private heard(thread: Thread, said: Said): void {
    if ('ready' in said) {
      thread.isReady = true;
      return;
    }
    thread.shares.delete(said.first);
    said.made.forEach((report, i) => {
      this.reports[said.first + i] = report;
    });
    if (thread === this.careful) this.handAgain();
    else this.handNext(thread);
    this.wake();
  }

  private handNext(thread: Thread): void {
    const left = this.targets.length - this.next;
    if (left <= 0) return;
    const size = Math.min(portion, Math.ceil(left / (4 * this.count)));
    this.hand(thread, this.next, size);
    this.next += size;
  }

  private hand({ worker, shares }: Thread, first: number, size: number): void {
    const share: Share = { first, targets: this.targets.slice(first, first + size) };
    shares.set(first, share);
    worker.postMessage(share);
  }

  /** To a thread that has one file at hand at most. */
  private handAgain(): void {
    const next = this.again.shift();
    if (next === undefined) return;
    this.careful ??= this.begun();
    this.hand(this.careful, next, 1);
  }

  private lost(thread: Thread, error: unknown): void {
    this.threads.delete(thread);
    if (this.isDismissed) return;
    const left = [...thread.shares.values()].flatMap(({ first, targets }) =>
      targets.map((_, i) => first + i),
    );
    if (thread === this.careful) {
      this.careful = null;
      if (thread.isReady) for (const i of left) this.reports[i] = this.faulty(this.targets[i], error);
      else this.ours.push(...left, ...this.again.splice(0));
      this.handAgain();
    } else if (thread.isReady) {
      this.again.push(...left);
      if (this.careful === null || this.careful.shares.size === 0) this.handAgain();
    } else this.ours.push(...left);
    this.wake();
  }

  private faulty(target: Target, error: unknown): Made {
    return unwitnessed(faultReport(target, faultOf(target.uri, '', 'the thread that judged it', error)));
  }
}

const unwitnessed = (report: FileReport): Made => ({ report, witnessed: null });

/** Judges one file after the other. What many have in common is read once: a check looks at the files as they stand when it begins. */
export function judgingOf(
  disk: Files,
  judges: Judges = ownJudges,
): (target: Target, options: CheckOptions) => Promise<Made> {
  const files = witnessed(disk);
  const workspace = new Workspace(sharedReads(files, files.read), judges);
  return async (target, options) => {
    const report = await fileReport(workspace, target, options);
    return { report, witnessed: withSources(report, target.uri, files) };
  };
}

const judgingOfDisk = (judges: Judges = ownJudges) => judgingOf(nodeFiles(), judges);

/** The thread's own side: makes the reports of each share that it is handed. */
export function work(judges: Judges = ownJudges): void {
  const { options }: { options: CheckOptions } = workerData;
  const judging = judgingOfDisk(judges);
  let strayed: { readonly error: unknown } | null = null;
  const stray = (error: unknown): void => {
    strayed ??= { error };
  };
  process.on('uncaughtException', stray);
  process.on('unhandledRejection', stray);
  const reportOf = async (target: Target): Promise<Made> => {
    const made = await judging(target, options);
    // what strays from this file is heard of before the next one
    await new Promise<void>((resolve) => setImmediate(() => setImmediate(resolve)));
    if (strayed === null) return made;
    const { error } = strayed;
    strayed = null;
    return unwitnessed(
      faultReport(target, faultOf(target.uri, '', 'something that it did not wait for', error)),
    );
  };
  // a share may come while another is being worked on
  let done: Promise<void> = Promise.resolve();
  parentPort?.on('message', ({ first, targets }: Share) => {
    done = done.then(async () => {
      const made: Made[] = [];
      for (const target of targets) made.push(await reportOf(target));
      parentPort?.postMessage({ first, made } satisfies Said);
    });
  });
  parentPort?.postMessage({ ready: true } satisfies Said);
}

/** In a thread that was begun for a check. */
export const isCheckThread = (): boolean => !isMainThread && workerData?.checks === true;
