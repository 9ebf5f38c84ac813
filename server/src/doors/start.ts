import {
  type ClientCapabilities,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Settings } from '../model/read/settings';
import { clientFiles, filesByScheme, withRoots } from '../protocol/client-files';
import { Diagnostics } from '../protocol/diagnostics';
import { features } from '../protocol/features';
import { refresher } from '../protocol/refresh';
import { Repository } from '../protocol/repository';
import type { Configuration, EditorOptions, Session } from '../protocol/session';
import type { FileKind, Files } from '../workspace/files';
import { Workspace } from '../workspace/workspace';

const kindOfLanguage: ReadonlyMap<string, FileKind> = new Map([
  ['framewright-chassis', 'chassis'],
  ['framewright-readings', 'readings'],
  ['framewright-settings', 'settings'],
]);

/** Names of our files, for editors that are asked to tell when one changes. */
const namePatterns = ['**/*.chassis.yaml', '**/*.readings.yaml', '**/.framewright.yaml'];

const howOf: Record<FileChangeType, 'created' | 'changed' | 'deleted'> = {
  [FileChangeType.Created]: 'created',
  [FileChangeType.Changed]: 'changed',
  [FileChangeType.Deleted]: 'deleted',
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
  let able: ClientCapabilities = {};
  let can = { configure: false, register: false, watch: false };
  const throughFiles: Files = {
    read: (uri) => files.read(uri),
    list: (folder, ignored) => files.list(folder, ignored),
    root: (uri) => files.root(uri),
  };
  const rootedFiles = withRoots(throughFiles, () => roots);
  const workspace = new Workspace(rootedFiles);
  const diagnostics = new Diagnostics(connection, documents, workspace, () => options.rulePages);
  const refresh = refresher(connection, () => able);
  const repository = new Repository({
    connection,
    documents,
    workspace,
    diagnostics,
    files: rootedFiles,
    rulePages: () => options.rulePages,
  });
  const changeListeners: ((uri: string) => void)[] = [];
  const tellChanged = (uri: string): void => {
    for (const listener of changeListeners) listener(uri);
  };
  const session: Session = {
    connection,
    documents,
    workspace,
    options: () => options,
    configuration: () => configuration,
    able: () => able,
    current: (uri) => diagnostics.current(uri),
    onLooked: (listener) => diagnostics.onLooked(listener),
    onChanged: (listener) => changeListeners.push(listener),
    roots: () => roots,
    repository,
    checkAll: () => checkAll(),
  };

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    const { rootUri } = params;
    const folders = params.workspaceFolders ?? (rootUri ? [{ uri: rootUri }] : []);
    roots = folders.map((folder) => folder.uri);
    const given = (params.initializationOptions ?? {}) as Partial<EditorOptions> & {
      readFilesThroughClient?: boolean | 'virtual';
      watchesFiles?: boolean;
    };
    const resolvable = params.capabilities.textDocument?.codeAction?.resolveSupport?.properties ?? [];
    options = {
      rulePages: given.rulePages ?? null,
      asks: given.asks === true,
      resolvesEdits: resolvable.includes('edit'),
    };
    if (ownFiles && given.readFilesThroughClient) {
      const virtual = clientFiles(connection);
      files = given.readFilesThroughClient === 'virtual' ? filesByScheme(ownFiles, virtual) : virtual;
    }
    able = params.capabilities;
    can = {
      configure: able.workspace?.configuration === true,
      register: able.workspace?.didChangeConfiguration?.dynamicRegistration === true,
      watch:
        given.watchesFiles !== true && able.workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    };
    const capabilities: ServerCapabilities = Object.assign(
      {},
      ...features.map((feature) => feature.capabilities),
    );
    const workspaceFolders = { supported: true, changeNotifications: true };
    const ofWorkspace = features.flatMap((feature) => feature.capabilities.workspace ?? []);
    const fileOperations = Object.assign({}, ...ofWorkspace.map((each) => each.fileOperations ?? {}));
    capabilities.workspace = Object.assign({}, ...ofWorkspace, { workspaceFolders, fileOperations });
    const sync = { openClose: true, change: TextDocumentSyncKind.Incremental };
    capabilities.textDocumentSync = Object.assign(sync, ...features.map((feature) => feature.sync ?? {}));
    return { serverInfo: { name: 'framewright' }, capabilities };
  });

  connection.onInitialized(async () => {
    connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
      const gone = new Set(removed.map((folder) => folder.uri));
      roots = [...roots.filter((root) => !gone.has(root)), ...added.map((folder) => folder.uri)];
      checkAll();
    });
    if (can.register)
      await connection.client.register(DidChangeConfigurationNotification.type, { section: 'framewright' });
    if (can.watch)
      await connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: namePatterns.map((globPattern) => ({ globPattern })),
      });
    await readConfiguration();
    diagnostics.lookAgainAtAll();
    checkAll();
    refresh();
  });

  connection.onDidChangeConfiguration(async () => {
    const choices = choicesOfCheck();
    await readConfiguration();
    diagnostics.lookAgainAtAll();
    if (choicesOfCheck() !== choices) checkAll();
    refresh();
  });

  const checkAll = (): void => repository.lookAtAll(roots, configuration.checkWholeWorkspace !== false);

  /** What a check of all files depends on. */
  const choicesOfCheck = (): string =>
    JSON.stringify([configuration.checkWholeWorkspace !== false, configuration.severity ?? {}]);

  async function readConfiguration(): Promise<void> {
    if (!can.configure) return;
    configuration = ((await connection.workspace.getConfiguration('framewright')) ?? {}) as Configuration;
    workspace.editorSeverities = new Map(
      Object.entries(configuration.severity ?? {}),
    ) as Settings['severities'];
  }

  documents.onDidChangeContent(({ document }) => {
    workspace.setOpen(document.uri, document.getText(), kindOfLanguage.get(document.languageId) ?? null);
    diagnostics.lookAgain(document.uri);
    repository.edited({ uri: document.uri, text: document.getText() });
    // a job is shown as judged by its chassis file and settings
    if (workspace.kindOf(document.uri) !== 'readings') refresh();
    tellChanged(document.uri);
  });

  documents.onDidClose(({ document }) => {
    workspace.setClosed(document.uri);
    const isTakenOver = repository.closed({ uri: document.uri, text: document.getText() });
    diagnostics.forget(document.uri, isTakenOver);
    tellChanged(document.uri);
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri, type } of changes) {
      if (!documents.get(uri)) diagnostics.lookAgain(uri);
      repository.changedOnDisk(uri, howOf[type]);
      tellChanged(uri);
    }
    refresh();
  });

  connection.onShutdown(() => repository.stop());

  for (const feature of features) feature.register(session);
  documents.listen(connection);
  connection.listen();
}
