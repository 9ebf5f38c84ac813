import { faultIn } from '../findings/internal/fault';
import type { Severity } from '../model/read/settings';
import { linesOf } from '../text/lines';
import { printable } from '../text/printable';
import { type Analysis, type Fault, faultOf, type Workspace } from '../workspace/workspace';
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
  /** The program failed on it, as a finding says. */
  readonly isFaulty: boolean;
  /** Why the file could not be read; null where it was. */
  readonly unreadable: string | null;
}

const nothing = {
  findings: [],
  summary: [],
  counts: { error: 0, warning: 0, information: 0 },
  ignored: 0,
  fails: false,
  isFaulty: false,
};

/** Reads and judges one file; the program's own failure on it is part of the report. */
export async function fileReport(
  workspace: Workspace,
  target: Target,
  options: CheckOptions,
): Promise<FileReport> {
  try {
    const found = await workspace.analysis(target.uri);
    if (found.kind === 'fault') return faultReport(target, options, found);
    if ('findings' in found) return analysisReport(found, target, options);
    return { ...nothing, unreadable: printable(`framewright: ${target.path}: ${found.message}`) };
  } catch (error) {
    return faultReport(target, options, faultOf(target.uri, '', 'printing what was found', error));
  }
}

/** What is said of a file that nothing could be found in. */
export const faultReport = (target: Target, options: CheckOptions, fault: Fault): FileReport => ({
  ...nothing,
  findings: [
    ...findingSnippet(fault.finding, target.path, linesOf(fault.text), paintOf(options.coloured)),
    '',
  ],
  counts: { ...nothing.counts, error: 1 },
  fails: true,
  isFaulty: true,
  unreadable: null,
});

function analysisReport(analysis: Analysis, target: Target, options: CheckOptions): FileReport {
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
    isFaulty: faultIn(analysis.findings) !== null,
    unreadable: null,
  };
}
