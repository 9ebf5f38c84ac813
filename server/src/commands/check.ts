import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { Workspace } from '../workspace/workspace';
import { type Bounds, checkSelected, type Output, type Printing, type Reporting } from './check-selected';
import type { Target } from './collect';
import { type CheckOptions, fileReport } from './file-report';
import { pathsSelected } from './select';

/** One file after the other, in this thread. */
export function reportingHere(files: Files, judges: Judges = ownJudges): Reporting {
  return async function* (targets, options) {
    const workspace = new Workspace(files, judges);
    for (const target of targets) yield await fileReport(workspace, target, options);
  };
}

/** Reads, judges and prints what paths stand for, in this thread; the exit code is that of `checkSelected`. */
export async function check(
  files: Files,
  paths: readonly Target[],
  options: CheckOptions & Printing & Bounds,
  output: Output,
  reporting: Reporting = reportingHere(files),
): Promise<number> {
  return checkSelected(await pathsSelected(files, paths), options, output, reporting);
}
