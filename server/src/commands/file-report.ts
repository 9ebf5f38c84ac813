import type { Severity } from '../model/read/settings';
import { linesOf } from '../text/lines';
import { printable } from '../text/printable';
import type { Workspace } from '../workspace/workspace';
import type { Target } from './collect';
import { failsCheck } from './exit';
import { jobSummary } from './formats/job-summary';
import { paintOf } from './formats/paint';
import { findingSnippet } from './formats/snippet';

/** How `check` prints. */
export interface CheckOptions {
  /** Open jobs count too. */
  readonly open: boolean;
  /** Print the summaries of the newest stage. */
  readonly summaries: boolean;
  /** Findings of severity information are printed. */
  readonly verbose: boolean;
  readonly coloured: boolean;
}

/** What `check` says of one file: plain data, so that it may be made in another thread. */
export interface FileReport {
  readonly findings: readonly string[];
  readonly summary: readonly string[];
  readonly counts: Readonly<Record<Severity, number>>;
  readonly ignored: number;
  readonly fails: boolean;
  /** Why the file could not be read; null where it was. */
  readonly unreadable: string | null;
}

const nothing = {
  findings: [],
  summary: [],
  counts: { error: 0, warning: 0, information: 0 },
  ignored: 0,
  fails: false,
};

/** Reads and judges one file. */
export async function fileReport(
  workspace: Workspace,
  target: Target,
  options: CheckOptions,
): Promise<FileReport> {
  const analysis = await workspace.analysis(target.uri);
  if (!('findings' in analysis))
    return { ...nothing, unreadable: printable(`framewright: ${target.path}: ${analysis.message}`) };
  const paint = paintOf(options.coloured);
  const lines = linesOf(analysis.text);
  const counts = { error: 0, warning: 0, information: 0 };
  const findings: string[] = [];
  let ignored = 0;
  for (const finding of analysis.findings) {
    if (finding.ignored !== null) ignored++;
    else counts[finding.severity]++;
    if (finding.severity === 'information' && !options.verbose && finding.ignored === null) continue;
    findings.push(...findingSnippet(finding, target.path, lines, paint), '');
  }
  return {
    findings,
    summary:
      analysis.kind === 'readings'
        ? [...jobSummary(analysis, target.path, paint, options.summaries), '']
        : [],
    counts,
    ignored,
    fails: failsCheck(analysis, options.open),
    unreadable: null,
  };
}
