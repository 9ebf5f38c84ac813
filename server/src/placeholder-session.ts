// TO BE REPLACED by protocol/: just enough of a language server to prove the build and the editor's side.
import { type Connection, DiagnosticSeverity, TextDocumentSyncKind, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import chi from '@stdlib/stats-base-dists-chisquare-quantile';
import { SingularValueDecomposition } from 'ml-matrix';
import { parseDocument } from 'yaml';

export const placeholderSession = (connection: Connection): void => {
  const documents = new TextDocuments(TextDocument);
  let pages = '';
  connection.onInitialize(({ initializationOptions }) => {
    pages = initializationOptions?.rulePages ?? '';
    return { capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental, hoverProvider: true, codeActionProvider: true } };
  });
  connection.onRequest('framewright/rulePage', ({ rule }) => ({ markdown: `# ${rule}\n\nPlaceholder ${chi(0.95, 3)}\n` }));
  documents.onDidChangeContent(({ document }) => {
    parseDocument(document.getText());
    new SingularValueDecomposition([[1, 2], [3, 4]]);
    const at = document.getText().indexOf('raill-tip-upper.R');
    const diagnostics = at < 0 ? [] : [{
      range: { start: document.positionAt(at), end: document.positionAt(at + 17) },
      severity: DiagnosticSeverity.Error, source: 'framewright', code: 'name/unknown-point',
      codeDescription: pages ? { href: `${pages}name/unknown-point.md` } : undefined,
      message: 'placeholder: raill-tip-upper.R is not a point',
    }];
    const up = document.getText().indexOf('rail-tip-upper.L:');
    if (up >= 0) diagnostics.push({ range: { start: document.positionAt(up), end: document.positionAt(up + 16) }, severity: 1, source: 'framewright', code: 'reading/outside', codeDescription: pages ? { href: `${pages}reading/outside.md` } : undefined, message: 'rail-tip-upper.L is 10.2 mm too far left (outboard)' });
    void connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics });
  });
  connection.onHover(() => ({ contents: '3012 placeholder outside left' }));
  connection.onCodeAction(({ context, range, textDocument }) => [
    ...context.diagnostics.filter(({ code }) => code === 'name/unknown-point').map((diagnostic) => ({
      title: 'Change to rail-tip-upper.R', kind: 'quickfix', diagnostics: [diagnostic], isPreferred: true,
      edit: { changes: { [textDocument.uri]: [{ range: diagnostic.range, newText: 'rail-tip-upper.R' }] } },
    })),
    ...['twist', 'sweep'].map((kind) => ({
      title: `Insert ${kind} summary`, kind: 'source',
      edit: { changes: { [textDocument.uri]: [{ range: { start: { line: range.start.line + 1, character: 0 }, end: { line: range.start.line + 1, character: 0 } },
        newText: `    summary:\n      front-rail.L ${kind}: 3.2 ± 0.4\n` }] } },
    })),
  ]);
  documents.listen(connection);
  connection.listen();
};
