import { faultIn } from '../findings/internal/fault';
import type { Finding } from '../findings/rule/finding';
import type { Severity } from '../model/read/settings';
import { type LineTable, linesOf } from '../text/lines';
import { printable } from '../text/printable';
import { startOf } from '../text/tree';
import { type Analysis, type Fault, faultOf, type Workspace } from '../workspace/workspace';
import { aboutAt, mayBeKnown } from './about';
import type { Target } from './collect';
import { failsAlone, failsCheck } from './exit';
import { type FileFindings, type JobSummary, longestExcerpt, type ReportedFinding } from './formats/format';
import { jobSummary } from './formats/job-summary';

/** What `check` tells of a file. */
export interface CheckOptions {
  /** Open jobs count too. */
  readonly open: boolean;
  /** The summaries of the newest stage stand in a job's lines. */
  readonly summaries: boolean;
  /** Findings for information are told, not counted only. */
  readonly verbose: boolean;
}

/** What `check` says of one file: plain data, so that it may be made in another thread. */
export interface FileReport extends FileFindings {
  /** Of a job. */
  readonly summary: JobSummary | null;
  readonly counts: Readonly<Record<Severity, number>>;
  readonly ignored: number;
  readonly hidden: number;
  /** Findings of the baseline, which count nowhere else. */
  readonly known: number;
  /** Of a job that is signed, as a whole. */
  readonly isClosed: boolean;
  readonly fails: boolean;
  /** The program failed on it, as a finding says. */
  readonly isFaulty: boolean;
  /** Why the file could not be read; null where it was. */
  readonly unreadable: string | null;
  /** Files whose texts, with its own, are all that the report depends on; null where it depends on more: which other files there are. */
  readonly madeFrom: readonly string[] | null;
}

const nothing: Omit<FileReport, 'path'> = {
  findings: [],
  summary: null,
  counts: { error: 0, warning: 0, information: 0 },
  ignored: 0,
  hidden: 0,
  known: 0,
  isClosed: false,
  fails: false,
  isFaulty: false,
  unreadable: null,
  madeFrom: null,
};

/** Reads and judges one file; the program's own failure on it is part of the report. */
export async function fileReport(
  workspace: Workspace,
  target: Target,
  options: CheckOptions,
): Promise<FileReport> {
  const { uri, path } = target;
  try {
    const found = await workspace.analysis(uri);
    if (found.kind === 'fault') return faultReport(target, found);
    if ('findings' in found) return analysisReport(found, path, options);
    return { ...nothing, path, unreadable: printable(`framewright: ${path}: ${found.message}`) };
  } catch (error) {
    return faultReport(target, faultOf(uri, '', 'telling what was found', error));
  }
}

/** What is said of a file that nothing could be found in. */
export const faultReport = ({ path }: Target, fault: Fault): FileReport => ({
  ...nothing,
  path,
  findings: [{ ...reported(fault.finding, linesOf(fault.text), noParts), about: null, fails: true }],
  counts: { ...nothing.counts, error: 1 },
  fails: true,
  isFaulty: true,
});

function analysisReport(
  analysis: Analysis,
  path: string,
  { open, summaries, verbose }: CheckOptions,
): FileReport {
  const lines = linesOf(analysis.text);
  const told = analysis.findings.filter(
    ({ severity, ignored }) => severity !== 'information' || verbose || ignored !== null,
  );
  const parts = partsAt(analysis, told);
  const counts = { error: 0, warning: 0, information: 0 };
  const isClosed = analysis.kind === 'readings' && analysis.job.signOff !== null;
  let ignored = 0;
  for (const finding of analysis.findings) {
    if (finding.ignored !== null) ignored++;
    else counts[finding.severity]++;
  }
  return {
    path,
    findings: told.map((finding) => ({
      ...reported(finding, lines, parts),
      about: mayBeKnown(finding, analysis.tree, isClosed) ? aboutAt(analysis.tree, finding.range) : null,
      fails: failsAlone(finding, analysis, open),
    })),
    summary: analysis.kind === 'readings' ? jobSummary(analysis, path, summaries) : null,
    counts,
    ignored,
    hidden: verbose ? 0 : counts.information,
    known: 0,
    isClosed,
    fails: failsCheck(analysis, open),
    isFaulty: faultIn(analysis.findings) !== null,
    unreadable: null,
    // settings tell what they ignore in vain
    madeFrom:
      analysis.kind === 'settings' || faultIn(analysis.findings) !== null ? null : analysis.dependencies,
  };
}

/** The part that each reading belongs to of which something is told, by the offset at which its row begins. */
function partsAt(analysis: Analysis, told: readonly Finding[]): ReadonlyMap<number, string> {
  if (told.length === 0 || analysis.kind !== 'readings' || analysis.inspection === null) return noParts;
  const wanted = new Set(told.map(({ range }) => range.start));
  const parts = new Map<number, string>();
  for (const { points } of analysis.inspection.stages)
    for (const { point, reading } of points) {
      if (point.part === null) continue;
      const start = startOf(reading.key);
      if (wanted.has(start)) parts.set(start, point.part);
    }
  return parts;
}

const noParts: ReadonlyMap<number, string> = new Map();

function reported(
  { rule, severity, message, ignored, range }: Finding,
  lines: LineTable,
  parts: ReadonlyMap<number, string>,
): Omit<ReportedFinding, 'about' | 'fails'> {
  const start = lines.positionAt(range.start);
  const end = lines.positionAt(range.end);
  const line = lines.lineText(start.line);
  return {
    rule,
    severity,
    message,
    ignored,
    line: start.line + 1,
    column: start.character + 1,
    endColumn: (end.line === start.line ? end.character : line.length) + 1,
    excerpt: line.slice(0, longestExcerpt),
    part: parts.get(range.start) ?? null,
  };
}
