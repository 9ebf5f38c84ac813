import type { Severity } from '../../model/read/settings';
import type { Paint } from './paint';

/** What `check` found, as plain data that may come from another thread, and what a format makes of it. */

export interface ReportedFinding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** The reason given where the line silences this rule. */
  readonly ignored: string | null;
  /** Line and columns count from 1, columns in UTF-16 units; `endColumn` is the first one after the finding, or after its line. */
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
  /** The line as it stands in the file, its first `longestExcerpt` characters. */
  readonly excerpt: string;
  /** The part of the body that the reading belongs to at which it stands. */
  readonly part: string | null;
  /** What a baseline knows it by; null where none may hold it. */
  readonly about: string | null;
  /** It alone makes `check` fail. */
  readonly fails: boolean;
}

/** More of a line no format prints: one line may be as long as its file. */
export const longestExcerpt = 200;

/** A job in a few lines. */
export interface JobSummary {
  readonly title: string;
  readonly lines: readonly string[];
}

export interface FileFindings {
  readonly path: string;
  readonly findings: readonly ReportedFinding[];
}

/** What is told when all files are through. */
export interface CheckEnd {
  /** Number of files that were looked at. */
  readonly files: number;
  readonly summaries: readonly JobSummary[];
  readonly counts: Readonly<Record<Severity, number>>;
  /** Findings that a comment silences, with a reason. */
  readonly ignored: number;
  /** Findings of the baseline, which are not handed to the format. */
  readonly known: number;
  /** Findings for information that are counted and not handed to the format. */
  readonly hidden: number;
  /** Files that `ignore` and `.gitignore` leave out. */
  readonly leftOut: number;
}

/** Lines to print. Text of a file goes through `printable`, so that it cannot steer a terminal. */
export type Format = LineFormat | DocumentFormat;

/** For people, and for programs that read lines: what was found in a file is printed once it is known. */
export interface LineFormat {
  readonly kind: 'lines';
  /** Of one file; files come in the order of the paths. */
  file(found: FileFindings, paint: Paint): string[];
  /** After the last file; not called where there was none. */
  end(all: CheckEnd, paint: Paint): string[];
}

/** For programs that read one whole document: printed when all files are through, also where there was none. */
export interface DocumentFormat {
  readonly kind: 'document';
  document(all: WholeCheckEnd): string[];
}

export interface WholeCheckEnd extends CheckEnd {
  /** Of every file that was looked at, those without findings too. */
  readonly found: readonly FileFindings[];
  /** What could not be read or looked for, a line each: the answer is not a whole one. */
  readonly unread: readonly string[];
}
