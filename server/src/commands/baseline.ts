import { type BaselineFile, baselineSchema } from '@framewright/schemas';
import type { FileReport } from './file-report';
import type { ReportedFinding } from './formats/format';

/** Findings that were there before somebody began to look: counted, and not shown. They are known by file, rule and name, never by line. */

/** How often each finding of a file is known, by its key. */
export type KnownInFile = ReadonlyMap<string, number>;
/** By path from the folder of the baseline. */
export type Baseline = ReadonlyMap<string, KnownInFile>;

const noneKnown: KnownInFile = new Map();

type Key = readonly [rule: string, severity: string, about: string];

const keyOf = ({ rule, severity, about }: ReportedFinding): string | null =>
  about === null ? null : JSON.stringify([rule, severity, about] satisfies Key);

/** What a baseline says; null where it is damaged, or of a version that is not known here. */
export function baselineFrom(text: string): Baseline | null {
  let parsed: unknown;
  try {
    // some editors put a byte-order mark before it
    parsed = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return null;
  }
  const { success, data } = baselineSchema.safeParse(parsed);
  if (!success) return null;
  const known = new Map<string, Map<string, number>>();
  for (const { file, rule, severity, about, count } of data.known) {
    const ofFile = known.get(file) ?? new Map<string, number>();
    const key = JSON.stringify([rule, severity, about] satisfies Key);
    // a line that a merge left twice says no more than once
    known.set(file, ofFile.set(key, Math.max(ofFile.get(key) ?? 0, count)));
  }
  return known;
}

/** A line for each finding, in an order of its own, so that two people's baselines can be merged. */
export function baselineText(baseline: Baseline): string {
  const lines = sorted(baseline).flatMap(([file, known]) =>
    sorted(known).map(([key, count]) => {
      const [rule, severity, about]: Key = JSON.parse(key);
      return `    ${JSON.stringify({ file, rule, severity, about, count })}`;
    }),
  );
  const list = lines.length === 0 ? '[]' : `[\n${lines.join(',\n')}\n  ]`;
  return `{\n  "framewright": ${JSON.stringify('baseline/1' satisfies BaselineFile['framewright'])},\n  "known": ${list}\n}\n`;
}

const sorted = <Value>(map: ReadonlyMap<string, Value>): [string, Value][] =>
  [...map].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));

export const knownCount = (baseline: Baseline): number =>
  [...baseline.values()].flatMap((known) => [...known.values()]).reduce((sum, count) => sum + count, 0);

/** All findings of a report that a baseline may hold. */
export function knowable({ findings }: Pick<FileReport, 'findings'>): KnownInFile {
  const known = new Map<string, number>();
  for (const finding of findings) {
    const key = keyOf(finding);
    if (key !== null) known.set(key, (known.get(key) ?? 0) + 1);
  }
  return known;
}

/** What is known and still there: never more than was known, never more than was found. */
export const stillThere = (known: KnownInFile, report: Pick<FileReport, 'findings'>): KnownInFile => {
  const found = knowable(report);
  return new Map(
    [...known].flatMap(([key, count]): [string, number][] => {
      const left = Math.min(count, found.get(key) ?? 0);
      return left === 0 ? [] : [[key, left]];
    }),
  );
};

/** A report without what is known: of more findings of one name than that, the last are new. */
export function withoutKnown(report: FileReport, known: KnownInFile = noneKnown): FileReport {
  if (known.size === 0) return report;
  const left = new Map(known);
  const counts = { ...report.counts };
  const findings = report.findings.filter((finding) => {
    const key = keyOf(finding);
    const count = key === null ? 0 : (left.get(key) ?? 0);
    if (key === null || count === 0) return true;
    left.set(key, count - 1);
    counts[finding.severity]--;
    return false;
  });
  return {
    ...report,
    findings,
    counts,
    known: report.findings.length - findings.length,
    // what a signature stands on is never excused
    fails: report.fails && (report.isClosed || report.isFaulty || findings.some(({ fails }) => fails)),
  };
}
