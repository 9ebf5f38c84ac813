import { judgingVersions } from '@framewright/schemas/versions';
import type { Severity } from '../../model/read/settings';
import { printable } from '../../text/printable';
import type { DocumentFormat, WholeCheckEnd } from './format';
import { type Located, worstFirst } from './worst-first';

/** Static Analysis Results Interchange Format 2.1.0, one run. Source: OASIS Standard "SARIF Version 2.1.0", 2020. */
export const sarif: DocumentFormat = {
  kind: 'document',
  document: (all) => [JSON.stringify(logOf(all), null, 2)],
};

function logOf({ found, unread }: WholeCheckEnd) {
  const located = worstFirst(found);
  const names = [...new Set(located.map(({ finding }) => finding.rule))].sort();
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: { name: 'framewright', version: judgingVersions.at(-1), rules: names.map(descriptorOf) },
        },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: unread.length === 0,
            toolExecutionNotifications: unread.map((line) => ({
              level: 'error',
              message: { text: printable(line) },
            })),
          },
        ],
        results: located.map((each) => resultOf(each, names.indexOf(each.finding.rule))),
      },
    ],
  };
}

const levels: Record<Severity, string> = { error: 'error', warning: 'warning', information: 'note' };

/** The pages of the rules are not here: a check whose answers were kept loads no rule. */
const descriptorOf = (id: string) => ({ id, help: { text: `“framewright explain ${id}” prints its page.` } });

function resultOf({ path, finding }: Located, ruleIndex: number) {
  const { rule, severity, message, ignored, line, column, endColumn } = finding;
  return {
    ruleId: rule,
    ruleIndex,
    level: levels[severity],
    message: { text: printable(message) },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: uriOf(path) },
          region: { startLine: line, startColumn: column, endColumn: Math.max(column, endColumn) },
        },
      },
    ],
    ...(ignored === null ? {} : { suppressions: [{ kind: 'inSource', justification: printable(ignored) }] }),
  };
}

/** A path as a reference of RFC 3986; half a character of UTF-16 has none. */
const uriOf = (path: string): string =>
  path
    .replaceAll('\\', '/')
    .split('/')
    .map((segment) => encodeURIComponent(segment.replace(/\p{Surrogate}/gu, '\ufffd')))
    .join('/');
