import { type Connection, FileChangeType } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Settings } from '../model/read/settings';
import { configurationOf, pulledConfiguration } from '../protocol/editor-settings';
import { features } from '../protocol/features';
import { isFile } from '../protocol/file-documents';
import { answerRefused } from '../protocol/lifecycle';
import type { Configuration, SpreadsheetReader } from '../protocol/session';
import type { FileKind, Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { askToBeTold, initialized } from './initialize';
import { type ChangeListeners, type SessionParts, sessionOf, sessionParts } from './session-parts';

const kindOfLanguage: ReadonlyMap<string, FileKind> = new Map([
  ['framewright-chassis', 'chassis'],
  ['framewright-readings', 'readings'],
  ['framewright-settings', 'settings'],
]);

const howOf: Record<FileChangeType, 'created' | 'changed' | 'deleted'> = {
  [FileChangeType.Created]: 'created',
  [FileChangeType.Changed]: 'changed',
  [FileChangeType.Deleted]: 'deleted',
};

/** A session as the door that opened it sees it. */
interface StartedSession {
  /** Takes what was thrown or rejected and nobody caught: it is told, and the session goes on. */
  readonly strayed: (error: unknown) => void;
  /** The editor has said that it will end. */
  readonly isShutDown: () => boolean;
}

/**
 * Starts one editor's session.
 * @param ownFiles the disk, where there is one; null: the editor is asked for files
 * @param spreadsheets reads them, where this door can load what does
 * @param judges for tests
 */
export function startSession(
  connection: Connection,
  ownFiles: Files | null,
  spreadsheets: SpreadsheetReader | null = null,
  judges: Judges = ownJudges,
): StartedSession {
  const parts = sessionParts(connection, ownFiles, judges);
  const { state, documents, repository, faults } = parts;
  const checkAll = (): void => repository.lookAtAll(state.roots, checksAll(state.configuration));
  const listeners: ChangeListeners = [];
  const session = { ...sessionOf(parts, listeners, checkAll), spreadsheets };
  const events = fileEvents(parts, listeners);
  const settle = configurationEvents(parts, checkAll);

  connection.onInitialize((params) => initialized(params, state, connection, ownFiles));
  connection.onInitialized(async () => {
    // the event throws where the editor did not say that it has folders
    if (state.able.workspace?.workspaceFolders)
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map((folder) => folder.uri));
        const left = state.roots.filter((root) => !gone.has(root));
        events.changeRoots([...left, ...added.map((folder) => folder.uri)]);
        checkAll();
      });
    askToBeTold(connection, state.can);
    await settle();
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

const checksAll = ({ checkWholeWorkspace }: Configuration): boolean => checkWholeWorkspace !== false;

/** Follows the user's choices. What it answers begins the session with the first of them. */
function configurationEvents(parts: SessionParts, checkAll: () => void): () => Promise<void> {
  const { connection, state, workspace, diagnostics, refresh } = parts;
  const take = (given: Configuration): void => {
    state.configuration = given;
    workspace.editorSeverities = new Map(Object.entries(given.severity ?? {})) as Settings['severities'];
  };
  const begin = (): void => {
    diagnostics.lookAgainAtAll();
    checkAll();
    refresh();
  };
  /** What a check of all files depends on. */
  const choicesOfCheck = (): string =>
    JSON.stringify([checksAll(state.configuration), state.configuration.severity ?? {}]);

  connection.onDidChangeConfiguration(async ({ settings }) => {
    const choices = choicesOfCheck();
    if (state.can.configure) await pulledConfiguration(connection, take, begin);
    else take(configurationOf(settings?.framewright));
    diagnostics.lookAgainAtAll();
    if (choicesOfCheck() !== choices) checkAll();
    refresh();
  });
  return async () => {
    if (state.can.configure) await pulledConfiguration(connection, take, begin);
    begin();
  };
}

/** Follows the files, in the editor and on the disk. */
function fileEvents(parts: SessionParts, listeners: ChangeListeners) {
  const { connection, state, documents, ofFiles, workspace, diagnostics, rows, repository, refresh } = parts;
  const tellChanged = (uri: string): void => {
    for (const listener of listeners) listener(uri);
  };
  const changed = (document: TextDocument): void => {
    workspace.setOpen(document.uri, document.getText(), kindOfLanguage.get(document.languageId) ?? null);
    if (workspace.kindOf(document.uri) === 'readings') rows.edited(document.uri, document.getText());
    diagnostics.lookAgain(document.uri);
    repository.edited({ uri: document.uri, text: document.getText() });
    // a job is shown as judged by its chassis file and settings
    if (workspace.kindOf(document.uri) !== 'readings') refresh();
    tellChanged(document.uri);
  };
  const closed = (document: TextDocument): void => {
    workspace.setClosed(document.uri);
    rows.closed(document.uri);
    const isTakenOver = repository.closed({ uri: document.uri, text: document.getText() });
    diagnostics.forget(document.uri, isTakenOver);
    tellChanged(document.uri);
  };

  documents.onDidChangeContent(({ document }) => {
    if (isFile(document.uri, state.roots)) changed(document);
  });
  documents.onDidClose(({ document }) => {
    if (isFile(document.uri, state.roots)) closed(document);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri, type } of changes) {
      if (!documents.get(uri)) diagnostics.lookAgain(uri);
      repository.changedOnDisk(uri, howOf[type]);
      tellChanged(uri);
    }
    if (changes.some(({ type }) => howOf[type] !== 'changed')) diagnostics.filesCameOrWent();
    refresh();
  });
  return {
    /** Documents whose folder came or went become files or cease to be. */
    changeRoots(now: string[]): void {
      const [were, before] = [ofFiles.all(), state.roots];
      for (const document of were) if (!isFile(document.uri, now)) closed(document);
      state.roots = now;
      for (const document of ofFiles.all()) if (!isFile(document.uri, before)) changed(document);
    },
  };
}
