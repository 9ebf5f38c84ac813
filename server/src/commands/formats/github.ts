import type { Severity } from '../../model/read/settings';
import { printable } from '../../text/printable';
import type { DocumentFormat } from './format';
import { type Folded, foldedByPart, notIgnored, worstFirst } from './worst-first';

/**
 * Workflow commands of GitHub Actions, one a line, which become annotations of a pull request. Ten of a kind are shown: the worst come first
 * and those of one part are one. Source: "Workflow commands for GitHub Actions", the host's documentation.
 */
export const github: DocumentFormat = {
  kind: 'document',
  document: ({ found, unread }) => [
    ...unread.map((line) => `::error title=not read::${data(printable(line))}`),
    ...foldedByPart(notIgnored(worstFirst(found))).map(annotation),
  ],
};

const command: Record<Severity, string> = { error: 'error', warning: 'warning', information: 'notice' };

function annotation({ path, finding, more }: Folded): string {
  const { rule, severity, message, line, column, endColumn, part } = finding;
  const where = { file: path, line, col: column, endColumn, title: rule };
  const properties = Object.entries(where).map(
    ([name, value]) => `${name}=${property(printable(String(value)))}`,
  );
  const others =
    more === 0 ? '' : ` (and ${more} more ${part === null ? 'of this rule' : `of ${part}`} in this file)`;
  return `::${command[severity]} ${properties.join(',')}::${data(printable(`${message}${others}`))}`;
}

const data = (text: string): string =>
  text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');

const property = (text: string): string => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
