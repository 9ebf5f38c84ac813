import { join } from 'node:path';
import { nodeFiles } from '../node/files';
import type { Making } from '../node/witness';
import { fewestForThreads, isCheckThread, judgingOf, madeByThreads, work } from '../node/workers';
import type { Files } from '../workspace/files';

/** What judges files for `check`, a thread's side of it included. It is loaded where something was not judged before. */

/** By the threads of this machine where there are many files. */
export const madeFromDisk =
  (disk: Files = nodeFiles()): Making =>
  (targets, options) =>
    (targets.length < fewestForThreads
      ? madeHere(disk)
      : madeByThreads(join(import.meta.dirname, 'check-thread.cjs')))(targets, options);

/** In this thread: files that no other thread can see. */
export const madeHere = (files: Files): Making =>
  async function* (targets, options) {
    const judge = judgingOf(files);
    for (const target of targets) yield await judge(target, options);
  };

if (isCheckThread()) work();
