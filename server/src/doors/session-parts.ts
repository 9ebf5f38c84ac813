import { type ClientCapabilities, type Connection, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { clientFiles, withRoots } from '../protocol/client-files';
import { Diagnostics } from '../protocol/diagnostics';
import { EarlierRevisions } from '../protocol/earlier-revisions';
import { Faults } from '../protocol/faults';
import { fileDocuments, isFile } from '../protocol/file-documents';
import { refresher } from '../protocol/refresh';
import { Repository } from '../protocol/repository';
import type { Configuration, EditorOptions, Session } from '../protocol/session';
import { TypedRows } from '../protocol/typed-rows';
import type { Files } from '../workspace/files';
import type { Judges } from '../workspace/judges';
import { Workspace } from '../workspace/workspace';

/** What an editor says of itself and its user, now this and now that. */
export interface SessionState {
  roots: string[];
  files: Files;
  options: EditorOptions;
  configuration: Configuration;
  able: ClientCapabilities;
  can: Abilities;
}

/** What the editor lets itself be asked for. */
export interface Abilities {
  readonly configure: boolean;
  readonly register: boolean;
  readonly watch: boolean;
}

/** What one session is made of. */
export interface SessionParts {
  readonly connection: Connection;
  readonly state: SessionState;
  readonly documents: TextDocuments<TextDocument>;
  readonly ofFiles: ReturnType<typeof fileDocuments>;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
  readonly rows: TypedRows;
  readonly repository: Repository;
  readonly earlier: EarlierRevisions;
  readonly faults: Faults;
  readonly refresh: () => void;
}

export function sessionParts(connection: Connection, ownFiles: Files | null, judges: Judges): SessionParts {
  const documents = new TextDocuments(TextDocument);
  const state: SessionState = {
    roots: [],
    files: ownFiles ?? clientFiles(connection),
    options: {
      rulePages: null,
      asks: false,
      shows: [],
      tellsCursor: false,
      resolvesEdits: false,
      readsFiles: false,
      spreadsheets: null,
    },
    configuration: {},
    able: {},
    can: { configure: false, register: false, watch: false },
  };
  const roots = () => state.roots;
  const rulePages = () => state.options.rulePages;
  const files = withRoots(filesOf(state), roots);
  const faults = new Faults(connection);
  const workspace = new Workspace(files, judges);
  workspace.failed = faults.log;
  const ofFiles = fileDocuments(documents, roots);
  const refresh = refresher(connection, () => state.able, faults);
  const rows: TypedRows = new TypedRows(() => state.options.tellsCursor, {
    settled: (uri) => {
      diagnostics.showAgain(uri);
      refresh();
    },
    failed: (error) => faults.stray('a row that was typed', error),
  });
  const diagnostics = new Diagnostics({ connection, documents: ofFiles, workspace, rows, rulePages, faults });
  const repository = new Repository({
    connection,
    documents,
    workspace,
    diagnostics,
    faults,
    files,
    rulePages,
  });
  const asked = clientFiles(connection);
  const earlier = new EarlierRevisions({
    documents,
    files,
    judges,
    read: async (uri) =>
      state.options.readsFiles
        ? asked.read(uri)
        : { kind: 'unreadable', message: 'this editor does not tell what stood in it' },
  });
  return {
    connection,
    state,
    documents,
    ofFiles,
    workspace,
    diagnostics,
    rows,
    repository,
    earlier,
    faults,
    refresh,
  };
}

/** Whose files they are is known once the editor has said it. */
const filesOf = (state: SessionState): Files => ({
  read: (uri) => state.files.read(uri),
  list: (folder, ignored) => state.files.list(folder, ignored),
  root: (uri) => state.files.root(uri),
  leadsOut: (uri, folder) => state.files.leadsOut(uri, folder),
});

/** Who wants to hear of each file that changed. */
export type ChangeListeners = ((uri: string) => void)[];

/** The session as its features see it. */
export function sessionOf(
  parts: SessionParts,
  listeners: ChangeListeners,
  checkAll: () => void,
): Omit<Session, 'spreadsheets'> {
  const { connection, state, documents, workspace, diagnostics, rows, repository, earlier, faults } = parts;
  return {
    connection,
    documents,
    workspace,
    options: () => state.options,
    configuration: () => state.configuration,
    able: () => state.able,
    isFile: (uri) => isFile(uri, state.roots),
    current: async (uri) => (isFile(uri, state.roots) ? diagnostics.current(uri) : null),
    shown: async (uri) => (isFile(uri, state.roots) ? diagnostics.shown(uri) : earlier.shown(uri)),
    cursorAt: (uri, line) => rows.cursorAt(uri, line),
    onLooked: (listener) => diagnostics.onLooked(listener),
    onChanged: (listener) => listeners.push(listener),
    roots: () => state.roots,
    repository,
    faults,
    checkAll,
  };
}
