import type { Severity } from '../../model/read/settings';
import type { FileFindings, ReportedFinding } from './format';

/** A finding with the path of its file. */
export interface Located {
  readonly path: string;
  readonly finding: ReportedFinding;
}

const rank: Record<Severity, number> = { error: 0, warning: 1, information: 2 };

/** Hosts that show few show the first ones: errors before warnings, else in the order of the files and lines. */
export const worstFirst = (found: readonly FileFindings[]): Located[] =>
  found
    .flatMap(({ path, findings }) => findings.map((finding) => ({ path, finding })))
    .sort((a, b) => rank[a.finding.severity] - rank[b.finding.severity]);

/** Findings of one part of a file, or of one rule where no part is known, of one severity: the first of them, and how many more there are. */
export interface Folded extends Located {
  readonly more: number;
}

/** Where a host shows ten, ten holes of one rail must not hide the other rail. */
export function foldedByPart(all: readonly Located[]): Folded[] {
  const folded = new Map<string, Folded>();
  for (const located of all) {
    const { path, finding } = located;
    const key = JSON.stringify([
      path,
      finding.severity,
      finding.part,
      finding.part === null ? finding.rule : '',
    ]);
    const known = folded.get(key);
    folded.set(key, known === undefined ? { ...located, more: 0 } : { ...known, more: known.more + 1 });
  }
  return [...folded.values()];
}

/** What a comment does not silence. */
export const notIgnored = (all: readonly Located[]): Located[] =>
  all.filter(({ finding }) => finding.ignored === null);
