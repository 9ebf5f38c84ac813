import type { Finding } from '../../findings/rule/finding';
import type { LineTable } from '../../text/lines';
import { printable } from '../../text/printable';
import type { Paint } from './paint';

/** One finding as a terminal shows it: where, what, and the line with a caret under it. */
export function findingSnippet(finding: Finding, path: string, lines: LineTable, paint: Paint): string[] {
  const start = lines.positionAt(finding.range.start);
  const end = lines.positionAt(finding.range.end);
  const where = `${printable(path)}:${start.line + 1}:${start.character + 1}`;
  const severity = severityLabel(finding, paint);
  const head = `${paint.bold(where)}: ${severity} ${printable(finding.message)} ${paint.dim(`[${finding.rule}]`)}`;
  const source = printable(lines.lineText(start.line));
  const gutter = String(start.line + 1);
  const stop = end.line === start.line ? end.character : source.length;
  const carets = '^'.repeat(Math.max(1, Math.min(stop, source.length) - start.character));
  const body = [
    `  ${paint.dim(`${gutter} |`)} ${clipped(source)}`,
    `  ${paint.dim(`${' '.repeat(gutter.length)} |`)} ${' '.repeat(Math.min(start.character, widest))}${paint.severity(finding.severity, clippedCarets(carets, start.character))}`,
  ];
  const related =
    finding.ignored === null ? [] : [`  ${paint.dim(`ignored here: ${printable(finding.ignored)}`)}`];
  return [head, ...body, ...related];
}

const widest = 120;

const clipped = (line: string): string => (line.length > widest ? `${line.slice(0, widest)}…` : line);
const clippedCarets = (carets: string, from: number): string => carets.slice(0, Math.max(1, widest - from));

function severityLabel(finding: Finding, paint: Paint): string {
  const label = finding.ignored === null ? finding.severity : `${finding.severity} (ignored)`;
  return paint.severity(finding.severity, `${label}:`);
}
