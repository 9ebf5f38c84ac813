import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { rulePage } from '../commands/explain';
import { actionsAt } from '../editor/actions';
import { hoverAt } from '../editor/hover';
import { refreshEdits } from '../editor/refresh-actions';
import type { Settings } from '../model/settings';
import { type LineTable, linesOf } from '../text/lines';
import type { FileKind, Files } from '../workspace/files';
import { type Analysis, Workspace } from '../workspace/workspace';
import { clientFiles, withRoots } from './client-files';
import { codeActionOf, diagnosticOf, editOf, hoverOf } from './convert';

const kindOfLanguage: Record<string, FileKind> = {
  'framewright-chassis': 'chassis',
  'framewright-readings': 'readings',
  'framewright-settings': 'settings',
};

/** What the editor's user may choose, under `framewright`. */
interface Configuration {
  readonly severity?: Record<string, string>;
  readonly refreshSummariesOnSave?: boolean;
}

/**
 * One editor's session.
 * @param ownFiles the disk, where there is one; null: the editor is asked for files
 */
export function startSession(connection: Connection, ownFiles: Files | null): void {
  const documents = new TextDocuments(TextDocument);
  let roots: string[] = [];
  let rulePages: string | null = null;
  let files: Files = ownFiles ?? clientFiles(connection);
  let asks = false;
  let refreshOnSave = false;
  let canConfigure = false;
  let canRegister = false;
  const workspace = new Workspace(withRoots({ read: (uri) => files.read(uri), list: (...args) => files.list(...args), root: (uri) => files.root(uri) }, () => roots));
  /** The newest analysis of each open document, by URI, and the files that it was made from. */
  const analyses = new Map<string, { version: number; analysis: Analysis }>();
  /** Documents to be looked at again; the newest edit wins. */
  const due = new Set<string>();
  let running = false;

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    roots = (params.workspaceFolders ?? []).map((folder) => folder.uri);
    const options = (params.initializationOptions ?? {}) as { rulePages?: string; readFilesThroughClient?: boolean; asks?: boolean };
    asks = options.asks === true;
    rulePages = options.rulePages ?? null;
    if (options.readFilesThroughClient) files = clientFiles(connection);
    canRegister = params.capabilities.workspace?.didChangeConfiguration?.dynamicRegistration === true;
    canConfigure = params.capabilities.workspace?.configuration === true;
    return {
      serverInfo: { name: 'framewright' },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, willSaveWaitUntil: true },
        hoverProvider: true,
        codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite', 'source.refreshSummaries'] },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
    };
  });

  connection.onInitialized(async () => {
    connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
      const gone = new Set(removed.map((folder) => folder.uri));
      roots = [...roots.filter((root) => !gone.has(root)), ...added.map((folder) => folder.uri)];
    });
    if (canRegister) await connection.client.register(DidChangeConfigurationNotification.type, { section: 'framewright' });
    await readConfiguration();
    lookAgainAtAll();
  });

  connection.onDidChangeConfiguration(async () => {
    await readConfiguration();
    lookAgainAtAll();
  });

  async function readConfiguration(): Promise<void> {
    if (!canConfigure) return;
    const chosen = ((await connection.workspace.getConfiguration('framewright')) ?? {}) as Configuration;
    workspace.editorSeverities = new Map(Object.entries(chosen.severity ?? {})) as Settings['severities'];
    refreshOnSave = chosen.refreshSummariesOnSave === true;
  }

  const lookAgainAtAll = (): void => {
    for (const document of documents.all()) due.add(document.uri);
    schedule();
  };

  documents.onDidChangeContent(({ document }) => {
    workspace.setOpen(document.uri, document.getText(), kindOfLanguage[document.languageId] ?? null);
    lookAgain(document.uri);
  });

  documents.onDidClose(({ document }) => {
    workspace.setClosed(document.uri);
    analyses.delete(document.uri);
    due.delete(document.uri);
    void connection.sendDiagnostics({ uri: document.uri, diagnostics: [] });
    lookAgain(document.uri);
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) if (!documents.get(uri)) lookAgain(uri);
  });

  /** A file changed: it and whatever open document was made from it. A file that was missing may be what another waits for. */
  function lookAgain(changed: string): void {
    if (documents.get(changed)) due.add(changed);
    for (const [uri, { analysis }] of analyses) {
      if (analysis.dependencies.includes(changed) || changed.endsWith('.framewright.yaml')) due.add(uri);
    }
    schedule();
  }

  function schedule(): void {
    if (running) return;
    running = true;
    // after the message that is being handled, so that a burst of edits is looked at once
    setTimeout(() => void work(), 0);
  }

  async function work(): Promise<void> {
    try {
      for (let [uri] = due; uri !== undefined; [uri] = due) {
        due.delete(uri);
        await lookAt(uri);
      }
    } finally {
      running = false;
    }
    if (due.size > 0) schedule();
  }

  async function lookAt(uri: string): Promise<void> {
    const document = documents.get(uri);
    if (!document) return;
    const { version } = document;
    try {
      const analysis = await workspace.analysis(uri);
      // a newer edit has come meanwhile: its own turn follows
      if (documents.get(uri)?.version !== version || !('findings' in analysis)) return;
      analyses.set(uri, { version, analysis });
      await publish(analysis, version);
    } catch (error) {
      connection.console.error(`${uri}: ${(error as Error).stack ?? error}`);
    }
  }

  async function publish(analysis: Analysis, version: number): Promise<void> {
    const lines = linesOf(analysis.text);
    const others = await otherTexts(analysis);
    const linesIn = (uri: string): LineTable | null => (uri === analysis.uri ? lines : (others.get(uri) ?? null));
    const shown = analysis.findings.filter((finding) => finding.ignored === null);
    await connection.sendDiagnostics({
      uri: analysis.uri,
      version,
      diagnostics: shown.map((finding) => diagnosticOf(finding, lines, linesIn, rulePages)),
    });
  }

  /** Line tables of the other files that findings point into. */
  async function otherTexts(analysis: Analysis): Promise<Map<string, LineTable>> {
    const uris = new Set(analysis.findings.flatMap((finding) => finding.related.map((related) => related.uri)));
    uris.delete(analysis.uri);
    const tables = new Map<string, LineTable>();
    for (const uri of uris) {
      const read = await workspace.read(uri);
      if (read.kind === 'text') tables.set(uri, linesOf(read.text));
    }
    return tables;
  }

  /** The analysis of a document as it stands now. */
  async function current(uri: string): Promise<Analysis | null> {
    const document = documents.get(uri);
    const known = analyses.get(uri);
    if (document && known?.version === document.version && !due.has(uri)) return known.analysis;
    const analysis = await workspace.analysis(uri);
    return 'findings' in analysis ? analysis : null;
  }

  connection.onHover(async ({ textDocument, position }) => {
    const analysis = await current(textDocument.uri);
    if (analysis === null) return null;
    const lines = linesOf(analysis.text);
    const hover = hoverAt(analysis, lines.offsetAt(position.line, position.character));
    return hover && hoverOf(hover, lines);
  });

  connection.onCodeAction(async ({ textDocument, range, context }) => {
    const analysis = await current(textDocument.uri);
    if (analysis === null) return [];
    const lines = linesOf(analysis.text);
    const offset = (position: { line: number; character: number }) => lines.offsetAt(position.line, position.character);
    const moment = { today: new Date().toISOString().slice(0, 10) };
    return actionsAt(analysis, { start: offset(range.start), end: offset(range.end) }, moment)
      .filter((action) => !context.only || context.only.some((kind) => action.kind === kind || action.kind.startsWith(`${kind}.`)))
      .map((action) => codeActionOf(action, textDocument.uri, lines, context.diagnostics, asks));
  });

  documents.onWillSaveWaitUntil(async ({ document }) => {
    const analysis = refreshOnSave ? await current(document.uri) : null;
    if (analysis?.kind !== 'readings') return [];
    const lines = linesOf(analysis.text);
    return refreshEdits(analysis).map((edit) => editOf(edit, lines));
  });

  connection.onRequest('framewright/rulePage', ({ rule }: { rule: string }) => ({ markdown: rulePage(rule) }));

  documents.listen(connection);
  connection.listen();
}
