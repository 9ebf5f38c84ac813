import type { Diagnostic } from 'vscode-languageserver';
import type { Finding } from '../findings/rule/finding';
import { type LineTable, linesOf } from '../text/lines';
import type { Files } from '../workspace/files';
import type { Analysis } from '../workspace/workspace';
import { diagnosticOf } from './convert';

/** What an editor shows of a file: its findings that are not silenced, with places in other files where those can be read. */
export async function diagnosticsOf(
  analysis: Analysis,
  read: Files['read'],
  rulePages: string | null,
): Promise<Diagnostic[]> {
  const shown = analysis.findings.filter((finding) => finding.ignored === null);
  if (shown.length === 0) return [];
  const lines = linesOf(analysis.text);
  const others = await otherTexts(analysis.uri, shown, read);
  const linesIn = (uri: string): LineTable | null =>
    uri === analysis.uri ? lines : (others.get(uri) ?? null);
  return shown.map((finding) => diagnosticOf(finding, lines, linesIn, rulePages));
}

/** Line tables of the other files that findings of one point into. */
async function otherTexts(
  uri: string,
  findings: readonly Finding[],
  read: Files['read'],
): Promise<Map<string, LineTable>> {
  const tables = new Map<string, LineTable>();
  const others = new Set<string>();
  for (const { related } of findings) for (const each of related) if (each.uri !== uri) others.add(each.uri);
  for (const other of others) {
    const found = await read(other);
    if (found.kind === 'text') tables.set(other, linesOf(found.text));
  }
  return tables;
}
