import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Settings } from '../model/settings';
import type { FileKind, Files } from '../workspace/files';
import { Workspace } from '../workspace/workspace';
import { clientFiles, withRoots } from './client-files';
import { Diagnostics } from './diagnostics';
import { features } from './features';
import type { Configuration, EditorOptions, Session } from './session';

const kindOfLanguage: Record<string, FileKind> = {
  'framewright-chassis': 'chassis',
  'framewright-readings': 'readings',
  'framewright-settings': 'settings',
};

/**
 * Starts one editor's session.
 * @param ownFiles the disk, where there is one; null: the editor is asked for files
 */
export function startSession(connection: Connection, ownFiles: Files | null): void {
  const documents = new TextDocuments(TextDocument);
  let roots: string[] = [];
  let files: Files = ownFiles ?? clientFiles(connection);
  let options: EditorOptions = { rulePages: null, asks: false, resolvesEdits: false };
  let configuration: Configuration = {};
  let can = { configure: false, register: false };
  const throughFiles: Files = {
    read: (uri) => files.read(uri),
    list: (folder, ignored) => files.list(folder, ignored),
    root: (uri) => files.root(uri),
  };
  const workspace = new Workspace(withRoots(throughFiles, () => roots));
  const diagnostics = new Diagnostics(connection, documents, workspace, () => options.rulePages);
  const session: Session = {
    connection,
    documents,
    workspace,
    options: () => options,
    configuration: () => configuration,
    current: (uri) => diagnostics.current(uri),
    roots: () => roots,
  };

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    roots = (params.workspaceFolders ?? []).map((folder) => folder.uri);
    const given = (params.initializationOptions ?? {}) as Partial<EditorOptions> & {
      readFilesThroughClient?: boolean;
    };
    const resolvable = params.capabilities.textDocument?.codeAction?.resolveSupport?.properties ?? [];
    options = {
      rulePages: given.rulePages ?? null,
      asks: given.asks === true,
      resolvesEdits: resolvable.includes('edit'),
    };
    if (given.readFilesThroughClient) files = clientFiles(connection);
    const { workspace: able } = params.capabilities;
    can = {
      configure: able?.configuration === true,
      register: able?.didChangeConfiguration?.dynamicRegistration === true,
    };
    const capabilities: ServerCapabilities = Object.assign(
      { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } },
      ...features.map((feature) => feature.capabilities),
    );
    const sync = { openClose: true, change: TextDocumentSyncKind.Incremental };
    capabilities.textDocumentSync = Object.assign(sync, ...features.map((feature) => feature.sync ?? {}));
    return { serverInfo: { name: 'framewright' }, capabilities };
  });

  connection.onInitialized(async () => {
    connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
      const gone = new Set(removed.map((folder) => folder.uri));
      roots = [...roots.filter((root) => !gone.has(root)), ...added.map((folder) => folder.uri)];
    });
    if (can.register)
      await connection.client.register(DidChangeConfigurationNotification.type, { section: 'framewright' });
    await readConfiguration();
    diagnostics.lookAgainAtAll();
  });

  connection.onDidChangeConfiguration(async () => {
    await readConfiguration();
    diagnostics.lookAgainAtAll();
  });

  async function readConfiguration(): Promise<void> {
    if (!can.configure) return;
    configuration = ((await connection.workspace.getConfiguration('framewright')) ?? {}) as Configuration;
    workspace.editorSeverities = new Map(
      Object.entries(configuration.severity ?? {}),
    ) as Settings['severities'];
  }

  documents.onDidChangeContent(({ document }) => {
    workspace.setOpen(document.uri, document.getText(), kindOfLanguage[document.languageId] ?? null);
    diagnostics.lookAgain(document.uri);
  });

  documents.onDidClose(({ document }) => {
    workspace.setClosed(document.uri);
    diagnostics.forget(document.uri);
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) if (!documents.get(uri)) diagnostics.lookAgain(uri);
  });

  for (const feature of features) feature.register(session);
  documents.listen(connection);
  connection.listen();
}
