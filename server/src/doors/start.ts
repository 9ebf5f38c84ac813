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
import { configurationOf, pulledConfiguration } from '../protocol/editor-settings';
import { Faults } from '../protocol/faults';
import { features } from '../protocol/features';
import { fileDocuments, isFile } from '../protocol/file-documents';
import { answerRefused } from '../protocol/lifecycle';
import { refresher } from '../protocol/refresh';
import { Repository } from '../protocol/repository';
import type { Configuration, EditorOptions, Session } from '../protocol/session';
import type { FileKind, Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
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

/** A session as the door that opened it sees it. */
export interface StartedSession {
  /** Takes what was thrown or rejected and nobody caught: it is told, and the session goes on. */
  readonly strayed: (error: unknown) => void;
  /** The editor has said that it will end. */
  readonly isShutDown: () => boolean;
}

/**
 * Starts one editor's session.
 * @param ownFiles the disk, where there is one; null: the editor is asked for files
 * @param judges for tests
 */
export function startSession(
  connection: Connection,
  ownFiles: Files | null,
  judges: Judges = ownJudges,
): StartedSession {
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
    leadsOut: (uri, folder) => files.leadsOut(uri, folder),
  };
  const rootedFiles = withRoots(throughFiles, () => roots);
  const faults = new Faults(connection);
  const workspace = new Workspace(rootedFiles, judges);
  workspace.failed = faults.log;
  const ofFiles = fileDocuments(documents, () => roots);
  const diagnostics = new Diagnostics(connection, ofFiles, workspace, () => options.rulePages, faults);
  const refresh = refresher(connection, () => able, faults);
  const repository = new Repository({
    connection,
    documents,
    workspace,
    diagnostics,
    faults,
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
    isFile: (uri) => isFile(uri, roots),
    current: async (uri) => (isFile(uri, roots) ? diagnostics.current(uri) : null),
    onLooked: (listener) => diagnostics.onLooked(listener),
    onChanged: (listener) => changeListeners.push(listener),
    roots: () => roots,
    repository,
    faults,
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
    // the event throws where the editor did not say that it has folders
    if (able.workspace?.workspaceFolders)
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map((folder) => folder.uri));
        changeRoots([...roots.filter((root) => !gone.has(root)), ...added.map((folder) => folder.uri)]);
      });
    askToBeTold();
    if (can.configure) await pulledConfiguration(connection, take, begin);
    begin();
  });

  const begin = (): void => {
    diagnostics.lookAgainAtAll();
    checkAll();
    refresh();
  };

  /** Of changes. An editor that refuses may tell all the same, and is served without. */
  const askToBeTold = (): void => {
    const refusedBy = (error: Error): void =>
      connection.console.warn(`not told of changes: ${error.message}`);
    if (can.register)
      connection.client
        .register(DidChangeConfigurationNotification.type, { section: 'framewright' })
        .catch(refusedBy);
    if (can.watch)
      connection.client
        .register(DidChangeWatchedFilesNotification.type, {
          watchers: namePatterns.map((globPattern) => ({ globPattern })),
        })
        .catch(refusedBy);
  };

  /** Documents whose folder came or went become files or cease to be. */
  const changeRoots = (now: string[]): void => {
    const [were, before] = [ofFiles.all(), roots];
    for (const document of were) if (!isFile(document.uri, now)) closed(document);
    roots = now;
    for (const document of ofFiles.all()) if (!isFile(document.uri, before)) changed(document);
    checkAll();
  };

  connection.onDidChangeConfiguration(async ({ settings }) => {
    const choices = choicesOfCheck();
    if (can.configure) await pulledConfiguration(connection, take, begin);
    else take(configurationOf((settings as { framewright?: unknown } | null)?.framewright));
    diagnostics.lookAgainAtAll();
    if (choicesOfCheck() !== choices) checkAll();
    refresh();
  });

  const checkAll = (): void => repository.lookAtAll(roots, configuration.checkWholeWorkspace !== false);

  /** What a check of all files depends on. */
  const choicesOfCheck = (): string =>
    JSON.stringify([configuration.checkWholeWorkspace !== false, configuration.severity ?? {}]);

  const take = (given: Configuration): void => {
    configuration = given;
    workspace.editorSeverities = new Map(Object.entries(given.severity ?? {})) as Settings['severities'];
  };

  const changed = (document: TextDocument): void => {
    workspace.setOpen(document.uri, document.getText(), kindOfLanguage.get(document.languageId) ?? null);
    diagnostics.lookAgain(document.uri);
    repository.edited({ uri: document.uri, text: document.getText() });
    // a job is shown as judged by its chassis file and settings
    if (workspace.kindOf(document.uri) !== 'readings') refresh();
    tellChanged(document.uri);
  };

  const closed = (document: TextDocument): void => {
    workspace.setClosed(document.uri);
    const isTakenOver = repository.closed({ uri: document.uri, text: document.getText() });
    diagnostics.forget(document.uri, isTakenOver);
    tellChanged(document.uri);
  };

  documents.onDidChangeContent(({ document }) => {
    if (isFile(document.uri, roots)) changed(document);
  });
  documents.onDidClose(({ document }) => {
    if (isFile(document.uri, roots)) closed(document);
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri, type } of changes) {
      if (!documents.get(uri)) diagnostics.lookAgain(uri);
      repository.changedOnDisk(uri, howOf[type]);
      tellChanged(uri);
    }
    refresh();
  });

  let isShutDown = false;
  connection.onShutdown(() => {
    isShutDown = true;
    repository.stop();
  });

  answerRefused(connection);
  for (const feature of features) feature.register(session);
  documents.listen(connection);
  connection.listen();
  return {
    strayed: (error) => faults.stray('a fault that nobody caught', error),
    isShutDown: () => isShutDown,
  };
}
