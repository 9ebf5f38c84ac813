import type { Severity } from '../../model/read/settings';
import { printable } from '../../text/printable';
import type { DocumentFormat, ReportedFinding } from './format';
import { type Located, notIgnored, worstFirst } from './worst-first';

/** One object of the Reviewdog Diagnostic Format, whose columns count bytes of UTF-8. Source: `proto/rdf` of the reviewdog project. */
export const rdjson: DocumentFormat = {
  kind: 'document',
  document: ({ found, unread }) => {
    const diagnostics = [
      ...unread.map((line) => ({
        message: printable(line),
        location: { path: '.' },
        severity: 'ERROR',
        code: { value: 'not-read' },
      })),
      ...notIgnored(worstFirst(found)).map(diagnosticOf),
    ];
    return [JSON.stringify({ source: { name: 'framewright' }, diagnostics }, null, 2)];
  },
};

const severities: Record<Severity, string> = { error: 'ERROR', warning: 'WARNING', information: 'INFO' };

const diagnosticOf = ({ path, finding }: Located) => ({
  message: printable(finding.message),
  location: { path: printable(path), range: rangeOf(finding) },
  severity: severities[finding.severity],
  code: { value: finding.rule },
});

/** The line alone where a column lies behind what is known of it. */
function rangeOf({ line, column, endColumn, excerpt }: ReportedFinding) {
  const byte = (at: number): number | null =>
    at - 1 > excerpt.length ? null : new TextEncoder().encode(excerpt.slice(0, at - 1)).length + 1;
  const [start, end] = [byte(column), byte(endColumn)];
  if (start === null) return { start: { line } };
  return { start: { line, column: start }, ...(end === null ? {} : { end: { line, column: end } }) };
}
