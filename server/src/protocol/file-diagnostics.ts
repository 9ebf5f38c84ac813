import type { Diagnostic } from 'vscode-languageserver';
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
  const lines = linesOf(analysis.text);
  const others = await otherTexts(analysis, read);
  const linesIn = (uri: string): LineTable | null =>
    uri === analysis.uri ? lines : (others.get(uri) ?? null);
  const shown = analysis.findings.filter((finding) => finding.ignored === null);
  return shown.map((finding) => diagnosticOf(finding, lines, linesIn, rulePages));
}

/** Line tables of the other files that findings point into. */
async function otherTexts({ uri, findings }: Analysis, read: Files['read']): Promise<Map<string, LineTable>> {
  const tables = new Map<string, LineTable>();
  const others = new Set(findings.flatMap(({ related }) => related.map((each) => each.uri)));
  others.delete(uri);
  for (const other of others) {
    const found = await read(other);
    if (found.kind === 'text') tables.set(other, linesOf(found.text));
  }
  return tables;
}
