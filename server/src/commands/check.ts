import { linesOf } from '../text/lines';
import type { Files } from '../workspace/files';
import { type Analysis, Workspace } from '../workspace/workspace';
import { collected, type Target } from './collect';
import { failsCheck } from './exit';
import { jobSummary } from './formats/job-summary';
import { paintOf } from './formats/paint';
import { printable } from './formats/printable';
import { findingSnippet } from './formats/snippet';

export interface CheckOptions {
  /** Open jobs count too. */
  readonly open: boolean;
  /** Print the summaries of the newest stage. */
  readonly summaries: boolean;
  /** Findings of severity information are printed. */
  readonly verbose: boolean;
  readonly coloured: boolean;
}

export interface Output {
  print(line: string): void;
  complain(line: string): void;
}

/** Reads, judges and prints; the exit code: 0 nothing wrong, 1 a malformed file or a closed job that fails, 2 a path that cannot be read. */
export async function check(
  files: Files,
  paths: readonly Target[],
  options: CheckOptions,
  output: Output,
): Promise<number> {
  const targets: Target[] = [];
  let unreadable = false;
  for (const { uri, path } of paths) {
    const found = await collected(files, uri, path);
    if ('error' in found) {
      output.complain(`framewright: ${found.error}`);
      unreadable = true;
    } else
      targets.push(...found.targets.filter((target) => !targets.some((other) => other.uri === target.uri)));
  }
  const workspace = new Workspace(files);
  const paint = paintOf(options.coloured);
  const summaries: string[] = [];
  const counts = { error: 0, warning: 0, information: 0 };
  let ignored = 0;
  let fails = false;
  for (const target of targets) {
    const analysis = await workspace.analysis(target.uri);
    if (!('findings' in analysis)) {
      output.complain(printable(`framewright: ${target.path}: ${analysis.message}`));
      unreadable = true;
      continue;
    }
    const lines = linesOf(analysis.text);
    for (const finding of analysis.findings) {
      if (finding.ignored !== null) ignored++;
      else counts[finding.severity]++;
      if (finding.severity === 'information' && !options.verbose && finding.ignored === null) continue;
      for (const line of findingSnippet(finding, target.path, lines, paint)) output.print(line);
      output.print('');
    }
    fails ||= failsCheck(analysis, options.open);
    if (analysis.kind === 'readings')
      summaries.push(...jobSummary(analysis, target.path, paint, options.summaries), '');
  }
  for (const line of summaries) output.print(line);
  if (targets.length > 0) output.print(closingLine(targets.length, counts, ignored, options.verbose));
  return unreadable ? 2 : fails ? 1 : 0;
}

function closingLine(
  files: number,
  counts: Record<'error' | 'warning' | 'information', number>,
  ignored: number,
  verbose: boolean,
): string {
  const some = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;
  const quiet =
    counts.information > 0 && !verbose
      ? ` (--verbose shows ${counts.information === 1 ? 'it' : 'them'})`
      : '';
  const silenced = ignored > 0 ? `, ${ignored} ignored with a reason` : '';
  return `${some(files, 'file')}: ${some(counts.error, 'error')}, ${some(counts.warning, 'warning')}, ${counts.information} for information${quiet}${silenced}`;
}

export type { Analysis };
