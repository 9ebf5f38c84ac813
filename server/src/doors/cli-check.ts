import { join } from 'node:path';
import { check, type Output, type Printing, reportingHere } from '../commands/check';
import type { Target } from '../commands/collect';
import type { CheckOptions } from '../commands/file-report';
import { nodeFiles } from '../node/files';
import { fewestForThreads, isCheckThread, reportingByThreads, work } from '../node/workers';
import { sharedReads } from '../workspace/shared-reads';

/** `check` as the command line loads it, a thread's side of it included: the command that must start at once. */
export function checked(
  paths: readonly Target[],
  options: CheckOptions & Printing,
  output: Output,
): Promise<number> {
  const files = nodeFiles();
  return check(files, paths, options, output, (targets, each) =>
    (targets.length < fewestForThreads
      ? reportingHere(sharedReads(files, files.read))
      : reportingByThreads(join(import.meta.dirname, 'check-thread.cjs')))(targets, each),
  );
}

if (isCheckThread()) work();
