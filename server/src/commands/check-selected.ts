import { leftOutLines, type Target } from './collect';
import type { CheckOptions, FileReport } from './file-report';
import type { FileFindings, Format, JobSummary } from './formats/format';
import { defaultFormat, type FormatName, formats } from './formats/format-names';
import { paintOf } from './formats/paint';
import type { Selection } from './select';

/** `check` without what judges: where all was judged before, nothing more is loaded. */

export interface Output {
  print(line: string): void;
  complain(line: string): void;
  /** How far a long run has come; shown on a terminal only. */
  progress?(done: number, of: number): void;
}

/** Makes the reports of many files, in any order of work, and gives them in the order of the targets. */
export type Reporting = (targets: readonly Target[], options: CheckOptions) => AsyncIterable<FileReport>;

/** How it is printed. */
export interface Printing {
  /** Default: for a person at a terminal. */
  readonly format?: FormatName;
  readonly coloured: boolean;
}

/** What makes the exit code 1 beside what is wrong. */
export interface Bounds {
  /** More warnings than these; none given: as many as there are. */
  readonly mostWarnings?: number;
}

/** Judges and prints chosen files; the exit code: 0 nothing wrong, 1 a malformed file, a closed job that fails or too many warnings, 2 a path that cannot be read, or a file that the program failed on. */
export async function checkSelected(
  { targets, complaints, leftOut }: Selection,
  { format: name = defaultFormat, coloured, mostWarnings, ...options }: CheckOptions & Printing & Bounds,
  output: Output,
  reporting: Reporting,
): Promise<number> {
  const format: Format = formats[name];
  const paint = paintOf(coloured);
  complaints.forEach(output.complain);
  leftOutLines(leftOut).forEach(output.complain);
  const found: FileFindings[] = [];
  const unread = [...complaints];
  const summaries: JobSummary[] = [];
  const counts = { error: 0, warning: 0, information: 0 };
  let ignored = 0;
  let known = 0;
  let hidden = 0;
  let fails = false;
  let isFaulty = false;
  let done = 0;
  for await (const report of reporting(targets, options)) {
    output.progress?.(++done, targets.length);
    if (report.unreadable !== null) {
      output.complain(report.unreadable);
      unread.push(report.unreadable);
    }
    isFaulty ||= report.isFaulty;
    if (format.kind === 'lines') format.file(report, paint).forEach(output.print);
    else if (report.unreadable === null) found.push({ path: report.path, findings: report.findings });
    if (report.summary !== null) summaries.push(report.summary);
    for (const severity of ['error', 'warning', 'information'] as const)
      counts[severity] += report.counts[severity];
    ignored += report.ignored;
    known += report.known;
    hidden += report.hidden;
    fails ||= report.fails;
  }
  const all = { files: targets.length, summaries, counts, ignored, known, hidden, leftOut: leftOut.length };
  if (format.kind === 'document') format.document({ ...all, found, unread }).forEach(output.print);
  else if (targets.length > 0) format.end(all, paint).forEach(output.print);
  if (known > 0)
    output.complain(`framewright: ${known} known finding${known === 1 ? '' : 's'} of the baseline not shown`);
  const excess = tooMany(counts.warning, mostWarnings);
  if (excess !== null) output.complain(excess);
  return unread.length > 0 || isFaulty ? 2 : fails || excess !== null ? 1 : 0;
}

const tooMany = (warnings: number, most = Number.POSITIVE_INFINITY): string | null =>
  warnings <= most
    ? null
    : `framewright: ${warnings} warning${warnings === 1 ? '' : 's'}, and --max-warnings lets ${most} pass`;
