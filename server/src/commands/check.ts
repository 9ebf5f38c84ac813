import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { Workspace } from '../workspace/workspace';
import { collected, type LeftOutTarget, leftOutLines, type Target } from './collect';
import { type CheckOptions, type FileReport, fileReport } from './file-report';
import type { Format, JobSummary } from './formats/format';
import { defaultFormat, type FormatName, formats } from './formats/format-names';
import { paintOf } from './formats/paint';

export interface Output {
  print(line: string): void;
  complain(line: string): void;
  /** How far a long run has come; shown on a terminal only. */
  progress?(done: number, of: number): void;
}

/** Makes the reports of many files, in any order of work, and gives them in the order of the targets. */
export type Reporting = (targets: readonly Target[], options: CheckOptions) => AsyncIterable<FileReport>;

/** One file after the other, in this thread. */
export function reportingHere(files: Files, judges: Judges = ownJudges): Reporting {
  return async function* (targets, options) {
    const workspace = new Workspace(files, judges);
    for (const target of targets) yield await fileReport(workspace, target, options);
  };
}

/** How it is printed. */
export interface Printing {
  /** Default: for a person at a terminal. */
  readonly format?: FormatName;
  readonly coloured: boolean;
}

/** Reads, judges and prints; the exit code: 0 nothing wrong, 1 a malformed file or a closed job that fails, 2 a path that cannot be read, or a file that the program failed on. */
export async function check(
  files: Files,
  paths: readonly Target[],
  { format: name = defaultFormat, coloured, ...options }: CheckOptions & Printing,
  output: Output,
  reporting: Reporting = reportingHere(files),
): Promise<number> {
  const format: Format = formats[name];
  const paint = paintOf(coloured);
  const { targets, complaints, leftOut } = await allTargets(files, paths);
  complaints.forEach(output.complain);
  leftOutLines(leftOut).forEach(output.complain);
  const summaries: JobSummary[] = [];
  const counts = { error: 0, warning: 0, information: 0 };
  let ignored = 0;
  let hidden = 0;
  let fails = false;
  let unreadable = complaints.length > 0;
  let done = 0;
  for await (const report of reporting(targets, options)) {
    output.progress?.(++done, targets.length);
    if (report.unreadable !== null) {
      output.complain(report.unreadable);
      unreadable = true;
    }
    unreadable ||= report.isFaulty;
    format.file(report, paint).forEach(output.print);
    if (report.summary !== null) summaries.push(report.summary);
    for (const severity of ['error', 'warning', 'information'] as const)
      counts[severity] += report.counts[severity];
    ignored += report.ignored;
    hidden += report.hidden;
    fails ||= report.fails;
  }
  const all = { files: targets.length, summaries, counts, ignored, hidden };
  if (targets.length > 0) format.end(all, paint).forEach(output.print);
  return unreadable ? 2 : fails ? 1 : 0;
}

/** What a check looks at. */
export interface Selection {
  readonly targets: readonly Target[];
  /** What is to be said of paths that stand for no files. */
  readonly complaints: readonly string[];
  readonly leftOut: readonly LeftOutTarget[];
}

/** The files that the paths stand for, each once, and what is to be said of paths that stand for none. */
async function allTargets(files: Files, paths: readonly Target[]): Promise<Selection> {
  const targets = new Map<string, Target>();
  const leftOut = new Map<string, LeftOutTarget>();
  const complaints: string[] = [];
  for (const { uri, path } of paths) {
    const found = await collected(files, uri, path);
    complaints.push(...found.unread.map((line) => `framewright: ${line}`));
    for (const target of found.targets) if (!targets.has(target.uri)) targets.set(target.uri, target);
    for (const each of found.leftOut) leftOut.set(each.uri, each);
  }
  // a file that is named is looked at, whoever leaves it out
  for (const uri of targets.keys()) leftOut.delete(uri);
  return { targets: [...targets.values()], complaints, leftOut: [...leftOut.values()] };
}
