import type { Diagnostic } from 'vscode-languageserver';
import type { Finding } from '../findings/rule/finding';
import { type LineTable, linesOf } from '../text/lines';
import type { Files } from '../workspace/files';
import type { Found } from '../workspace/whole-check';
import { faultOf } from '../workspace/workspace';
import { diagnosticOf } from './convert';

/**
 * What an editor shows of a file, whatever it turned out to be: its findings that are not silenced, with places in other files where
 * those can be read.
 */
export async function diagnosticsOf(
  found: Found,
  read: Files['read'],
  rulePages: string | null,
): Promise<Diagnostic[]> {
  if (found.kind !== 'fault' && !('findings' in found)) return [];
  const findings = found.kind === 'fault' ? [found.finding] : found.findings;
  const shown = findings.filter((finding) => finding.ignored === null);
  if (shown.length === 0) return [];
  const lines = linesOf(found.text);
  const others = await otherTexts(found.uri, shown, read);
  const linesIn = (uri: string): LineTable | null => (uri === found.uri ? lines : (others.get(uri) ?? null));
  return shown.map((finding) => diagnosticOf(finding, lines, linesIn, rulePages));
}

/** What an editor shows of a file whose findings could not be told: that, in place of older ones. */
export const untold = (uri: string, text: string, error: unknown): Diagnostic[] => {
  const { finding } = faultOf(uri, text, 'telling what was found', error);
  return [diagnosticOf(finding, linesOf(text), () => null, null)];
};

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
