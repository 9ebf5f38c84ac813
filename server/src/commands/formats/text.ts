import { printable } from '../../text/printable';
import type { CheckEnd, FileFindings, LineFormat, ReportedFinding } from './format';
import type { Paint } from './paint';

/** For a person at a terminal: each finding with its line and a caret under it, then each job in a few lines, then the counts. */
export const text: LineFormat = {
  kind: 'lines',
  file: ({ path, findings }: FileFindings, paint) =>
    findings.flatMap((finding) => [...snippet(finding, path, paint), '']),
  end: (all, paint) => [
    ...all.summaries.flatMap(({ title, lines }) => [paint.bold(title), ...lines, '']),
    closingLine(all),
  ],
};

function snippet(finding: ReportedFinding, path: string, paint: Paint): string[] {
  const { severity, line, column, endColumn, ignored } = finding;
  const where = paint.bold(`${printable(path)}:${line}:${column}`);
  const label = ignored === null ? `${severity}:` : `${severity} (ignored):`;
  const rule = paint.dim(`[${finding.rule}]`);
  const gutter = String(line);
  const before = Math.min(column - 1, widest);
  const carets = '^'.repeat(Math.max(1, Math.min(endColumn - column, widest - (column - 1))));
  return [
    `${where}: ${paint.severity(severity, label)} ${printable(finding.message)} ${rule}`,
    `  ${paint.dim(`${gutter} |`)} ${clipped(printable(finding.excerpt))}`,
    `  ${paint.dim(`${' '.repeat(gutter.length)} |`)} ${' '.repeat(before)}${paint.severity(severity, carets)}`,
    ...(ignored === null ? [] : [`  ${paint.dim(`ignored here: ${printable(ignored)}`)}`]),
  ];
}

/** Of a longer line so many characters are shown; less than an excerpt has. */
const widest = 120;

const clipped = (line: string): string => (line.length > widest ? `${line.slice(0, widest)}…` : line);

function closingLine({ files, counts, ignored, hidden }: CheckEnd): string {
  const some = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;
  const quiet = hidden > 0 ? ` (--verbose shows ${hidden === 1 ? 'it' : 'them'})` : '';
  const silenced = ignored > 0 ? `, ${ignored} ignored with a reason` : '';
  return `${some(files, 'file')}: ${some(counts.error, 'error')}, ${some(counts.warning, 'warning')}, ${counts.information} for information${quiet}${silenced}`;
}
